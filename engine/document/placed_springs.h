// Springs hooked into the bay.
#pragma once

#include "engine/document/setup.h"

#include <vector>

namespace counterpull {

using Arrangement = std::vector<PlacedSpring>; // by hook, from the bass side

// The springs on it at the last reading, or now where there is none.
const Arrangement& fitted_springs(const Setup& setup);

// `count` springs spread evenly over hooks and holes. `count` is at most the number of either. Part of every
// link there is (link.cpp): not to change.
Arrangement evenly_placed(const BaySetup& bay, int count);

// How many springs have to be put in, taken out or moved to get from one to the other.
int springs_moved(const Arrangement& from, const Arrangement& to);

// Of the guitar's own kind of spring, how many an arrangement needs.
int springs_needed(const Arrangement& springs);

} // namespace counterpull
