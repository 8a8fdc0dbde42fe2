// The answer in one sentence that a player can act on, and the few that stand under it.
#pragma once

#include "engine/advice/report.h"
#include "engine/say/names.h"

#include <optional>
#include <vector>

namespace counterpull {

// "Add a spring, then tighten each claw screw 2¼ turns clockwise (2 to 2½)." or why it cannot float. Turns
// are to the nearest eighth, as a screwdriver makes them; the range holds about nine times in ten.
Phrase answer_sentence(const Report& report);

// What stands under it: which hooks and holes where the springs change, what would work instead where nothing
// fits, what the tail reads before retuning and back in tune, what belongs to the posts and what to the claw,
// and what would happen if nothing were done.
std::vector<Phrase> answer_details(const Report& report);

// Where the tail stands once the advice is carried out, with its spread; nothing where nothing fits.
std::optional<Phrase> back_in_tune(const Report& report);

// A test reading to take before the first turn, with what it would leave of the spread.
Phrase sentence_of(const TestReading& test, const Advice& advised);

// The things whose spread matters most for this change, at most three; nothing where there are no turns.
std::optional<Phrase> what_matters_most(const Report& report);

// The advice worth telling: what fits, what would with springs yet to be bought, and the springs as they are;
// best first. The report has all.
std::vector<const Advice*> told_choices(const Report& report);

// "4 on hooks 1, 2, 4, 5"; the holes too where they are not the ones opposite, and how many are of another
// kind.
Parts choice_of(const Advice& advice);

} // namespace counterpull
