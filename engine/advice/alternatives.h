// What would work where nothing fits: other springs, another set, another tuning, each the nearest.
#pragma once

#include "engine/advice/solution.h"

#include <string>

namespace counterpull {

enum class Change { springs, strings, tuning };

struct Alternative {
    Change change = Change::springs;
    std::string preset;  // name of the spring or string set, "" for a tuning
    int semitones = 0;   // of a tuning, all strings alike, + higher
    Arrangement springs; // the arrangement that would do it
    double turns = 0.0;  // of both screws, from now
};

// Tunings are tried this far either way, in semitones.
inline constexpr int farthest_tuning = 5;

// In the order in which a player would rather do it; empty where none of these helps.
std::vector<Alternative> nearest_that_works(const Solution& solution);

} // namespace counterpull
