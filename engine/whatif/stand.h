// A guitar standing in tune: where every question "what if …" starts from.
#pragma once

#include "engine/mechanics/tuning.h"

namespace counterpull {

struct Stand {
    Assembly assembly;
    ClawSetting claw;
    double angle_rad = 0.0;
    StringLengths lengths_m{}; // unstretched, as its tuners are set

    double tail_m() const { return tail_at_angle_m(assembly.bridge, angle_rad); }
    Attitude attitude() const { return Attitude(angle_rad); }
};

// In tune at an attitude, with the claw that holds it there.
Stand standing(const Assembly& assembly, const ClawSetting& claw, double angle_rad);

// Where it stands after something was done to it, and what the tuner then shows, lowest string first; nothing
// for a string that is off or slack.
struct Moved {
    double angle_rad = 0.0;
    double tail_m = 0.0;
    std::vector<std::optional<double>> cents;
};

// The bridge let go with these tuners.
Moved moved(const Stand& stand, const Tuners& tuners);

} // namespace counterpull
