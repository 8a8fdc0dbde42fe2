#include "engine/belief/calibration.h"

namespace counterpull {

Calibration calibrate(const Setup& setup) {
    Calibration result{Belief(setup), true, 0, 0.0, {}, {}, {}};
    const Belief prior(setup);
    Fit fit(prior);
    const std::vector<Observation>& seen = fit.seen();
    if (seen.empty() && fit.visits() == 0)
        return result;
    result.converged = fit.run();
    if (fit.predicted().empty() && !seen.empty())
        return result; // "now" itself has no answer; the report says so
    std::vector<double> distances = fit.distances();
    for (int out = 0; result.converged && out < most_left_out; ++out) {
        std::size_t worst = seen.size();
        for (std::size_t o = 0; o < seen.size(); ++o)
            if (fit.is_used(o) && distances[o] > outlier_sigmas &&
                (worst == seen.size() || distances[o] > distances[worst]))
                worst = o;
        if (worst == seen.size())
            break;
        fit.leave_out(worst);
        result.converged = fit.run();
        distances = fit.distances();
    }
    fit.condition(result.belief);
    if (!setup.log.empty())
        result.left = fit.left();
    result.linearized = fit.linearized();
    result.iterations = fit.iterations();
    result.half_chi2 = fit.cost();
    for (std::size_t o = 0; o < seen.size(); ++o)
        result.readings.push_back({seen[o], fit.predicted()[o], !fit.is_used(o), distances[o]});
    return result;
}

} // namespace counterpull
