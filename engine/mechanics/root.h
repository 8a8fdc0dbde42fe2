// A bracketed, safeguarded solver for one unknown, from values and slopes.
//
// A bracket [low, high] across which the value changes sign is kept. The next place is where the cubic
// through the newest two, with their slopes (Hermite), is zero; this is taken where it falls inside and the
// step is at most half the one before, a bisection otherwise: steps must shrink geometrically or the bracket
// halves, so it always ends (the safeguard of Dekker 1969 and Brent 1973). Where the value is small enough,
// the step that it and its slope give is taken still, untested: it costs nothing, and what is left is that of
// rounding, not of how many steps it took to get there, which a last digit of libm decides. No allocation.
#pragma once

#include <cmath>
#include <utility>

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

// Where the cubic through two places, with their slopes, is zero near the first; by Newton's steps on the
// cubic, from the one on the function. Not finite where there is no slope.
inline double cubic_zero(double x, Sample here, double other, Sample there) {
    const double width = other - x;
    const double rise = there.value - here.value;
    const double m0 = here.slope * width, m1 = there.slope * width;
    const double c2 = 3.0 * rise - 2.0 * m0 - m1, c3 = m0 + m1 - 2.0 * rise;
    double u = -here.value / m0;
    for (int i = 0; i < 3; ++i)
        u -= (here.value + u * (m0 + u * (c2 + u * c3))) / (m0 + u * (2.0 * c2 + u * 3.0 * c3));
    return x + u * width;
}

// `function(x)` returns a Sample. The order of `low` and `high` does not matter; their samples are passed
// in since the caller, who found the bracket, has them already.
template <class Function>
Root bracketed_root(Function&& function, double low, Sample at_low, double high, Sample at_high,
                    RootTolerance tolerance) {
    if (std::abs(at_low.value) <= tolerance.value)
        return {polished(low, at_low, low, high), RootStatus::converged, 0, at_low.value, at_low.slope};
    if (std::abs(at_high.value) <= tolerance.value)
        return {polished(high, at_high, low, high), RootStatus::converged, 0, at_high.value, at_high.slope};
    if ((at_low.value > 0.0) == (at_high.value > 0.0))
        return {low, RootStatus::no_sign_change, 0, at_low.value, at_low.slope};

    // Start from the end nearer the root, as far as the values tell.
    double x = low, other = high;
    Sample here = at_low, there = at_high;
    if (std::abs(at_high.value) < std::abs(at_low.value)) {
        std::swap(x, other);
        std::swap(here, there);
    }
    double last_step = std::abs(high - low);
    for (int iteration = 1; iteration <= tolerance.most_iterations; ++iteration) {
        const double cubic = cubic_zero(x, here, other, there);
        const bool inside = cubic > std::fmin(low, high) && cubic < std::fmax(low, high);
        const bool shrinks = iteration == 1 || std::abs(cubic - x) <= 0.5 * last_step;
        const double next = inside && shrinks ? cubic : 0.5 * (low + high);
        last_step = std::abs(next - x);
        other = std::exchange(x, next);
        there = here;
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
