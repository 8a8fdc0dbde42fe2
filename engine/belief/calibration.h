// The belief conditioned on the readings: the most probable guitar, and how sure it is by now. What
// minimizes, and with which derivatives, is fit.h.
//
// It may not fool itself:
// - There may be more than one minimum. Where the fit from the prior's mean does not converge, or leaves a
//   reading more than `outlier_sigmas` of its own spreads off, it is sought from `further_starts` other
//   points as well, either way along the directions that the readings leave least sure; the best is taken.
// - A reading that lies more than `outlier_sigmas` from what all the others predict (their spread and its own
//   together) is left out and named, the worst first. But a single reading is never an outlier: there is
//   nothing that it is outside of. And of two that contradict each other, each of them fine without the
//   other, both are suspect: both stay, both are named.
// - Where it still does not converge, or meets a reading worse than that, it is told (`is_sound`), and the
//   covariance is that of the fit times max(1, χ²/readings): what readings that pull apart say is little.
#pragma once

#include "engine/belief/fit.h"

#include <algorithm>
#include <optional>
#include <vector>

namespace counterpull {

// With more than this many that do not fit, it is not the readings that are wrong.
inline constexpr int most_left_out = 10;
inline constexpr int further_starts = 4;
// How far from the best so far they lie, in spreads along their direction.
inline constexpr double start_sigmas = 2.0;

enum class Trust {
    full,
    left_out, // an outlier
    suspect,  // contradicted, and nothing says which of them is wrong
};

struct FittedReading {
    Observation observation;
    double predicted = 0.0; // by the fit, in the observation's unit
    Trust trust = Trust::full;
    double sigmas = 0.0; // how far it lies from what the others predict
};

struct Calibration {
    Belief belief;
    bool converged = true;
    int starts = 0;       // from how many points it was sought; 0 without readings
    double worst = 0.0;   // of the readings not left out, how many of its own spreads the worst is off
    double widened = 1.0; // what the covariance is multiplied by
    int iterations = 0;
    double half_chi2 = 0.0; // what was minimized
    std::vector<FittedReading> readings{};
    std::optional<Strung> left{}; // the bridge as the last entry of the log left it, by the fit
    Linearization linearized{};   // the readings at the fit

    // Its answer may be believed.
    bool is_sound() const { return converged && worst <= outlier_sigmas; }
    // Readings contradict each other, and nothing says which of them is wrong.
    bool contradicted() const {
        return std::any_of(readings.begin(), readings.end(),
                           [](const FittedReading& reading) { return reading.trust == Trust::suspect; });
    }
};

// With no readings, the prior. `setup` must outlive the result and must have passed check_setup.
Calibration calibrate(const Setup& setup);

// What the last entry of the log read that is more than `outlier_sigmas` from what was expected of it by all
// before it (with how surely that was known, and its own spread): worth reading again at once. `predicted` is
// what was expected.
std::vector<FittedReading> unexpected_readings(const Setup& setup);

} // namespace counterpull
