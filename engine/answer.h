// The answer in one sentence that a player can act on, and the few that stand under it.
#pragma once

#include "engine/report.h"

#include <string>
#include <vector>

namespace counterpull {

// "Add a spring, then tighten each claw screw 2¼ turns (clockwise)." or why it cannot float. Turns are to
// the nearest eighth, as a screwdriver makes them.
Phrase answer_sentence(const Setup& setup, const Report& report, const Words& words);

// Which hooks and holes where the springs change, what the tail reads before retuning and back in tune, and
// what would happen if nothing were done.
std::vector<Phrase> answer_details(const Report& report);

// "2¼ turns", "½ turn".
std::string turns_in_words(double turns, const Words& words);

// Hooks or holes as a player counts them, from 1 at the bass side: "1, 3, 5".
std::string hooks_in_words(const std::vector<PlacedSpring>& springs);
std::string holes_in_words(const std::vector<PlacedSpring>& springs);

} // namespace counterpull
