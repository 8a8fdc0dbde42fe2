#include "engine/mechanics/partials.h"

#include "engine/base/units.h"

#include <cmath>

namespace counterpull {

namespace {

// Speaking length and its slope by θ, each by what moves the saddle. Nut and saddle are built from the same
// height and setback, and both move: nut (scale − setback, height), saddle (−setback, height).
struct StringReach {
    Reach at;
    double length_per_height, length_per_setback;
    double slope_per_height, slope_per_setback;
};

StringReach string_reach(const StringOnBridge& string, const Attitude& attitude) {
    const Reach at = reach(string.nut(), string.saddle(), 0.0, attitude);
    const ReachPerShift nut = reach_per_fixed(at, string.nut(), string.saddle(), attitude);
    const ReachPerShift saddle = reach_per_level(at, string.nut(), string.saddle(), attitude);
    return {at, nut.length.y + saddle.length.y, -(nut.length.x + saddle.length.x),
            nut.per_rad.y + saddle.per_rad.y, -(nut.per_rad.x + saddle.per_rad.x)};
}

// A pull, with its derivatives by the string's numbers and by the speaking length.
struct Pull {
    double tension_n = 0.0;
    double per_unit_weight = 0.0, per_axial = 0.0, per_bending = 0.0;
    double per_length = 0.0, per_dead = 0.0, per_unstretched = 0.0;
};

// Implicit differentiation of the quadratic of `tension_at_pitch_n`, with B = π² EI/L²:
//     Q = T²/EA + T (1 + B/EA) + B − μ0 (2 L f)² = 0,   ∂T/∂y = −(∂Q/∂y)/(∂Q/∂T)
//     ∂Q/∂T = 1 + 2 T/EA + B/EA,   ∂Q/∂μ0 = −(2 L f)²,   ∂Q/∂EA = −T (T + B)/EA²,
//     ∂Q/∂EI = (1 + T/EA) π²/L².
Pull pull_at_pitch(const StringMechanics& string, double frequency_hz, double length_m) {
    const double axial = string.axial_stiffness_n, speed = 2.0 * length_m * frequency_hz;
    const double tension = tension_at_pitch_n(string, frequency_hz, length_m);
    const double per_bending = pi * pi / (length_m * length_m);
    const double bending = per_bending * string.bending_stiffness_n_m2;
    const double per_tension = 1.0 + (2.0 * tension + bending) / axial;
    Pull pull;
    pull.tension_n = tension;
    pull.per_unit_weight = speed * speed / per_tension;
    pull.per_axial = tension * (tension + bending) / (axial * axial * per_tension);
    pull.per_bending = -(1.0 + tension / axial) * per_bending / per_tension;
    pull.per_length = tension_at_pitch_per_m(string, frequency_hz, length_m, tension);
    return pull;
}

// T = EA ((L + dead)/n − 1) where that is above zero.
Pull pull_free(const StringOnBridge& string, double unstretched_m, double length_m) {
    const double axial = string.mechanics.axial_stiffness_n, stretched = length_m + string.dead_m;
    Pull pull;
    pull.tension_n = tension_at_length_n(string.mechanics, unstretched_m, stretched);
    if (pull.tension_n <= 0.0)
        return pull;
    pull.per_axial = pull.tension_n / axial;
    pull.per_length = pull.per_dead = axial / unstretched_m;
    pull.per_unstretched = -axial * stretched / (unstretched_m * unstretched_m);
    return pull;
}

// ∂τ/∂y = −(∂T/∂y + ∂T/∂L ∂L/∂y) L' − T ∂L'/∂y.
StringPartials torque_of(const StringReach& reach, const Pull& pull) {
    const double slope = reach.at.per_rad_m, per_length = -pull.per_length * slope;
    return {-pull.per_unit_weight * slope,
            -pull.per_axial * slope,
            -pull.per_bending * slope,
            per_length * reach.length_per_height - pull.tension_n * reach.slope_per_height,
            per_length * reach.length_per_setback - pull.tension_n * reach.slope_per_setback,
            -pull.per_dead * slope,
            -pull.per_unstretched * slope,
            per_length * slope - pull.tension_n * reach.at.per_rad2_m};
}

// What depends on the saddle and the attitude through the speaking length alone.
void through_length(const StringReach& reach, double per_length, StringPartials& by) {
    by.saddle_height = per_length * reach.length_per_height;
    by.saddle_setback = per_length * reach.length_per_setback;
    by.angle = per_length * reach.at.per_rad_m;
}

// The hole is at (−setback, −depth): what moves it has the opposite sign.
struct SpringReach {
    Reach at;
    ReachPerShift hook, hole;
};

SpringReach spring_reach(const Assembly& assembly, const SpringOnBridge& spring, const ClawSetting& claw,
                         const Attitude& attitude) {
    const Point hook = hook_at(assembly.claw, claw, spring.hook_z_m), hole = assembly.bridge.block();
    const Reach at = reach(hook, hole, spring.hook_z_m - spring.hole_z_m, attitude);
    return {at, reach_per_fixed(at, hook, hole, attitude), reach_per_level(at, hook, hole, attitude)};
}

} // namespace

StringPartials torque_partials_at_pitch(const StringOnBridge& string, double frequency_hz,
                                        const Attitude& attitude) {
    const StringReach reach = string_reach(string, attitude);
    return torque_of(reach, pull_at_pitch(string.mechanics, frequency_hz, reach.at.length_m));
}

StringPartials torque_partials_free(const StringOnBridge& string, double unstretched_m,
                                    const Attitude& attitude) {
    const StringReach reach = string_reach(string, attitude);
    return torque_of(reach, pull_free(string, unstretched_m, reach.at.length_m));
}

// n = (L + dead) EA/(EA + T):  ∂n/∂T = −n/(EA + T),  ∂n/∂(L + dead) = EA/(EA + T),
// ∂n/∂EA = n T/(EA (EA + T)) besides what EA does to T.
StringPartials unstretched_partials(const StringOnBridge& string, double frequency_hz,
                                    const Attitude& attitude) {
    const StringReach reach = string_reach(string, attitude);
    const Pull pull = pull_at_pitch(string.mechanics, frequency_hz, reach.at.length_m);
    const double axial = string.mechanics.axial_stiffness_n, stiff = axial + pull.tension_n;
    const double n =
        unstretched_length_m(string.mechanics, pull.tension_n, reach.at.length_m + string.dead_m);
    StringPartials by;
    by.unit_weight = -n / stiff * pull.per_unit_weight;
    by.axial_stiffness = n / stiff * (pull.tension_n / axial - pull.per_axial);
    by.bending_stiffness = -n / stiff * pull.per_bending;
    by.dead = axial / stiff;
    through_length(reach, axial / stiff - n / stiff * pull.per_length, by);
    return by;
}

StringPartials slack_partials(const StringOnBridge& string, const Attitude& attitude) {
    StringPartials by;
    by.dead = 1.0;
    through_length(string_reach(string, attitude), 1.0, by);
    return by;
}

// cents = 1200/ln 2 · ln(f/f0),  ln f = ½ ln(T + B) + ½ ln(1 + T/EA) − ½ ln μ0 − ln(2 L), so
//     ∂ln f/∂T = ½/(T + B) + ½/(EA + T),   ∂ln f/∂B = ½/(T + B) with B = π² EI/L²,
//     ∂ln f/∂EA = −½ T/(EA (EA + T)) besides what EA does to T.
StringPartials cents_partials(const StringOnBridge& string, double unstretched_m, const Attitude& attitude) {
    const StringReach reach = string_reach(string, attitude);
    const double length = reach.at.length_m, axial = string.mechanics.axial_stiffness_n;
    const Pull pull = pull_free(string, unstretched_m, length);
    const double per_bending = pi * pi / (length * length);
    const double bending = per_bending * string.mechanics.bending_stiffness_n_m2;
    const double cents = 1200.0 / std::log(2.0);
    const double restoring = 0.5 * cents / (pull.tension_n + bending);
    const double per_tension = restoring + 0.5 * cents / (axial + pull.tension_n);
    StringPartials by;
    by.unit_weight = -0.5 * cents / string.mechanics.unit_weight_kg_m;
    by.axial_stiffness =
        per_tension * pull.per_axial - 0.5 * cents * pull.tension_n / (axial * (axial + pull.tension_n));
    by.bending_stiffness = restoring * per_bending;
    by.dead = per_tension * pull.per_dead;
    by.unstretched = per_tension * pull.per_unstretched;
    through_length(reach, per_tension * pull.per_length - restoring * 2.0 * bending / length - cents / length,
                   by);
    return by;
}

// F = F0 + k (ℓ − ℓ_free) where the spring is open.
SpringPartials torque_partials(const Assembly& assembly, const SpringOnBridge& on, const ClawSetting& claw,
                               const Attitude& attitude) {
    const SpringReach reach = spring_reach(assembly, on, claw, attitude);
    const double extension = reach.at.length_m - on.spring.free_length_m;
    if (extension <= 0.0)
        return {};
    const double force = spring_force_n(on.spring, reach.at.length_m);
    const double slope = reach.at.per_rad_m, per_length = -on.spring.rate_n_m * slope;
    return {-extension * slope,
            -slope,
            on.spring.rate_n_m * slope,
            per_length * reach.hook.length.x - force * reach.hook.per_rad.x,
            -(per_length * reach.hole.length.y - force * reach.hole.per_rad.y),
            -(per_length * reach.hole.length.x - force * reach.hole.per_rad.x),
            per_length * slope - force * reach.at.per_rad2_m};
}

SpringPartials length_partials(const Assembly& assembly, const SpringOnBridge& on, const ClawSetting& claw,
                               const Attitude& attitude) {
    const SpringReach reach = spring_reach(assembly, on, claw, attitude);
    return {
        0.0, 0.0, 0.0, reach.hook.length.x, -reach.hole.length.y, -reach.hole.length.x, reach.at.per_rad_m};
}

} // namespace counterpull
