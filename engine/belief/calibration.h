// What the readings teach: the most probable guitar, and how sure it is by now.
//
// Maximum a posteriori: with the unknowns in units of their prior spreads and every reading in units of its
// own, x minimizes ½|x|² + ½ Σ ((predicted(x) − read)/σ)². Gauss–Newton with Levenberg–Marquardt's damping as
// the safeguard; at the minimum the posterior covariance is (1 + JᵀJ)⁻¹. Besides the guitar's unknowns
// (belief.h) every visit to the claw brings one: by how much the screws turned further than was counted,
// ±0.06 turn, adding up from visit to visit. A reading that lies more than `outlier_sigmas` from what all the
// others predict (their spread and its own together) is named and left out, the worst first, not silently
// absorbed.
#pragma once

#include "engine/belief/playback.h"

#include <optional>
#include <vector>

namespace counterpull {

inline constexpr double outlier_sigmas = 4.0;
// With more than this many that do not fit, it is not the readings that are wrong.
inline constexpr int most_left_out = 10;
// Done where no unknown moves by more than this share of its prior spread.
inline constexpr double settled_step = 1e-7;
inline constexpr int most_fit_steps = 40;

struct FittedReading {
    Observation observation;
    double predicted = 0.0; // by the fit, in the observation's unit
    bool left_out = false;  // an outlier
    double sigmas = 0.0;    // how far it lies from what the others predict
};

struct Calibration {
    Belief belief;
    bool converged = true;
    int iterations = 0;
    double half_chi2 = 0.0; // what was minimized
    std::vector<FittedReading> readings;
    std::optional<Strung> left; // the bridge as the last entry of the log left it, by the fit
};

// With no readings, the prior. `setup` must outlive the result and must have passed check_setup.
Calibration calibrate(const Setup& setup);

// A test reading that needs no screwdriver, and what it would leave of the spread.
struct TestReading {
    ReadingKind kind = ReadingKind::drop;
    int string = 1; // the player's number
    double by_cents = 0.0;
    double sigma_after = 0.0;
};

// Of those that can be taken now, in tune and before the first turn, the one after which a quantity with this
// gradient is surest; nothing where none helps.
std::optional<TestReading> best_test_reading(const Belief& belief, const Deviations& gradient);

} // namespace counterpull
