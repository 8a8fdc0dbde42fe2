// The answer in one sentence that a player can act on, and the few that stand under it.
#pragma once

#include "engine/advice/report.h"
#include "engine/say/words.h"

#include <string>
#include <vector>

namespace counterpull {

// Less than this is not worth a screwdriver: it rounds to no eighth of a turn.
inline constexpr double least_turn = 1.0 / 16.0;

// "Add a spring, then tighten each claw screw 2¼ turns clockwise (2 to 2½)." or why it cannot float. Turns
// are to the nearest eighth, as a screwdriver makes them; the range holds about nine times in ten.
Phrase answer_sentence(const Setup& setup, const Report& report, const Words& words);

// What stands under it: which hooks and holes where the springs change, what would work instead where nothing
// fits, what the tail reads before retuning and back in tune, what belongs to the posts and what to the claw,
// and what would happen if nothing were done.
std::vector<Phrase> answer_details(const Setup& setup, const Report& report);

// What would work where nothing fits.
Phrase sentence_of(const Alternative& alternative);

// Where the tail stands once the advice is carried out, with its spread; nothing where nothing fits.
std::optional<Phrase> back_in_tune(const Setup& setup, const Report& report);

// The test reading worth taking before the first turn, with what it would leave of the spread.
std::optional<Phrase> test_reading_in_words(const Report& report);

// The things whose spread matters most for this change, at most three; nothing where there are no turns.
std::optional<Phrase> what_matters_most(const Report& report, const Words& words);

// " (2 to 2½)", ", give or take ⅜" where it may be either way, or nothing where that says no more.
std::string range_in_words(double turns, double sigma, const Words& words);

// "2¼ turns", "½ turn".
std::string turns_in_words(double turns, const Words& words);

// The advice worth telling: what fits, what would with springs yet to be bought, and the springs as they are;
// best first. The report has all.
std::vector<const Advice*> told_choices(const Report& report);

// "4 on hooks 1, 2, 4, 5"; the holes too where they are not the ones opposite, and how many are of another
// kind.
std::string choice_in_words(const Advice& advice, const Words& words);

// Hooks or holes as a player counts them, from 1 at the bass side: "1, 3, 5".
std::string hooks_in_words(const std::vector<PlacedSpring>& springs);
std::string holes_in_words(const std::vector<PlacedSpring>& springs);

} // namespace counterpull
