#include "engine/belief/turns_spread.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

constexpr double apart_rad = 1e-4; // between the attitudes of a difference, either way

// Attitude and string, with its pitch bent up, that make up the torque to hold on the body.
struct HeldBend {
    Attitude attitude;
    std::size_t string = 0;
    double bent_hz = 0.0;
    double added_nm = 0.0; // by the bend; 0 where no bend lifts
};

HeldBend held_on_body(const Assembly& assembly) {
    HeldBend held{Attitude(lowest_angle_rad(assembly.bridge))};
    for (std::size_t i = 0; i < assembly.strung().size(); ++i) {
        const StringOnBridge& string = assembly.strings[i];
        const Reach at = reach(string.nut(), string.saddle(), 0.0, held.attitude);
        const double bent_hz = string.frequency_hz * std::exp2(held_bend_semitones / 12.0);
        const double added = tension_at_pitch_n(string.mechanics, bent_hz, at.length_m) -
                             tension_at_pitch_n(string.mechanics, string.frequency_hz, at.length_m);
        if (-added * at.per_rad_m > held.added_nm)
            held = {held.attitude, i, bent_hz, -added * at.per_rad_m};
    }
    return held;
}

Fitting next_strings(const Setup& setup) {
    static const std::vector<PlacedSpring> none;
    return fitting_next(setup, none);
}

} // namespace

TurnsSpread::TurnsSpread(const Belief& belief, const ClawSetting& claw, double wanted_rad)
    : TurnsSpread(belief, claw, wanted_rad, belief.assembly(next_strings(belief.setup()))) {}

TurnsSpread::TurnsSpread(const Belief& belief, const ClawSetting& claw, double wanted_rad,
                         const Assembly& strings)
    : belief_(belief), claw_(claw), wanted_rad_(wanted_rad),
      chain_(belief, next_strings(belief.setup()), strings, belief.mean(), Columns::all()) {
    const Setup& setup = belief.setup();
    const Assembly now = belief.assembly(fitting_now(setup));
    const Chain chain_now(belief, fitting_now(setup), now, belief.mean(), Columns::all());
    add_claw_now(belief, now, chain_now, claw, belief.mean(), claw_per_);
    if (setup.next.rest != RestWanted::floating) {
        add_torque_to_hold(strings);
        return;
    }
    add_torque_at_pitch(strings, chain_, Attitude(wanted_rad), 1.0, pull_per_);
    add_torque_at_pitch(strings, chain_, Attitude(wanted_rad + apart_rad), 1.0, pull_above_);
    add_torque_at_pitch(strings, chain_, Attitude(wanted_rad - apart_rad), 1.0, pull_below_);
}

// The bend adds its string's torque when bent less that when not.
void TurnsSpread::add_torque_to_hold(const Assembly& strings) {
    const HeldBend held = held_on_body(strings);
    add_torque_at_pitch(strings, chain_, held.attitude, 1.0, pull_per_);
    if (held.added_nm == 0.0)
        return;
    const StringOnBridge& bent = strings.strings[held.string];
    chain_.add(held.string, torque_partials_at_pitch(bent, held.bent_hz, held.attitude), 1.0, pull_per_);
    chain_.add(held.string, torque_partials_at_pitch(bent, bent.frequency_hz, held.attitude), -1.0,
               pull_per_);
}

Deviations TurnsSpread::gradient(const Assembly& next, double turns) const {
    const Attitude attitude(wanted_rad_);
    const ClawSetting turned = claw_.turned(turns);
    const double per_turn = spring_torque_per_turn(next, turned, attitude);
    if (per_turn == 0.0)
        return {}; // every spring is closed
    // Rows of torques first, then of turns.
    Deviations gradient = pull_per_;
    add_spring_torque(next, chain_, turned, attitude, 1.0, gradient);
    add_scaled(per_turn / next.claw.screw_pitch_m, claw_per_, gradient);
    for (double& value : gradient)
        value /= -per_turn;
    if (belief_.used(static_cast<int>(Unknown::screws_now)))
        // Turns are counted from where the screws are thought to be.
        gradient[static_cast<std::size_t>(Unknown::screws_now)] -= screw_reading_turns;
    return gradient;
}

TurnsSpread::Stiffness TurnsSpread::stiffness(const Assembly& next, double turns) const {
    const ClawSetting turned = claw_.turned(turns);
    Stiffness stiffness{net_torque_at_pitch(next, turned, wanted_rad_).slope, {}};
    Deviations here = pull_per_, above = pull_above_, below = pull_below_;
    const double per_x = add_spring_torque(next, chain_, turned, Attitude(wanted_rad_), 1.0, here);
    const double per_x_above =
        add_spring_torque(next, chain_, turned, Attitude(wanted_rad_ + apart_rad), 1.0, above);
    const double per_x_below =
        add_spring_torque(next, chain_, turned, Attitude(wanted_rad_ - apart_rad), 1.0, below);
    if (per_x == 0.0)
        return stiffness; // every spring is closed
    const double follows = (per_x_above - per_x_below) / per_x;
    for (std::size_t u = 0; u < here.size(); ++u)
        stiffness.per[u] = (above[u] - below[u] - follows * here[u]) / (2.0 * apart_rad);
    return stiffness;
}

double torque_to_balance_nm(const Setup& setup, const Assembly& next, double wanted_rad) {
    if (setup.next.rest == RestWanted::on_the_body)
        return torque_to_hold_on_body_nm(next);
    const Attitude attitude(wanted_rad);
    return string_torque_at_pitch(next, attitude).value + weight_torque(next, attitude).value;
}

double torque_to_hold_on_body_nm(const Assembly& assembly) {
    const HeldBend held = held_on_body(assembly);
    return string_torque_at_pitch(assembly, held.attitude).value +
           weight_torque(assembly, held.attitude).value + held.added_nm;
}

} // namespace counterpull
