// Where a general multibody library (Simbody, Debian's libsimbody-dev) lets a body on a pin come to rest
// under linear two-point springs. Knows nothing of guitars and includes nothing of the engine. SI; the pin is
// the z axis through the origin.
#pragma once

#include <array>
#include <vector>

namespace reference {

struct TwoPointSpring {
    std::array<double, 3> on_body; // when the body stands unturned
    std::array<double, 3> on_ground;
    double rate_n_m;
    double natural_length_m; // it pulls beyond, and pushes within
};

// The angle about +z at which the elastic energy is least, from a starting angle, rad.
double resting_angle_rad(const std::vector<TwoPointSpring>& springs, double from_rad);

} // namespace reference
