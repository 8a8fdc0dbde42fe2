// By how much torques, lengths and cents move with each number that describes a string or a spring: exact
// partial derivatives, each with everything else held where it is.
//
// What is differentiated is what balance.h computes. All of it goes through the speaking length L(θ) and its
// slope L'(θ), so for a number y the torque τ = −T L' of a string moves by
//     ∂τ/∂y = −(∂T/∂y + ∂T/∂L · ∂L/∂y) L' − T ∂L'/∂y
// and that of a spring likewise. SI, per unit of the number; per radian of the attitude. Where a string is
// slack or a spring closed nothing pulls and every derivative of its torque is zero, up to the kink or jump
// and at it.
#pragma once

#include "engine/mechanics/balance.h"

namespace counterpull {

struct StringPartials {
    double unit_weight = 0.0;       // by μ0
    double axial_stiffness = 0.0;   // by EA
    double bending_stiffness = 0.0; // by EI
    double saddle_height = 0.0;
    double saddle_setback = 0.0;
    double dead = 0.0;
    double unstretched = 0.0; // by n; 0 for a string at pitch
    double angle = 0.0;
};

// Torque of a string at pitch, and with its tuner untouched.
StringPartials torque_partials_at_pitch(const StringOnBridge& string, double frequency_hz,
                                        const Attitude& attitude);
StringPartials torque_partials_free(const StringOnBridge& string, double unstretched_m,
                                    const Attitude& attitude);
// Unstretched length of a string at pitch (`lengths_at_pitch`), and of one just slack: n = L + dead.
StringPartials unstretched_partials(const StringOnBridge& string, double frequency_hz,
                                    const Attitude& attitude);
StringPartials slack_partials(const StringOnBridge& string, const Attitude& attitude);
// What a tuner shows, cents (`cents_shown`).
StringPartials cents_partials(const StringOnBridge& string, double unstretched_m, const Attitude& attitude);

struct SpringPartials {
    double rate = 0.0;
    double initial_tension = 0.0;
    double free_length = 0.0;
    double hook_x = 0.0; // the hook, toward the nut
    double block_depth = 0.0;
    double block_setback = 0.0;
    double angle = 0.0;
};

// Torque of one spring; its length.
SpringPartials torque_partials(const Assembly& assembly, const SpringOnBridge& spring,
                               const ClawSetting& claw, const Attitude& attitude);
SpringPartials length_partials(const Assembly& assembly, const SpringOnBridge& spring,
                               const ClawSetting& claw, const Attitude& attitude);

} // namespace counterpull
