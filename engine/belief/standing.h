// What a guitar that stands in tune already says: it has not run away, so its float is about as stiff as
// floats are.
//
// The prior spreads of the numbers are independent (belief.h), and that is too modest: together they allow
// guitars that no one could keep in tune. So the covariance is conditioned on one pseudo-reading of the
// stiffness. With s the mm of tail per turn of both screws at pitch, on this guitar as it would be with usual
// strings in standard tuning on three of its springs, level, whatever is fitted:
//     ln |s| is read as ln 3.4 ± 0.35    (common practice, from memory: ¼ turn moves the tail 0.6 to 1.2 mm)
// linearized at the numbers of the set-up. It shapes the covariance only: the mean stays with the numbers.
#pragma once

#include "engine/belief/belief.h"

namespace counterpull {

inline constexpr double usual_per_turn_mm = 3.4;
inline constexpr double usual_per_turn_sigma = 0.35; // of its logarithm

// d(ln |s|)/dz of each unknown, in units of usual_per_turn_sigma. By central differences: no digit of the
// spread depends on more. All zero where such a guitar has no balance to speak of: then nothing is said.
Deviations stands_in_tune(const Belief& belief);

} // namespace counterpull
