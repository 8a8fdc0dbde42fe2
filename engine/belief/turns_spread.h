// How sure a number of turns is: how it moves with everything that is not known for sure.
//
// The turns t are where the net torque g vanishes, with the claw x inferred from "now", so for an unknown z
//     dt/dz = −(∂g/∂z + ∂g/∂x · dx/dz) / (∂g/∂t),    dx/dz = −(∂g_now/∂z) / (∂g_now/∂x).
// The partial derivatives are exact (chain.h), no solution is repeated; tests check the result against
// differences of the full calculation and against 10,000 draws of it.
#pragma once

#include "engine/belief/chain.h"

namespace counterpull {

class TurnsSpread {
  public:
    // `claw` is where the claw is now, as believed; `wanted_rad` the attitude wanted.
    TurnsSpread(const Belief& belief, const ClawSetting& claw, double wanted_rad);

    // d(turns)/dz of each unknown, for the springs of `next` (the assembly of a fitting_next, as believed).
    Deviations gradient(const Assembly& next, double turns) const;

    // The stiffness of the float there, κ = dτ/dθ at pitch (N·m/rad, negative where it settles), and how it
    // moves with each unknown while the claw follows so that the balance holds:
    //     dκ/dz = ∂κ/∂z − (∂κ/∂x)(∂g/∂z)/(∂g/∂x),
    // the second derivatives by differences of the exact first ones. Only where it floats.
    struct Stiffness {
        double nm_per_rad = 0.0;
        Deviations per{};
    };
    Stiffness stiffness(const Assembly& next, double turns) const;

  private:
    TurnsSpread(const Belief& belief, const ClawSetting& claw, double wanted_rad, const Assembly& strings);
    void add_torque_to_hold(const Assembly& strings);

    const Belief& belief_;
    ClawSetting claw_;
    double wanted_rad_;
    Chain chain_;                            // of the next strings
    Deviations claw_per_{};                  // dx/dz, m
    Deviations pull_per_{};                  // d(torque to balance)/dz, N·m
    Deviations pull_above_{}, pull_below_{}; // the same a little above and below the attitude wanted
};

// People are told a range of about 90 %: this many σ either way of a normal value.
inline constexpr double ninety_percent = 1.645;

// The torque that the springs have to balance with the next strings: at pitch, or so that the bridge stays on
// the body (`torque_to_hold_on_body_nm`).
double torque_to_balance_nm(const Setup& setup, const Assembly& next, double wanted_rad);

// The torque (N·m, + raises the tail) that the springs must hold on the lower stop so that a string bent up
// by `held_bend_semitones`, whichever pulls most, does not lift it; weight included.
inline constexpr double held_bend_semitones = 3.0;
double torque_to_hold_on_body_nm(const Assembly& assembly);

} // namespace counterpull
