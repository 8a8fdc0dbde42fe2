// A test reading that needs no screwdriver, and what it would leave of the spread.
#pragma once

#include "engine/belief/belief.h"

#include <optional>

namespace counterpull {

struct TestReading {
    ReadingKind kind = ReadingKind::drop;
    int string = 1; // the player's number
    double by_cents = 0.0;
    double sigma_after = 0.0;
};

// Of those that can be taken now, in tune and before the first turn, the one after which a quantity with this
// gradient is surest; nothing where none leaves less than `worth_taking` of `sigma_now`, its 1 σ by now.
//
// With readings as expected, J their derivatives in units of their spreads (all priors 1) and g the gradient,
// conditioning on them leaves  σ² = gᵀg − (J g)ᵀ (1 + J Jᵀ)⁻¹ (J g):  a few rows each, no inverse of all.
// Spring lengths read now are among the rows of every one.
inline constexpr double worth_taking = 0.9;
std::optional<TestReading> best_test_reading(const Setup& setup, const Deviations& gradient,
                                             double sigma_now);

} // namespace counterpull
