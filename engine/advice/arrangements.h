// Which ways to hook springs into the bay are worth calculating.
#pragma once

#include "engine/document/placed_springs.h"

#include <vector>

namespace counterpull {

// Straight arrangements: as it is now, and for every number of springs from 1 to what the bay takes, and
// every mix of the kinds at hand (those fitted with a spring of their own, and guitar.other_springs), the one
// that is straightest, then most symmetric, then moves the fewest springs, then is spread most evenly. With
// equal springs those of one number all balance alike; only what comes after differs. Of the guitar's own
// kind more may be used than there are (they can be bought); not of others.
std::vector<Arrangement> straight_arrangements(const Setup& setup);

// The last resort: symmetric ones with springs led across, from a hook to a hole that is not opposite;
// longer, so they pull harder, and partly sideways. At most `most_splayed` for each number, most splayed
// last.
inline constexpr int most_splayed = 3;
std::vector<Arrangement> splayed_arrangements(const Setup& setup);

} // namespace counterpull
