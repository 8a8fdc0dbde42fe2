#include "engine/belief/standing.h"

#include "engine/document/placed_springs.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <optional>
#include <span>

namespace counterpull {

namespace {

constexpr double step = 1e-3; // of a spread
constexpr std::size_t springs = 3;

// Usual strings, lowest first, in standard tuning: of the last of these as many as there are strings. The six
// highest are a 10–46 set in E (common practice).
struct UsualString {
    double gauge_in;
    bool wound;
    Pitch pitch;
};
constexpr UsualString usual_strings[] = {
    {0.074, true, {'F', 1, 1}},  {0.059, true, {'B', 0, 1}},  {0.046, true, {'E', 0, 2}},
    {0.036, true, {'A', 0, 2}},  {0.026, true, {'D', 0, 3}},  {0.017, false, {'G', 0, 3}},
    {0.013, false, {'B', 0, 3}}, {0.010, false, {'E', 0, 4}},
};
constexpr std::size_t fewest = 6; // with fewer it is no such guitar: its own next strings serve

} // namespace

Standing::Standing(const Belief& belief) : belief_(belief), springs_(springs) {
    const NextSetup& next = belief.setup().next;
    const std::size_t count = next.strings.size();
    if (count < fewest || count > std::size(usual_strings)) {
        strings_ = next.strings;
        tuning_ = next.tuning;
        offset_cents_ = next.offset_cents;
    } else {
        for (const UsualString& string : std::span(usual_strings).last(count)) {
            StringSetup& added = strings_.emplace_back();
            added.gauge_in = string.gauge_in;
            added.wound = string.wound;
            tuning_.push_back(string.pitch);
        }
    }
    as_typed_m_ = per_turn_m({}).value_or(0.0);
}

// With its sign; nothing where no claw position holds it level.
std::optional<double> Standing::per_turn_m(const Deviations& z) const {
    Deviations of_guitar = z;
    of_guitar[static_cast<std::size_t>(Unknown::core)] = 0.0; // that of other strings, as are their weights
    std::fill(of_guitar.begin() + common_unknowns, of_guitar.end(), 0.0);
    Assembly assembly =
        belief_.assembly({strings_, tuning_, offset_cents_, springs_, std::nullopt}, of_guitar);
    for (int i = 0; i < assembly.spring_count; ++i) { // how far across plays no part here, if straight
        SpringOnBridge& spring = assembly.springs[static_cast<std::size_t>(i)];
        spring.hook_z_m = spring.hole_z_m = 0.0;
    }
    return tail_per_turn_balanced_m(assembly, 0.0);
}

std::optional<double> Standing::residual(const Deviations& z) const {
    if (as_typed_m_ == 0.0)
        return 0.0;
    const auto moved = per_turn_m(z);
    if (!moved || *moved * as_typed_m_ <= 0.0) // across the pole lie guitars that do what this one does not
        return std::nullopt;
    return std::log(*moved / as_typed_m_) / usual_per_turn_sigma;
}

Deviations Standing::row(const Deviations& z) const {
    Deviations row{}, beside = z;
    if (as_typed_m_ == 0.0)
        return row;
    for (int u = 0; u < common_unknowns; ++u) {
        const auto unknown = static_cast<std::size_t>(u);
        if (!belief_.used(u) || is_of_reading(static_cast<Unknown>(u)) ||
            u == static_cast<int>(Unknown::core))
            continue;
        beside[unknown] = z[unknown] + step;
        const auto more = residual(beside);
        beside[unknown] = z[unknown] - step;
        const auto less = residual(beside);
        beside[unknown] = z[unknown];
        if (more && less)
            row[unknown] = (*more - *less) / (2.0 * step);
    }
    return row;
}

} // namespace counterpull
