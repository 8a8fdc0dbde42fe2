#include "engine/advice/wedge.h"

#include "engine/base/units.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

std::optional<double> wedge_surplus_turns(const Advice& advice) {
    constexpr double eighths = 8.0;
    const double wanted =
        std::clamp(ninety_percent * advice.turns_sigma, least_wedge_surplus_turns, most_wedge_surplus_turns);
    const double thread = advice.thread_in - fell_out_turns;
    const double surplus = std::min(std::ceil(wanted * eighths), std::floor(thread * eighths)) / eighths;
    return surplus < least_wedge_surplus_turns ? std::nullopt : std::optional(surplus);
}

std::optional<WedgeWay> wedge_way(const Solution& solution) {
    const Setup& setup = solution.setup();
    const Advice& advice = solution.advised();
    const std::optional<double> surplus = wedge_surplus_turns(advice);
    if (!advice.fits() || setup.next.rest == RestWanted::on_the_body || !surplus)
        return std::nullopt;
    const Assembly assembly = solution.assembly_advised();
    const Attitude wedged(advice.angle_rad);
    WedgeWay way;
    way.surplus_turns = *surplus;
    way.turns = *advice.turns + *surplus;
    const ClawSetting tight = solution.claw.turned(way.turns);
    const StringLengths lengths = lengths_at_pitch(assembly, wedged);
    const Rest rest = rest_free(assembly, lengths, tight, advice.angle_rad);
    way.tail_mm = mm_from_metres(tail_at_angle_m(assembly.bridge, rest.angle_rad));
    way.cents = cents_shown(assembly, lengths, Attitude(rest.angle_rad));
    const auto most = std::max_element(way.cents.begin(), way.cents.end());
    way.read_string = static_cast<int>(most - way.cents.begin());
    if (*most <= 0.0)
        return std::nullopt;
    way.turns_to_ease_per_cent = *surplus / *most;
    return way;
}

} // namespace counterpull
