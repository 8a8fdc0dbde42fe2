#include "engine/hearing/string_fit.h"

#include "engine/base/pitch.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

constexpr double cauchy_sigmas = 2.0;
constexpr int rounds = 8;

struct Point {
    double cents, sigma, per_stiffness;
};

std::vector<Point> points_of(const std::vector<Partial>& partials, std::size_t string, const Tone& before,
                             int most) {
    std::vector<Point> points;
    for (const Partial& partial : partials) { // from low to high
        if (partial.string != string || partial.clearness() < clear_partial ||
            static_cast<int>(points.size()) == most)
            continue;
        const double cents = cents_between(partial_hz(before, partial.number), partial.hz + partial.off_hz);
        const double own = cents_between(partial.hz, partial.hz + partial.off_sigma_hz);
        const double model = partial.number == 1 ? fundamental_model_cents : partial_model_cents;
        points.push_back(
            {cents, std::hypot(own, model), partial_cents_per_inharmonicity(before, partial.number)});
    }
    return points;
}

// The weighted median: where the weights begin.
double middle_of(std::vector<Point> points) {
    std::sort(points.begin(), points.end(), [](const Point& a, const Point& b) { return a.cents < b.cents; });
    double all = 0.0;
    for (const Point& point : points)
        all += 1.0 / (point.sigma * point.sigma);
    double below = 0.0;
    for (const Point& point : points) {
        below += 1.0 / (point.sigma * point.sigma);
        if (2.0 * below >= all)
            return point.cents;
    }
    return 0.0;
}

} // namespace

StringFit fit_string(const std::vector<Partial>& partials, std::size_t string, const Tone& before,
                     double stiffness, double stiffness_spread, int most) {
    const std::vector<Point> points = points_of(partials, string, before, most);
    StringFit fit{before, 1e3, 0.0};
    if (points.empty())
        return fit;
    // Unknown: cents on the pitch, and by what share of itself B grows.
    double cents = middle_of(points);
    double growth = 0.0;
    const double growth_expected = before.inharmonicity > 0.0 ? stiffness / before.inharmonicity - 1.0 : 0.0;
    for (int round = 0; round < rounds; ++round) {
        double aa = 0.0, ab = 0.0, ay = 0.0, by = 0.0, scatter = 0.0;
        const double prior = 1.0 / (stiffness_spread * stiffness_spread);
        double bb = prior;
        by = prior * growth_expected;
        for (const Point& point : points) {
            const double miss = point.cents - cents - growth * point.per_stiffness;
            const double sigmas = miss / point.sigma / cauchy_sigmas;
            const double weight = 1.0 / (point.sigma * point.sigma * (1.0 + sigmas * sigmas));
            aa += weight;
            ab += weight * point.per_stiffness;
            bb += weight * point.per_stiffness * point.per_stiffness;
            ay += weight * point.cents;
            by += weight * point.cents * point.per_stiffness;
            scatter += weight * miss * miss;
        }
        const double determinant = aa * bb - ab * ab;
        cents = (ay * bb - by * ab) / determinant;
        growth = std::clamp((by * aa - ay * ab) / determinant, -0.6, 1.5);
        fit.scatter_cents = std::sqrt(scatter / aa);
        fit.sigma_cents = std::sqrt(bb / determinant);
    }
    fit.tone.hz = raised_hz(before.hz, cents);
    fit.tone.inharmonicity = before.inharmonicity * (1.0 + growth);
    return fit;
}

} // namespace counterpull
