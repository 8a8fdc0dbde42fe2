// The arm: the pitch of every string over the whole way of the bridge, its tuners untouched.
//
// Pressed down the arm raises the tail and the strings slacken; pulled up it lowers the tail to its stop. At
// each attitude T = EA ((L(θ) + dead)/n − 1), and the string sounds on L(θ). For one small angle from level,
// the tail's rising being flat, a string under T on length L with `dead` more that stretches goes by about
//     Δf/f = −h θ EA / (2 T (L + dead)),
// h the saddle's height over the pivot: the strings part in the order of EA/T of their cores, which is why
// chords do not glide evenly. Source: J. A. Kemp, "The physics of unwound and wound strings on the electric
// guitar applied to the pitch intervals produced by tremolo/vibrato arm systems", PLoS ONE 12(9): e0184803
// (2017).
#pragma once

#include "engine/whatif/stand.h"

namespace counterpull {

inline constexpr int arm_samples = 81;

struct ArmSample {
    double angle_rad = 0.0;
    double tail_m = 0.0;
    std::vector<std::optional<double>> cents; // against its pitch at rest; nothing where slack
};

struct ArmString {
    double up_cents = 0.0;            // with the tail on its lower stop
    std::optional<double> down_cents; // with the tail on its upper stop; nothing where it is slack there
    std::optional<double> slack_rad;  // where it goes slack, if on the way
    double strength_up = 0.0;         // share of its breaking load on the lower stop
};

struct ArmRange {
    std::vector<ArmSample> samples; // from the lower stop to the upper one, evenly
    std::vector<ArmString> strings; // lowest first
};

ArmRange arm_range(const Stand& stand);

// How far the strings lie apart, highest less lowest in cents, where those that are not slack have gone by
// `mean_cents` in the mean; nothing where the arm does not reach that before one is slack.
std::optional<double> chord_spread_cents(const ArmRange& range, double mean_cents);

} // namespace counterpull
