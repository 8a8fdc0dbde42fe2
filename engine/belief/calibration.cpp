#include "engine/belief/calibration.h"

#include <algorithm>

namespace counterpull {

namespace {

bool is_sound(const Fit& fit) {
    return fit.converged() && fit.worst() <= outlier_sigmas;
}

// Runs from where it stands and, where that is not sound, from around there. Returns from how many points.
int seek(Fit& fit) {
    fit.run();
    if (is_sound(fit) || !fit.played())
        return 1;
    struct Ended {
        std::vector<double> at;
        bool converged;
        double cost;
        bool better_than(const Ended& other) const {
            return converged != other.converged ? converged : cost < other.cost;
        }
    };
    const auto ended = [&] { return Ended{fit.at(), fit.converged(), fit.cost()}; };
    const Ended first = ended();
    Ended best = first;
    for (const std::vector<double>& along : fit.weakest(further_starts / 2))
        for (const double sigmas : {start_sigmas, -start_sigmas}) {
            std::vector<double> from = first.at;
            add_scaled(sigmas, along, from);
            fit.start_from(std::move(from));
            fit.run();
            if (const Ended now = ended(); now.better_than(best))
                best = now;
        }
    fit.start_from(best.at);
    fit.run();
    return 1 + further_starts;
}

// What of a prediction can be read: a tail goes no further than its stops.
double to_be_read(const Setup& setup, const Observation& seen, double predicted) {
    const auto& limits = setup.guitar.bridge.tail_limits_mm;
    return seen.what == Observed::tail ? std::clamp(predicted, limits[0], limits[1]) : predicted;
}

std::vector<std::size_t> outliers(Fit& fit, const std::vector<double>& distances) {
    std::vector<std::size_t> all;
    for (std::size_t o = 0; o < distances.size(); ++o)
        if (fit.is_used(o) && distances[o] > outlier_sigmas)
            all.push_back(o);
    std::sort(all.begin(), all.end(),
              [&](std::size_t a, std::size_t b) { return distances[a] > distances[b]; });
    return all;
}

// Whether it lies outside what the others say.
bool would_be_outside(Fit& fit, std::size_t reading) {
    return fit.distances()[reading] > outlier_sigmas;
}

// Whether leaving out another in its place heals as well: then nothing says which of them is wrong. Leaves
// the fit without `worst`.
bool is_contested(Fit& fit, std::size_t worst, const std::vector<std::size_t>& outside) {
    constexpr std::size_t most_asked = 3; // of the others, the worst first
    for (std::size_t i = 1; i < outside.size() && i <= most_asked; ++i) {
        const std::size_t other = outside[i];
        if (would_be_outside(fit, other))
            continue; // it is wrong by itself
        const std::vector<double> before = fit.at();
        fit.use(worst, true);
        fit.use(other, false);
        const bool heals = fit.run() && !would_be_outside(fit, worst);
        fit.use(worst, false);
        fit.use(other, true);
        fit.start_from(before);
        fit.run();
        if (heals)
            return true;
    }
    return false;
}

// What was left out before another, and fits now that this is out as well, counts again.
void take_back(Fit& fit) {
    for (std::size_t o = 0; o < fit.seen().size(); ++o) {
        if (fit.is_used(o) || would_be_outside(fit, o))
            continue;
        const std::vector<double> before = fit.at();
        fit.use(o, true);
        if (fit.run() && outliers(fit, fit.distances()).empty())
            continue;
        fit.use(o, false);
        fit.start_from(before);
        fit.run();
    }
}

// Leaves out what lies outside the others, and says which are suspect.
std::vector<std::size_t> leave_out(Fit& fit) {
    for (int out = 0; out < most_left_out; ++out) {
        const std::vector<std::size_t> outside = outliers(fit, fit.distances());
        std::size_t used = 0;
        for (std::size_t o = 0; o < fit.seen().size(); ++o)
            used += fit.is_used(o);
        if (outside.empty() || used < 2) {
            take_back(fit);
            return {};
        }
        if (used == 2)
            return outside;
        const std::size_t worst = outside.front();
        const std::vector<double> before = fit.at();
        fit.use(worst, false);
        if (fit.run() && !is_contested(fit, worst, outside))
            continue;
        fit.use(worst, true);
        fit.start_from(before);
        fit.run();
        return outside;
    }
    return {};
}

} // namespace

Calibration calibrate(const Setup& setup) {
    Calibration result{.belief = Belief(setup)};
    const Belief prior = result.belief;
    Fit fit(prior);
    const std::vector<Observation>& seen = fit.seen();
    if (seen.empty() && setup.log.empty())
        return result;
    result.starts = seek(fit);
    result.converged = fit.converged();
    if (!fit.played())
        return result; // "now" itself has no answer; the report says so
    std::vector<std::size_t> suspect = leave_out(fit);
    result.converged = fit.converged();
    result.worst = fit.worst();
    if (!result.is_sound() || !suspect.empty())
        result.widened = std::max(1.0, fit.chi2_per_reading());
    fit.condition(result.belief, result.widened);
    if (!setup.log.empty())
        result.left = fit.left();
    result.linearized = fit.linearized();
    result.iterations = fit.iterations();
    result.half_chi2 = fit.cost();
    const std::vector<double> distances = fit.distances();
    if (result.worst > outlier_sigmas && suspect.empty())
        suspect = outliers(fit, distances); // a single one, which no guitar like this explains
    for (std::size_t o = 0; o < seen.size(); ++o) {
        const bool contradicted = std::find(suspect.begin(), suspect.end(), o) != suspect.end();
        result.readings.push_back({seen[o], to_be_read(setup, seen[o], fit.predicted()[o]),
                                   !fit.is_used(o) ? Trust::left_out
                                   : contradicted  ? Trust::suspect
                                                   : Trust::full,
                                   distances[o]});
    }
    return result;
}

std::vector<FittedReading> unexpected_readings(const Setup& setup) {
    std::vector<FittedReading> all;
    if (setup.log.empty())
        return all;
    const Belief prior(setup);
    Fit fit(prior);
    const std::vector<Observation>& seen = fit.seen();
    const int last = static_cast<int>(setup.log.size()) - 1;
    for (std::size_t o = 0; o < seen.size(); ++o)
        fit.use(o, seen[o].entry != last);
    if (!fit.run())
        return all;
    const std::vector<double> distances = fit.distances();
    for (std::size_t o = 0; o < seen.size(); ++o)
        if (seen[o].entry == last && distances[o] > outlier_sigmas)
            all.push_back(
                {seen[o], to_be_read(setup, seen[o], fit.predicted()[o]), Trust::full, distances[o]});
    return all;
}

} // namespace counterpull
