#include "engine/belief/spread_history.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

std::vector<double> spread_history(const Calibration& calibration, const Deviations& gradient) {
    const std::vector<Reading>& log = calibration.belief.setup().log;
    const Linearization& at = calibration.linearized;
    if (std::all_of(gradient.begin(), gradient.end(), [](double by) { return by == 0.0; }))
        return {};
    if (at.unknowns.width == 0) // nothing was read
        return {calibration.belief.sigma_of(gradient)};
    std::vector<double> all;
    Information information(at.unknowns);
    information.add(1.0, at.standing);
    std::size_t next = 0; // reading
    for (std::size_t count = 0; count <= log.size(); ++count) {
        for (; next < at.entry.size() && at.entry[next] < static_cast<int>(count); ++next)
            if (at.weight[next] > 0.0)
                information.add(at.weight[next], at.row(next));
        std::vector<double> by = at.unknowns.columns.row_of(gradient, at.unknowns.width);
        // Turns are counted from where the screws are thought to be.
        const int visit = count > 0 ? at.visit_of[count - 1] : -1;
        if (visit >= 0)
            by[at.unknowns.visits[static_cast<std::size_t>(visit)]] = -screw_reading_turns;
        const double widened = count > 0 ? calibration.widened : 1.0;
        all.push_back(std::sqrt(widened) * information.sigma_of(by));
    }
    return all;
}

} // namespace counterpull
