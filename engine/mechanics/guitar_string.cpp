#include "engine/mechanics/guitar_string.h"

#include "engine/base/units.h"
#include "engine/mechanics/wire.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace counterpull {

namespace {

// Restoring force of the string's own stiffness in its fundamental, as an equivalent tension: π² EI/L².
double bending_tension_n(const StringMechanics& string, double length_m) {
    return pi * pi * string.bending_stiffness_n_m2 / (length_m * length_m);
}

double wrap_weight_kg_m(double diameter_m, double core_m, Wrap wrap) {
    const double wire_m = 0.5 * (diameter_m - core_m);
    const double turn_m = std::hypot(pi * (diameter_m - wire_m), wire_m);
    return wrap_density_kg_m3(wrap) * round_area_m2(wire_m) * turn_m / wire_m;
}

} // namespace

double wrap_density_kg_m3(Wrap wrap) {
    switch (wrap) {
    case Wrap::nickel:
        return 8900.0;
    case Wrap::stainless_steel:
        return 7900.0;
    case Wrap::nickel_plated_steel:
        break;
    }
    return 7850.0;
}

double estimated_core_m(double diameter_m) {
    return metres_from_inches(0.0085) + 0.18 * diameter_m;
}

StringMechanics mechanics_of(const StringBuild& build) {
    const double carrier_m =
        build.wound ? build.core_m.value_or(estimated_core_m(build.diameter_m)) : build.diameter_m;
    assert(!build.wound || carrier_m < build.diameter_m);
    const bool hex = build.wound && build.core == CoreShape::hex;
    const double area_m2 = hex ? hex_area_m2(carrier_m) : round_area_m2(carrier_m);
    const double second_moment_m4 = hex ? hex_second_moment_m4(carrier_m) : round_second_moment_m4(carrier_m);
    const double young_pa = young_modulus_pa(carrier_m);

    double weight_kg_m = music_wire_density_kg_m3 * area_m2;
    if (build.wound)
        weight_kg_m += wrap_weight_kg_m(build.diameter_m, carrier_m, build.wrap);

    return {build.unit_weight_kg_m.value_or(weight_kg_m), young_pa * area_m2, young_pa * second_moment_m4,
            tensile_strength_pa(carrier_m) * area_m2};
}

// Areas go with c², second moments with c⁴, round or hexagonal. The wrap, with w = (D − c)/2 and dw/dc = −½,
// weighs ρ (π/4) w H with H = hypot(π (D − w), w), so
//     d/dw = ρ (π/4) (H + w (w − π² (D − w))/H).
StringMechanics mechanics_per_core_m(const StringBuild& build) {
    const double core_m = build.core_m.value_or(estimated_core_m(build.diameter_m));
    const double area_m2 = build.core == CoreShape::hex ? hex_area_m2(core_m) : round_area_m2(core_m);
    const StringMechanics here = mechanics_of(build);
    const double wire_m = 0.5 * (build.diameter_m - core_m), laid_m = build.diameter_m - wire_m;
    const double turn_m = std::hypot(pi * laid_m, wire_m);
    const double wrap_per_wire =
        wrap_density_kg_m3(build.wrap) * pi / 4.0 * (turn_m + wire_m * (wire_m - pi * pi * laid_m) / turn_m);
    StringMechanics per;
    if (!build.unit_weight_kg_m)
        per.unit_weight_kg_m = music_wire_density_kg_m3 * 2.0 * area_m2 / core_m - 0.5 * wrap_per_wire;
    per.axial_stiffness_n = 2.0 * here.axial_stiffness_n / core_m;
    per.bending_stiffness_n_m2 = 4.0 * here.bending_stiffness_n_m2 / core_m;
    return per;
}

double tension_at_pitch_n(const StringMechanics& string, double frequency_hz, double length_m) {
    // T²/EA + T (1 + B/EA) + B − μ0 (2 L f)² = 0, with B = π² EI/L². The root is written so that it does not
    // lose digits where T is small against EA, as it always is.
    const double bending_n = bending_tension_n(string, length_m);
    const double speed_m_s = 2.0 * length_m * frequency_hz;
    const double linear = 1.0 + bending_n / string.axial_stiffness_n;
    const double wanted_n = string.unit_weight_kg_m * speed_m_s * speed_m_s - bending_n;
    const double discriminant = linear * linear + 4.0 * wanted_n / string.axial_stiffness_n;
    return 2.0 * wanted_n / (linear + std::sqrt(std::max(0.0, discriminant)));
}

double tension_at_pitch_per_m(const StringMechanics& string, double frequency_hz, double length_m,
                              double tension_n) {
    // Implicit differentiation of the quadratic above, dB/dL = −2 B/L.
    const double bending_n = bending_tension_n(string, length_m);
    const double stretch = tension_n / string.axial_stiffness_n;
    const double per_length = -(1.0 + stretch) * 2.0 * bending_n / length_m -
                              8.0 * string.unit_weight_kg_m * frequency_hz * frequency_hz * length_m;
    const double per_tension = 1.0 + 2.0 * stretch + bending_n / string.axial_stiffness_n;
    return -per_length / per_tension;
}

double pitch_at_tension_hz(const StringMechanics& string, double tension_n, double length_m) {
    const double restoring_n =
        (tension_n + bending_tension_n(string, length_m)) * (1.0 + tension_n / string.axial_stiffness_n);
    return std::sqrt(restoring_n / string.unit_weight_kg_m) / (2.0 * length_m);
}

double inharmonicity(const StringMechanics& string, double tension_n, double length_m) {
    return pi * pi * string.bending_stiffness_n_m2 / (tension_n * length_m * length_m);
}

double tension_at_length_n(const StringMechanics& string, double unstretched_m, double stretched_m) {
    return string.axial_stiffness_n * std::max(0.0, stretched_m / unstretched_m - 1.0);
}

double unstretched_length_m(const StringMechanics& string, double tension_n, double stretched_m) {
    return stretched_m / (1.0 + tension_n / string.axial_stiffness_n);
}

} // namespace counterpull
