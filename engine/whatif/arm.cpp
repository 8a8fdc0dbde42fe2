#include "engine/whatif/arm.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

double tension_n(const Stand& stand, std::size_t string, const Attitude& attitude) {
    return tension_free_n(stand.assembly.strings[string], stand.lengths_m[string], attitude);
}

std::optional<double> cents_at(const Stand& stand, std::size_t string, const Attitude& attitude) {
    if (tension_n(stand, string, attitude) <= 0.0)
        return std::nullopt;
    return cents_shown(stand.assembly.strings[string], stand.lengths_m[string], attitude);
}

// Where the string has just its unstretched length. The length falls all the way from rest up to where it is
// least.
std::optional<double> slack_at_rad(const Stand& stand, std::size_t string) {
    double tight = stand.angle_rad, slack = highest_angle_rad(stand.assembly.bridge);
    if (tension_n(stand, string, Attitude(slack)) > 0.0)
        return std::nullopt;
    while (slack - tight > 1e-9) {
        const double middle = 0.5 * (tight + slack);
        (tension_n(stand, string, Attitude(middle)) > 0.0 ? tight : slack) = middle;
    }
    return slack;
}

struct MeanAndSpread {
    double mean = 0.0, spread = 0.0;
};
std::optional<MeanAndSpread> of(const ArmSample& sample) {
    double sum = 0.0, low = 0.0, high = 0.0;
    int count = 0;
    for (const auto& cents : sample.cents) {
        if (!cents)
            return std::nullopt;
        low = count == 0 ? *cents : std::min(low, *cents);
        high = count == 0 ? *cents : std::max(high, *cents);
        sum += *cents;
        ++count;
    }
    if (count == 0)
        return std::nullopt;
    return MeanAndSpread{sum / count, high - low};
}

} // namespace

ArmRange arm_range(const Stand& stand) {
    const Bridge& bridge = stand.assembly.bridge;
    const double low = lowest_angle_rad(bridge), high = highest_angle_rad(bridge);
    ArmRange range;
    for (int i = 0; i < arm_samples; ++i) {
        const double angle = low + (high - low) * i / (arm_samples - 1);
        const Attitude attitude(angle);
        ArmSample& sample = range.samples.emplace_back(ArmSample{angle, tail_at_angle_m(bridge, angle), {}});
        for (std::size_t s = 0; s < stand.assembly.strung().size(); ++s)
            sample.cents.push_back(cents_at(stand, s, attitude));
    }
    for (std::size_t s = 0; s < stand.assembly.strung().size(); ++s)
        range.strings.push_back(
            {range.samples.front().cents[s].value_or(0.0), range.samples.back().cents[s],
             slack_at_rad(stand, s),
             tension_n(stand, s, Attitude(low)) / stand.assembly.strings[s].mechanics.breaking_load_n});
    return range;
}

std::optional<double> chord_spread_cents(const ArmRange& range, double mean_cents) {
    for (std::size_t i = 1; i < range.samples.size(); ++i) {
        const auto a = of(range.samples[i - 1]), b = of(range.samples[i]);
        if (!a || !b)
            return std::nullopt;
        if ((a->mean - mean_cents) * (b->mean - mean_cents) > 0.0 || a->mean == b->mean)
            continue;
        const double share = (mean_cents - a->mean) / (b->mean - a->mean);
        return a->spread + share * (b->spread - a->spread);
    }
    return std::nullopt;
}

} // namespace counterpull
