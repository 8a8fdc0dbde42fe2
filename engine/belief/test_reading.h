// Test readings that need no screwdriver, and what each would leave of a spread.
#pragma once

#include "engine/belief/chain.h"

#include <optional>
#include <vector>

namespace counterpull {

struct TestReading {
    ReadingKind kind = ReadingKind::drop;
    int string = 1; // the player's number
    double by_cents = 0.0;
    double sigma_after = 0.0;
};

inline constexpr double worth_taking = 0.9;

// Those that can be taken now, in tune and before the first turn: any string let down by a tone, or a high
// one pushed up by as much.
//
// With readings as expected, J their derivatives in units of their spreads, what standing in tune says among
// them (all priors 1), and g the gradient of a quantity, conditioning on them leaves
// σ² = gᵀg − (J g)ᵀ (1 + J Jᵀ)⁻¹ (J g):  a few rows each, no inverse of all. Spring lengths read now are
// among the rows of every one.
class TestReadings {
  public:
    // None where the set-up of `prior` is not in tune or has readings already.
    explicit TestReadings(const Belief& prior);

    // The one after which a quantity with this gradient is surest; nothing where none leaves less than
    // `worth_taking` of `sigma_now`, its 1 σ by now. Letting down goes before pushing up, which is told only
    // where no letting down is worth it: nobody reads five strings while bending one by just so much.
    std::optional<TestReading> best(const Deviations& gradient, double sigma_now) const;

  private:
    struct Candidate {
        TestReading reading;
        std::vector<double> rows; // row by row, `width_` each
    };
    std::vector<Candidate> all_;
    Columns columns_;
    std::size_t width_ = 0;
};

} // namespace counterpull
