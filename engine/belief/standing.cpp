#include "engine/belief/standing.h"

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

struct Usual {
    std::vector<StringSetup> strings;
    std::vector<Pitch> tuning;
    PerString offset_cents{{0.0}};
};

Usual usual_for(const Setup& setup) {
    const std::size_t count = setup.next.strings.size();
    Usual usual;
    if (count < fewest || count > std::size(usual_strings))
        return {setup.next.strings, setup.next.tuning, setup.next.offset_cents};
    for (const UsualString& string : std::span(usual_strings).last(count)) {
        StringSetup& added = usual.strings.emplace_back();
        added.gauge_in = string.gauge_in;
        added.wound = string.wound;
        usual.tuning.push_back(string.pitch);
    }
    return usual;
}

// s in m per turn, with its sign; nothing where no claw position holds it level.
std::optional<double> per_turn_m(const Belief& belief, const Fitting& fitting, const Deviations& z) {
    Assembly assembly = belief.assembly(fitting, z);
    for (int i = 0; i < assembly.spring_count; ++i) { // how far across plays no part here, if straight
        SpringOnBridge& spring = assembly.springs[static_cast<std::size_t>(i)];
        spring.hook_z_m = spring.hole_z_m = 0.0;
    }
    return tail_per_turn_balanced_m(assembly, 0.0);
}

} // namespace

Deviations stands_in_tune(const Belief& belief) {
    const Setup& setup = belief.setup();
    const Usual usual = usual_for(setup);
    const Arrangement three(springs); // of the guitar's own
    const Fitting fitting{usual.strings, usual.tuning, usual.offset_cents, three, std::nullopt};
    Deviations row{}, z{};
    for (int u = 0; u < common_unknowns; ++u) {
        const auto unknown = static_cast<std::size_t>(u);
        if (!belief.used(u) || is_of_reading(static_cast<Unknown>(u)))
            continue;
        z[unknown] = step;
        const auto more = per_turn_m(belief, fitting, z);
        z[unknown] = -step;
        const auto less = per_turn_m(belief, fitting, z);
        z[unknown] = 0.0;
        if (!more || !less || *more == 0.0 || *less == 0.0)
            return {};
        row[unknown] = std::log(std::abs(*more / *less)) / (2.0 * step * usual_per_turn_sigma);
    }
    return row;
}

} // namespace counterpull
