#include "engine/advice/worth.h"
#include "engine/base/put_in_order.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

// Less of a turn than this is nothing to anyone.
constexpr double no_effect = 1e-6;

// The mean where there is one per string.
double mean_of(const PerString& values) {
    double sum = 0.0;
    for (const double value : values.values)
        sum += value;
    return sum / static_cast<double>(values.values.size());
}

// How a number moves with its unknown where it is believed to be, in the document's unit.
double slope_at(const Belief& belief, Unknown unknown, double value) {
    const Spread spread = belief.spread(unknown);
    const double z = belief.mean()[static_cast<std::size_t>(unknown)];
    return spread.slope(spread.at(value, z), z);
}

} // namespace

std::optional<double> value_of(const GuitarSetup& guitar, Unknown unknown) {
    switch (unknown) {
    case Unknown::spring_rate:
        return guitar.spring.rate_n_mm;
    case Unknown::free_length:
        return guitar.spring.free_length_mm;
    case Unknown::initial_tension:
        return guitar.spring.initial_tension_n;
    case Unknown::saddle_height:
        return mean_of(guitar.bridge.saddle_height_mm);
    case Unknown::saddle_setback:
        return mean_of(guitar.bridge.saddle_setback_mm);
    case Unknown::block_depth:
        return guitar.bridge.block_depth_mm;
    case Unknown::block_setback:
        return guitar.bridge.block_setback_mm;
    case Unknown::screw_pitch:
        return guitar.bay.screw_pitch_mm;
    case Unknown::dead_length:
        return mean_of(guitar.bridge.anchor_mm);
    case Unknown::tail_now:
    case Unknown::friction_now:
    case Unknown::springs_now:
    case Unknown::screws_now:
        return 0.0; // readings: their spread does not depend on them
    case Unknown::core:
    case Unknown::weights:
        break;
    }
    return std::nullopt;
}

std::vector<Worth> worth_of_measuring(const Solution& solution) {
    const Belief& belief = solution.belief();
    const Advice& advice = solution.advised();
    std::vector<Worth> all;
    if (!advice.turns)
        return all;
    for (int u = 0; u < common_unknowns; ++u) {
        const auto unknown = static_cast<Unknown>(u);
        // What it alone would cause as it is known by now.
        const double per_sigma = advice.turns_per[static_cast<std::size_t>(u)];
        Worth worth{unknown, std::abs(per_sigma) * belief.sigma_of(unknown), 0.0};
        if (const auto value = value_of(belief.setup().guitar, unknown))
            if (const double slope = slope_at(belief, unknown, *value); slope != 0.0)
                worth.turns_per_unit = per_sigma / slope;
        all.push_back(worth);
    }
    Deviations weights{};
    std::copy(advice.turns_per.begin() + common_unknowns, advice.turns_per.end(),
              weights.begin() + common_unknowns);
    all.push_back({Unknown::weights, belief.sigma_of(weights), 0.0});
    std::erase_if(all, [](const Worth& worth) { return worth.turns < no_effect; });
    put_in_order(all, [](const Worth& a, const Worth& b) { return a.turns > b.turns; });
    return all;
}

} // namespace counterpull
