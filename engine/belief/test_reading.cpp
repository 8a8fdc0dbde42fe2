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
    for (const ReadingKind kind : {ReadingKind::drop, ReadingKind::bend})
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

// gᵀg − (J g)ᵀ (1 + J Jᵀ)⁻¹ (J g), for rows J.
double conditioned_sigma(ConstDerivatives rows, ConstDerivatives gradient) {
    const std::size_t width = gradient.size(), count = rows.size() / width;
    SymmetricMatrix spread(count);
    std::vector<double> said(count);
    for (std::size_t a = 0; a < count; ++a) {
        const ConstDerivatives row = rows.subspan(a * width, width);
        for (std::size_t b = 0; b <= a; ++b)
            spread.at(a, b) = dot(row, rows.subspan(b * width, width)) + (a == b ? 1.0 : 0.0);
        said[a] = dot(row, gradient);
    }
    Cholesky(spread).solve_lower(said);
    return std::sqrt(std::max(0.0, dot(gradient, gradient) - dot(said, said)));
}

} // namespace

TestReadings::TestReadings(const Belief& belief) {
    const Setup& setup = belief.setup();
    if (!setup.now.in_tune || !setup.log.empty())
        return;
    const Setup with = with_every_test(setup);
    const Belief prior = belief.about(with);
    Playback playback(prior);
    columns_ = playback.unknowns().columns;
    width_ = playback.width();
    const std::vector<double> mean(width_);
    std::vector<double> predicted, jacobian;
    if (!playback.play(mean, Settling::search, predicted) || !playback.linearize(mean, jacobian))
        return;
    for (const Reading& reading : with.log)
        all_.push_back(
            {{reading.kind, reading.string, test_cents, 0.0}, columns_.row_of(prior.standing(), width_)});
    const std::vector<Observation>& seen = playback.observations();
    for (std::size_t o = 0; o < seen.size(); ++o) {
        const double sigma = seen[o].what == Observed::cents ? tuner_sigma(predicted[o]) : seen[o].sigma;
        const Derivatives row{jacobian.data() + o * width_, width_};
        for (double& value : row)
            value /= sigma;
        for (std::size_t entry = 0; entry < all_.size(); ++entry)
            if (seen[o].entry < 0 || seen[o].entry == static_cast<int>(entry))
                all_[entry].rows.insert(all_[entry].rows.end(), row.begin(), row.end());
    }
}

std::optional<TestReading> TestReadings::best(const Deviations& gradient, double sigma_now) const {
    if (all_.empty())
        return std::nullopt;
    const std::vector<double> by = columns_.row_of(gradient, width_);
    std::optional<TestReading> best;
    for (const Candidate& candidate : all_) { // strings let down first
        if (best && best->kind != candidate.reading.kind)
            break;
        const double sigma = conditioned_sigma(candidate.rows, by);
        if (sigma < worth_taking * sigma_now && (!best || sigma < best->sigma_after)) {
            best = candidate.reading;
            best->sigma_after = sigma;
        }
    }
    return best;
}

} // namespace counterpull
