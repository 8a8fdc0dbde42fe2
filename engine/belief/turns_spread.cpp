#include "engine/belief/turns_spread.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

// Small against a spread, large against rounding: errors of either kind stay under 1e-6 of the derivative.
constexpr double step = 1e-3;

// (f(+step) − f(−step)) / 2 step, `f` of what is believed with only that unknown moved.
template <class F>
double derivative(const Belief& belief, int unknown, F&& f) {
    Deviations z = belief.mean();
    double& moved = z[static_cast<std::size_t>(unknown)];
    const double mean = moved;
    moved = mean + step;
    const double above = f(z);
    moved = mean - step;
    return (above - f(z)) / (2.0 * step);
}

bool moves_springs(int unknown) {
    switch (static_cast<Unknown>(unknown)) {
    case Unknown::spring_rate:
    case Unknown::initial_tension:
    case Unknown::block_depth:
    case Unknown::block_setback:
    case Unknown::screw_pitch:
        return true;
    default:
        return false;
    }
}

Deviations claw_derivatives(const Belief& belief, const ClawSetting& claw) {
    const Setup& setup = belief.setup();
    const Fitting fitting = fitting_now(setup);
    Deviations per{};
    if (claw_from_spring_lengths(setup)) {
        for (int u = 0; u < common_unknowns; ++u)
            per[static_cast<std::size_t>(u)] = derivative(belief, u, [&](const Deviations& z) {
                Problems problems;
                const auto moved = belief.claw(belief.assembly(fitting, z), z, problems);
                return moved ? moved->x_m : claw.x_m;
            });
        return per;
    }
    auto torque = [&](const Deviations& z) {
        return net_torque_at_pitch(belief.assembly(fitting, z), claw, belief.angle_now_rad(z)).value;
    };
    const Assembly now = belief.assembly(fitting);
    const double per_turn = spring_torque_per_turn(now, claw, Attitude(belief.angle_now_rad(belief.mean())));
    for (int u = 0; u < most_unknowns; ++u)
        if (belief.used(u))
            per[static_cast<std::size_t>(u)] =
                -derivative(belief, u, torque) * now.claw.screw_pitch_m / per_turn;
    return per;
}

} // namespace

TurnsSpread::TurnsSpread(const Belief& belief, const ClawSetting& claw, double wanted_rad)
    : belief_(belief), claw_(claw), wanted_rad_(wanted_rad), claw_per_(claw_derivatives(belief, claw)) {
    const Setup& setup = belief.setup();
    const std::vector<PlacedSpring> none;
    const Fitting strings = fitting_next(setup, none);
    for (int u = 0; u < most_unknowns; ++u)
        if (belief.used(u))
            pull_per_[static_cast<std::size_t>(u)] = derivative(belief, u, [&](const Deviations& z) {
                return torque_to_balance_nm(setup, belief.assembly(strings, z), wanted_rad);
            });
}

Deviations TurnsSpread::gradient(const Fitting& fitting, const Assembly& next, double turns) const {
    const Attitude attitude(wanted_rad_);
    const ClawSetting turned = claw_.turned(turns);
    const double per_turn = spring_torque_per_turn(next, turned, attitude);
    Deviations gradient{};
    for (int u = 0; u < most_unknowns; ++u) {
        const auto i = static_cast<std::size_t>(u);
        double torque = pull_per_[i] + per_turn / next.claw.screw_pitch_m * claw_per_[i];
        if (moves_springs(u))
            torque += derivative(belief_, u, [&](const Deviations& z) {
                return spring_torque(belief_.assembly(fitting, z), turned, attitude).value;
            });
        gradient[i] = -torque / per_turn;
        if (u == static_cast<int>(Unknown::screws_now) && belief_.used(u))
            gradient[i] -= screw_reading_turns; // turns are counted from where the screws are thought to be
    }
    return gradient;
}

double torque_to_balance_nm(const Setup& setup, const Assembly& next, double wanted_rad) {
    if (setup.next.rest == RestWanted::on_the_body)
        return torque_to_hold_on_body_nm(next);
    const Attitude attitude(wanted_rad);
    return string_torque_at_pitch(next, attitude).value + weight_torque(next, attitude).value;
}

double torque_to_hold_on_body_nm(const Assembly& assembly) {
    const Attitude attitude(lowest_angle_rad(assembly.bridge));
    double most_added = 0.0;
    for (const StringOnBridge& string : assembly.strung()) {
        const Reach at = reach(string.nut(), string.saddle(), 0.0, attitude);
        const double bent_hz = string.frequency_hz * std::exp2(held_bend_semitones / 12.0);
        const double added = tension_at_pitch_n(string.mechanics, bent_hz, at.length_m) -
                             tension_at_pitch_n(string.mechanics, string.frequency_hz, at.length_m);
        most_added = std::max(most_added, -added * at.per_rad_m);
    }
    return string_torque_at_pitch(assembly, attitude).value + weight_torque(assembly, attitude).value +
           most_added;
}

} // namespace counterpull
