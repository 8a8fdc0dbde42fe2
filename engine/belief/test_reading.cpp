#include "engine/belief/test_reading.h"

#include "engine/belief/playback.h"
#include "engine/mechanics/cholesky.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

constexpr double test_cents = 200.0;
constexpr int highest_bent = 3; // a tone up is for the three highest strings

// All of them in one log, each in tune before and after: played together, judged one by one.
Setup with_every_test(const Setup& setup) {
    Setup with = setup;
    const auto strings = static_cast<int>(setup.now.strings.size());
    for (const ReadingKind kind : {ReadingKind::bend, ReadingKind::drop})
        for (int string = 1; string <= (kind == ReadingKind::bend ? highest_bent : strings); ++string) {
            Reading reading;
            reading.kind = kind;
            reading.string = string;
            reading.by_cents = test_cents;
            reading.strings = reading.tuning = Which::now;
            reading.springs = setup.now.springs;
            // What is read does not change the spread it leaves, to first order: any value serves.
            reading.cents.emplace(setup.now.strings.size(), 0.0);
            with.log.push_back(std::move(reading));
        }
    return with;
}

double dot(ConstDerivatives a, ConstDerivatives b) {
    double sum = 0.0;
    for (std::size_t i = 0; i < a.size(); ++i)
        sum += a[i] * b[i];
    return sum;
}

// gᵀg − (J g)ᵀ (1 + J Jᵀ)⁻¹ (J g), for rows J.
double conditioned_sigma(const std::vector<ConstDerivatives>& rows, ConstDerivatives gradient) {
    SymmetricMatrix spread(rows.size());
    std::vector<double> said(rows.size());
    for (std::size_t a = 0; a < rows.size(); ++a) {
        for (std::size_t b = 0; b <= a; ++b)
            spread.at(a, b) = dot(rows[a], rows[b]) + (a == b ? 1.0 : 0.0);
        said[a] = dot(rows[a], gradient);
    }
    Cholesky(spread).solve_lower(said);
    return std::sqrt(std::max(0.0, dot(gradient, gradient) - dot(said, said)));
}

} // namespace

std::optional<TestReading> best_test_reading(const Setup& setup, const Deviations& gradient,
                                             double sigma_now) {
    if (!setup.now.in_tune || !setup.log.empty())
        return std::nullopt;
    const Setup with = with_every_test(setup);
    const Belief prior(with);
    Playback playback(prior);
    const std::size_t width = playback.width();
    const std::vector<double> mean(width);
    std::vector<double> predicted, jacobian, by(width);
    if (!playback.play(mean, Settling::search, predicted) || !playback.linearize(mean, jacobian))
        return std::nullopt;
    for (std::size_t u = 0; u < gradient.size(); ++u)
        if (const int column = playback.columns().of[u]; column >= 0)
            by[static_cast<std::size_t>(column)] = gradient[u];
    const std::vector<Observation>& seen = playback.observations();
    for (std::size_t o = 0; o < seen.size(); ++o) {
        const double sigma = seen[o].what == Observed::cents ? tuner_sigma(predicted[o]) : seen[o].sigma;
        for (std::size_t i = 0; i < width; ++i)
            jacobian[o * width + i] /= sigma;
    }
    std::optional<TestReading> best;
    std::vector<ConstDerivatives> rows;
    for (std::size_t entry = 0; entry < with.log.size(); ++entry) {
        rows.clear();
        for (std::size_t o = 0; o < seen.size(); ++o)
            if (seen[o].entry < 0 || seen[o].entry == static_cast<int>(entry))
                rows.emplace_back(jacobian.data() + o * width, width);
        const double sigma = conditioned_sigma(rows, by);
        const Reading& reading = with.log[entry];
        if (sigma < worth_taking * sigma_now && (!best || sigma < best->sigma_after))
            best = TestReading{reading.kind, reading.string, test_cents, sigma};
    }
    return best;
}

} // namespace counterpull
