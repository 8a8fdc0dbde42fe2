// A bracketed, safeguarded Newton solver for one unknown.
//
// A bracket [low, high] across which the value changes sign is kept. Newton's step is taken where it falls
// inside and is at most half the step before, a bisection otherwise: steps must shrink geometrically or the
// bracket halves, so it always ends (the safeguard of Dekker 1969 and Brent 1973). Where the value is small
// enough, the step that it and its slope give is taken still, untested: it costs nothing, and what is left is
// that of rounding, not of how many steps it took to get there, which a last digit of libm decides. No
// allocation.
#pragma once

#include <cmath>

namespace counterpull {

// A function's value and its derivative at one place.
struct Sample {
    double value = 0.0;
    double slope = 0.0;
};

enum class RootStatus {
    converged,
    jump,            // the sign changes across a jump of the function; `at` is its side toward `high`
    no_sign_change,  // the function has one sign at both ends of the bracket
    iteration_limit, // still outside the tolerance after the allowed number of steps
};

struct Root {
    double at = 0.0;
    RootStatus status = RootStatus::no_sign_change;
    int iterations = 0;
    double residual = 0.0; // the function's value before the last, untested step to `at`
    double slope = 0.0;    // and its slope there
    bool found() const { return status == RootStatus::converged; }
};

struct RootTolerance {
    double value;              // |f| at or below this is a root; in the unit of f
    double place;              // a bracket narrower than this holds a jump or a root; in the unit of x
    int most_iterations = 200; // bisection alone needs about 50
};

// A last step from `x`, where the function is within its tolerance, kept between two places.
inline double polished(double x, Sample here, double a, double b) {
    const double step = here.slope != 0.0 ? here.value / here.slope : 0.0;
    return std::fmin(std::fmax(x - step, std::fmin(a, b)), std::fmax(a, b));
}

// `function(x)` returns a Sample. The order of `low` and `high` does not matter; their samples are passed
// in since the caller, who found the bracket, has them already.
template <class Function>
Root bracketed_newton(Function&& function, double low, Sample at_low, double high, Sample at_high,
                      RootTolerance tolerance) {
    if (std::abs(at_low.value) <= tolerance.value)
        return {polished(low, at_low, low, high), RootStatus::converged, 0, at_low.value, at_low.slope};
    if (std::abs(at_high.value) <= tolerance.value)
        return {polished(high, at_high, low, high), RootStatus::converged, 0, at_high.value, at_high.slope};
    if ((at_low.value > 0.0) == (at_high.value > 0.0))
        return {low, RootStatus::no_sign_change, 0, at_low.value, at_low.slope};

    // Start from the end nearer the root, as far as the values tell.
    double x = std::abs(at_low.value) < std::abs(at_high.value) ? low : high;
    Sample here = x == low ? at_low : at_high;
    double last_step = std::abs(high - low);
    for (int iteration = 1; iteration <= tolerance.most_iterations; ++iteration) {
        const double newton = here.slope != 0.0 ? x - here.value / here.slope : low;
        const bool inside = newton > std::fmin(low, high) && newton < std::fmax(low, high);
        const bool shrinks = std::abs(newton - x) <= 0.5 * last_step;
        const double next = inside && shrinks ? newton : 0.5 * (low + high);
        last_step = std::abs(next - x);
        x = next;
        here = function(x);
        if (std::abs(here.value) <= tolerance.value)
            return {polished(x, here, low, high), RootStatus::converged, iteration, here.value, here.slope};
        if ((here.value > 0.0) == (at_low.value > 0.0)) {
            low = x;
        } else {
            high = x;
            at_high = here;
        }
        if (std::abs(high - low) <= tolerance.place)
            return {high, RootStatus::jump, iteration, at_high.value, at_high.slope};
    }
    return {x, RootStatus::iteration_limit, tolerance.most_iterations, here.value, here.slope};
}

} // namespace counterpull
