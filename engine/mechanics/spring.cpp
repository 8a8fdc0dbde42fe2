#include "engine/mechanics/spring.h"

#include <cassert>
#include <cmath>

namespace counterpull {

double spring_force_n(const Spring& spring, double length_m) {
    if (length_m <= spring.free_length_m)
        return 0.0;
    return spring.initial_tension_n + spring.rate_n_m * (length_m - spring.free_length_m);
}

double rate_from_wire_n_m(double wire_m, double mean_coil_m, double body_coils, double shear_modulus_pa,
                          double young_modulus_pa) {
    const double active_coils = body_coils + shear_modulus_pa / young_modulus_pa;
    return shear_modulus_pa * std::pow(wire_m, 4) / (8.0 * std::pow(mean_coil_m, 3) * active_coils);
}

double rate_from_weighing_n_m(double force1_n, double length1_m, double force2_n, double length2_m) {
    assert(length1_m != length2_m);
    return (force2_n - force1_n) / (length2_m - length1_m);
}

} // namespace counterpull
