// The belief conditioned on the readings: the most probable guitar, and how sure it is by now. What
// minimizes, and with which derivatives, is fit.h. A reading that lies more than `outlier_sigmas` from what
// all the others predict (their spread and its own together) is named and left out, the worst first, not
// silently absorbed.
#pragma once

#include "engine/belief/fit.h"

#include <optional>
#include <vector>

namespace counterpull {

// With more than this many that do not fit, it is not the readings that are wrong.
inline constexpr int most_left_out = 10;
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
    Linearization linearized;   // the readings at the fit
};

// With no readings, the prior. `setup` must outlive the result and must have passed check_setup.
Calibration calibrate(const Setup& setup);

} // namespace counterpull
