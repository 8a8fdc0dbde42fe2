// The answer in one sentence that a player can act on, and the few that stand under it.
#pragma once

#include "engine/advice/report.h"
#include "engine/say/names.h"

#include <optional>
#include <vector>

namespace counterpull {

// "Add a spring, then tighten each claw screw 2¼ turns clockwise (2 to 2½)." or why it cannot float, or not
// on the springs chosen. Turns are to the nearest eighth, as a screwdriver makes them; the range holds about
// nine times in ten.
Phrase answer_sentence(const Report& report);

// What stands under it: which hooks and holes where the springs change, what was recommended where the
// springs chosen do not fit, what would work instead where nothing fits, what the tail reads before retuning
// and back in tune, what belongs to the posts and what to the claw, and what would happen if nothing were
// done.
std::vector<Phrase> answer_details(const Report& report);

// By how much the bass side of the tail stands higher than the treble side now; 0 where that is within a
// ruler's error.
double sides_differ_mm(const Setup& setup);

// Where the tail stands once the advice is carried out, with its spread, or that it may be anywhere between
// its stops; nothing where the advice does not fit.
std::optional<Phrase> back_in_tune(const Report& report);

// A test reading to take before the first turn, with what it would leave of the spread.
Phrase sentence_of(const TestReading& test, const Report& report);
// The note that the string of a test reading goes to, from the one that it is in now.
struct NotesOfTest {
    Pitch from, to;
};
NotesOfTest notes_of_test(const TestReading& test, const Setup& setup);

// The things whose spread matters most for this change, at most three; nothing where there are no turns.
std::optional<Phrase> what_matters_most(const Report& report);

// The advice worth telling: what fits, what would with springs yet to be bought, and the springs as they are;
// best first. The report has all.
std::vector<const Advice*> told_choices(const Report& report);

// "4 on hooks 1, 2, 4, 5"; the holes too where they are not the ones opposite, and how many are of another
// kind.
Parts choice_of(const Arrangement& springs);
// The turns from where the screws stand now, and their way: "⅜ turn, tighter (0.36 ± 0.2)"; those that no
// screwdriver makes are none.
Phrase turns_of(const Report& report, const Advice& advice);
// "about 25 minutes", "about 40 minutes": to 5 minutes below half an hour, 10 below an hour, then half
// hours.
Phrase time_in_words(double minutes);
// How much harder the arm feels than now, as a share; nothing where one of the two is not known. And that in
// a few words: "15 % stiffer".
std::optional<double> arm_harder(const Report& report, const Advice& advice);
Phrase compared_arm(double harder);
// Where it fits: how long it takes, unless it is done, and how the arm will feel against now. A share is told
// where it differs by more than `felt_share` (ours; under that nobody tells).
inline constexpr double felt_share = 0.08;
std::vector<Phrase> outlook_of(const Report& report, const Advice& advice);

} // namespace counterpull
