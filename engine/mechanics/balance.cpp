#include "engine/mechanics/balance.h"

#include "engine/base/pitch.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

// The travel is searched in this many steps; a pair of balances closer together than one step is found by
// the slope test in `follow`.
constexpr int travel_steps = 48;

Reach string_reach(const StringOnBridge& string, const Attitude& attitude) {
    return reach(string.nut(), string.saddle(), 0.0, attitude);
}

Reach spring_reach(const Assembly& assembly, const SpringOnBridge& spring, const ClawSetting& claw,
                   const Attitude& attitude) {
    return reach(hook_at(assembly.claw, claw, spring.hook_z_m), assembly.bridge.block(),
                 spring.hook_z_m - spring.hole_z_m, attitude);
}

// Torque of a pull F(ℓ) with dF/dℓ = `force_per_m`, and its derivative by the angle.
Sample torque_of(const Reach& at, double force_n, double force_per_m) {
    return {-force_n * at.per_rad_m, -force_n * at.per_rad2_m - force_per_m * at.per_rad_m * at.per_rad_m};
}

Sample operator+(Sample a, Sample b) {
    return {a.value + b.value, a.slope + b.slope};
}

double rate_at(const Spring& spring, double length_m) {
    return length_m > spring.free_length_m ? spring.rate_n_m : 0.0;
}

Sample torque_at_pitch(const StringOnBridge& string, double frequency_hz, const Attitude& attitude) {
    const Reach at = string_reach(string, attitude);
    const double tension = tension_at_pitch_n(string.mechanics, frequency_hz, at.length_m);
    return torque_of(at, tension,
                     tension_at_pitch_per_m(string.mechanics, frequency_hz, at.length_m, tension));
}

Sample torque_free(const StringOnBridge& string, double unstretched_m, const Attitude& attitude) {
    const Reach at = string_reach(string, attitude);
    const double tension = tension_at_length_n(string.mechanics, unstretched_m, at.length_m + string.dead_m);
    return torque_of(at, tension, tension > 0.0 ? string.mechanics.axial_stiffness_n / unstretched_m : 0.0);
}

// Between two places where the torque has one sign, it may touch zero if it first approaches zero and then
// leaves it again. Halves toward the turning point; true where a place beyond zero was met, put into b.
template <class Torque>
bool dips_beyond_zero(Torque&& torque, double a, Sample at_a, double& b, Sample& at_b) {
    const double sign = at_a.value > 0.0 ? 1.0 : -1.0;
    const double way = b > a ? 1.0 : -1.0;
    auto approaches = [&](Sample s) { return sign * way * s.slope < 0.0; };
    if (!approaches(at_a) || approaches(at_b))
        return false;
    double near = a, far = b;
    while (std::abs(far - near) > 1e-9) {
        const double middle = 0.5 * (near + far);
        const Sample here = torque(middle);
        if (sign * here.value <= 0.0) {
            b = middle;
            at_b = here;
            return true;
        }
        (approaches(here) ? near : far) = middle;
    }
    return false;
}

// `torque(angle)` is the net torque; `scale_nm` makes its residual dimensionless.
template <class Torque>
Rest follow(Torque&& torque, const Bridge& bridge, double from_rad, double scale_nm) {
    const double tolerance = balance_tolerance * scale_nm;
    const double low = lowest_angle_rad(bridge), high = highest_angle_rad(bridge);
    Rest rest;
    double a = std::clamp(from_rad, low, high);
    Sample at_a = torque(a);
    if (std::abs(at_a.value) <= tolerance) {
        rest.angle_rad = polished(a, at_a, low, high);
        rest.stable = at_a.slope < 0.0;
        rest.residual = at_a.value / scale_nm;
        return rest;
    }
    const bool rises = at_a.value > 0.0;
    const double stop = rises ? high : low;
    const double step = (rises ? 1.0 : -1.0) * (high - low) / travel_steps;
    while (a != stop) {
        double b = a + step;
        if (rises ? b > stop : b < stop)
            b = stop;
        Sample at_b = torque(b);
        const bool crosses = (at_b.value > 0.0) != rises || at_b.value == 0.0;
        if (crosses || dips_beyond_zero(torque, a, at_a, b, at_b)) {
            const Root root = bracketed_root(torque, a, at_a, b, at_b, {tolerance, jump_width});
            rest.kind = root.status == RootStatus::jump ? RestKind::spring_closed : RestKind::floats;
            rest.angle_rad = root.at;
            rest.stable = true; // the sign changes from − above to + below
            rest.status = root.status;
            rest.iterations = root.iterations;
            rest.residual = root.residual / scale_nm;
            return rest;
        }
        a = b;
        at_a = at_b;
    }
    rest.kind = rises ? RestKind::tail_up_stop : RestKind::tail_down_stop;
    rest.angle_rad = stop;
    rest.residual = at_a.value / scale_nm;
    return rest;
}

} // namespace

Sample string_torque_at_pitch(const StringOnBridge& string, const Attitude& attitude) {
    return torque_at_pitch(string, string.frequency_hz, attitude);
}

Sample string_torque_at_pitch(const Assembly& assembly, const Attitude& attitude) {
    Sample sum;
    for (const StringOnBridge& string : assembly.strung())
        sum = sum + string_torque_at_pitch(string, attitude);
    return sum;
}

Sample string_torque_free(const Assembly& assembly, const StringLengths& lengths, const Attitude& attitude) {
    Sample sum;
    for (std::size_t i = 0; i < assembly.strung().size(); ++i)
        sum = sum + torque_free(assembly.strings[i], lengths[i], attitude);
    return sum;
}

Sample spring_torque(const Assembly& assembly, const ClawSetting& claw, const Attitude& attitude) {
    Sample sum;
    for (const SpringOnBridge& spring : assembly.sprung()) {
        const Reach at = spring_reach(assembly, spring, claw, attitude);
        sum = sum +
              torque_of(at, spring_force_n(spring.spring, at.length_m), rate_at(spring.spring, at.length_m));
    }
    return sum;
}

Sample weight_torque(const Assembly& assembly, const Attitude& attitude) {
    const double moment = assembly.bridge.weight_n * assembly.bridge.weight_setback_m;
    return {assembly.unexplained_nm - moment * attitude.cosine, moment * attitude.sine};
}

double spring_torque_per_turn(const Assembly& assembly, const ClawSetting& claw, const Attitude& attitude) {
    double sum = 0.0;
    for (const SpringOnBridge& spring : assembly.sprung()) {
        const Reach at = spring_reach(assembly, spring, claw, attitude);
        const ReachPerShift shift = reach_per_fixed(at, hook_at(assembly.claw, claw, spring.hook_z_m),
                                                    assembly.bridge.block(), attitude);
        sum -= rate_at(spring.spring, at.length_m) * shift.length.x * at.per_rad_m +
               spring_force_n(spring.spring, at.length_m) * shift.per_rad.x;
    }
    return sum * assembly.claw.screw_pitch_m;
}

Sample net_torque_at_pitch(const Assembly& assembly, const ClawSetting& claw, double angle_rad) {
    const Attitude attitude(angle_rad);
    return string_torque_at_pitch(assembly, attitude) + spring_torque(assembly, claw, attitude) +
           weight_torque(assembly, attitude);
}

Sample net_torque_free(const Assembly& assembly, const StringLengths& lengths, const ClawSetting& claw,
                       double angle_rad) {
    const Attitude attitude(angle_rad);
    return string_torque_free(assembly, lengths, attitude) + spring_torque(assembly, claw, attitude) +
           weight_torque(assembly, attitude);
}

double speaking_length_m(const StringOnBridge& string, const Attitude& attitude) {
    return string_reach(string, attitude).length_m;
}

double tension_at_pitch_n(const StringOnBridge& string, const Attitude& attitude) {
    return tension_at_pitch_n(string.mechanics, string.frequency_hz, speaking_length_m(string, attitude));
}

double tension_free_n(const StringOnBridge& string, double unstretched_m, const Attitude& attitude) {
    return tension_at_length_n(string.mechanics, unstretched_m,
                               speaking_length_m(string, attitude) + string.dead_m);
}

double spring_length_m(const Assembly& assembly, const SpringOnBridge& spring, const ClawSetting& claw,
                       const Attitude& attitude) {
    return spring_reach(assembly, spring, claw, attitude).length_m;
}

StringLengths lengths_at_pitch(const Assembly& assembly, const Attitude& attitude) {
    return lengths_as_tuned(assembly, all_at_pitch(assembly), attitude);
}

double cents_shown(const StringOnBridge& string, double unstretched_m, const Attitude& attitude) {
    return cents_between(string.frequency_hz,
                         pitch_at_tension_hz(string.mechanics,
                                             tension_free_n(string, unstretched_m, attitude),
                                             speaking_length_m(string, attitude)));
}

std::vector<double> cents_shown(const Assembly& assembly, const StringLengths& lengths,
                                const Attitude& attitude) {
    std::vector<double> cents;
    cents.reserve(assembly.strung().size());
    for (std::size_t i = 0; i < assembly.strung().size(); ++i)
        cents.push_back(cents_shown(assembly.strings[i], lengths[i], attitude));
    return cents;
}

double string_torque_scale_nm(const Assembly& assembly, const Attitude& attitude) {
    double sum = 0.0;
    for (const StringOnBridge& string : assembly.strung())
        sum += std::abs(tension_at_pitch_n(string, attitude)) *
               std::hypot(string.saddle_setback_m, string.saddle_height_m);
    return sum;
}

Rest rest_at_pitch(const Assembly& assembly, const ClawSetting& claw, double from_rad) {
    Rest found = rest(assembly, all_at_pitch(assembly), claw, from_rad);
    if (found.kind == RestKind::floats)
        found.per_turn_m = tail_per_turn_m(assembly, claw, found.angle_rad);
    return found;
}

Rest rest_free(const Assembly& assembly, const StringLengths& lengths, const ClawSetting& claw,
               double from_rad) {
    return rest(assembly, untouched(lengths), claw, from_rad);
}

Tuners all_at_pitch(const Assembly& assembly) {
    Tuners tuners;
    for (std::size_t i = 0; i < assembly.strung().size(); ++i)
        tuners.pitch_hz[i] = assembly.strings[i].frequency_hz;
    return tuners;
}

Tuners untouched(const StringLengths& lengths) {
    return {lengths, {}};
}

Tuners one_at_pitch(const StringLengths& lengths, int string, double pitch_hz) {
    Tuners tuners{lengths, {}};
    tuners.pitch_hz[static_cast<std::size_t>(string)] = pitch_hz;
    return tuners;
}

Sample net_torque(const Assembly& assembly, const Tuners& tuners, const ClawSetting& claw, double angle_rad) {
    const Attitude attitude(angle_rad);
    Sample sum = spring_torque(assembly, claw, attitude) + weight_torque(assembly, attitude);
    for (std::size_t i = 0; i < assembly.strung().size(); ++i) {
        const double pitch_hz = tuners.pitch_hz[i];
        sum = sum + (pitch_hz > 0.0 ? torque_at_pitch(assembly.strings[i], pitch_hz, attitude)
                                    : torque_free(assembly.strings[i], tuners.lengths_m[i], attitude));
    }
    return sum;
}

Rest rest(const Assembly& assembly, const Tuners& tuners, const ClawSetting& claw, double from_rad) {
    return follow([&](double angle) { return net_torque(assembly, tuners, claw, angle); }, assembly.bridge,
                  from_rad, string_torque_scale_nm(assembly, Attitude(from_rad)));
}

Rest rest_near(const Assembly& assembly, const Tuners& tuners, const ClawSetting& claw, double guess_rad,
               double from_rad) {
    constexpr int most_steps = 12;
    const double low = lowest_angle_rad(assembly.bridge), high = highest_angle_rad(assembly.bridge);
    const double scale_nm = string_torque_scale_nm(assembly, Attitude(guess_rad));
    double angle = guess_rad;
    for (int i = 0; i < most_steps && angle > low && angle < high; ++i) {
        const Sample here = net_torque(assembly, tuners, claw, angle);
        if (here.slope >= 0.0)
            break;
        if (std::abs(here.value) <= balance_tolerance * scale_nm) {
            Rest found;
            found.angle_rad = polished(angle, here, low, high);
            found.iterations = i;
            found.residual = here.value / scale_nm;
            return found;
        }
        angle -= here.value / here.slope;
    }
    return rest(assembly, tuners, claw, from_rad);
}

StringLengths lengths_as_tuned(const Assembly& assembly, const Tuners& tuners, const Attitude& attitude) {
    StringLengths lengths = tuners.lengths_m;
    for (std::size_t i = 0; i < assembly.strung().size(); ++i) {
        const StringOnBridge& string = assembly.strings[i];
        const double length = speaking_length_m(string, attitude);
        if (tuners.pitch_hz[i] > 0.0)
            lengths[i] = unstretched_length_m(
                string.mechanics, tension_at_pitch_n(string.mechanics, tuners.pitch_hz[i], length),
                length + string.dead_m);
    }
    return lengths;
}

double tail_per_turn_m(const Assembly& assembly, const ClawSetting& claw, double angle_rad) {
    const Attitude attitude(angle_rad);
    const double per_rad = net_torque_at_pitch(assembly, claw, angle_rad).slope;
    const double rad_per_turn = -spring_torque_per_turn(assembly, claw, attitude) / per_rad;
    return assembly.bridge.tail_m * attitude.cosine * rad_per_turn;
}

Root turns_to_balance(const Assembly& assembly, const ClawSetting& claw, const Attitude& attitude,
                      double opposing_nm) {
    if (opposing_nm <= 0.0)
        return {};
    auto net = [&](double turns) -> Sample {
        const ClawSetting turned = claw.turned(turns);
        return {(opposing_nm + spring_torque(assembly, turned, attitude).value) / opposing_nm,
                spring_torque_per_turn(assembly, turned, attitude) / opposing_nm};
    };
    // Fully eased, the hooks stand close before the holes and every spring is closed.
    constexpr double gap_m = 1e-3;
    const double block_x = attitude.of(assembly.bridge.block()).x;
    double eased = (block_x + gap_m - claw.x_m) / assembly.claw.screw_pitch_m -
                   std::max(claw.bass_turns, claw.treble_turns);
    double tight = eased;
    const Sample at_eased = net(eased);
    Sample at_tight = at_eased;
    // Ten times the longest spring is far beyond any claw; forces grow with every step on the way.
    double longest_m = 0.0;
    for (const SpringOnBridge& spring : assembly.sprung())
        longest_m = std::max(longest_m, spring.spring.longest_m);
    const double step = 0.5 * longest_m / assembly.claw.screw_pitch_m;
    for (int i = 0; i < 20 && at_tight.value > 0.0; ++i) {
        tight += step;
        at_tight = net(tight);
    }
    return bracketed_root(net, eased, at_eased, tight, at_tight, {balance_tolerance, jump_width_turns});
}

Root turns_for_attitude(const Assembly& assembly, const ClawSetting& claw, double angle_rad) {
    const Attitude attitude(angle_rad);
    return turns_to_balance(assembly, claw, attitude,
                            string_torque_at_pitch(assembly, attitude).value +
                                weight_torque(assembly, attitude).value);
}

std::optional<double> tail_per_turn_balanced_m(const Assembly& assembly, double angle_rad) {
    const ClawSetting anywhere{assembly.bridge.block().x, 0.0, 0.0};
    const Root held = turns_for_attitude(assembly, anywhere, angle_rad);
    if (!held.found())
        return std::nullopt;
    return tail_per_turn_m(assembly, anywhere.turned(held.at), angle_rad);
}

} // namespace counterpull
