// The extension springs behind the bridge.
#pragma once

namespace counterpull {

// Lengths are hook to hook.
struct Spring {
    double rate_n_m = 0.0;
    double free_length_m = 0.0;
    double initial_tension_n = 0.0; // force at which the closed coils part
    double longest_m = 0.0;         // beyond this it may not come back to its length
    bool operator==(const Spring&) const = default;
};

// Force at a length: F0 + k (ℓ − ℓ_free) where ℓ > ℓ_free, else 0. It jumps from 0 to F0 at the free length.
double spring_force_n(const Spring& spring, double length_m);

// Rate k = G d⁴ / (8 D³ Na) with Na = body coils + G/E, for a spring with a full loop at either end.
// d wire diameter, D mean coil diameter (outer less d), in metres; moduli in Pa; result in N/m.
// Source: Shigley, Mechanical Engineering Design, chapter 10, extension springs (example 10-6).
double rate_from_wire_n_m(double wire_m, double mean_coil_m, double body_coils, double shear_modulus_pa,
                          double young_modulus_pa);

// Rate from two weighings of the open spring: (F2 − F1)/(ℓ2 − ℓ1), N/m. The lengths must differ.
double rate_from_weighing_n_m(double force1_n, double length1_m, double force2_n, double length2_m);

} // namespace counterpull
