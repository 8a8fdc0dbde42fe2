#include "engine/base/units.h"
#include "engine/mechanics/guitar_string.h"
#include "engine/mechanics/wire.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace counterpull;

namespace {

StringMechanics plain(double inches) {
    return mechanics_of(
        {metres_from_inches(inches), false, {}, CoreShape::round, Wrap::nickel_plated_steel, {}});
}

} // namespace

TEST_CASE("a string without stiffness follows Mersenne's law") {
    // f = √(T/μ)/(2L), the limit EI → 0 and EA → ∞ of Fletcher's formula (Fletcher & Rossing).
    StringMechanics ideal{1e-3, 1e15, 0.0, 1.0};
    const double tension = tension_at_pitch_n(ideal, 110.0, 0.65);
    CHECK(tension == Approx(1e-3 * std::pow(2 * 0.65 * 110.0, 2)).epsilon(1e-12));
    CHECK(pitch_at_tension_hz(ideal, 70.0, 0.65) == Approx(std::sqrt(70.0 / 1e-3) / 1.3).epsilon(1e-12));
}

TEST_CASE("bending stiffness raises the pitch as Fletcher's formula says") {
    // Fletcher 1964: f = f0 √(1 + B) for the fundamental with pinned ends, B = π² EI/(T L²).
    StringMechanics stiff{1e-3, 1e15, 2e-3, 1.0};
    const double length = 0.65, tension = 70.0;
    const double b = pi * pi * 2e-3 / (tension * length * length);
    CHECK(pitch_at_tension_hz(stiff, tension, length) ==
          Approx(std::sqrt(tension / 1e-3) / (2 * length) * std::sqrt(1 + b)).epsilon(1e-12));
}

TEST_CASE("a thick string's partials are more out of tune than a thin one's") {
    // B = π³ E d⁴ / (64 T L²) of a round wire (Fletcher 1964).
    const double inches[] = {0.010, 0.017};
    for (const double gauge : inches) {
        const double d = metres_from_inches(gauge);
        const double by_hand =
            std::pow(M_PI, 3) * young_modulus_pa(d) * std::pow(d, 4) / (64.0 * 70.0 * 0.648 * 0.648);
        CHECK(inharmonicity(plain(gauge), 70.0, 0.648) == Approx(by_hand).epsilon(1e-12));
    }
    CHECK(inharmonicity(plain(0.017), 70.0, 0.648) > 8.0 * inharmonicity(plain(0.010), 70.0, 0.648));
}

TEST_CASE("a stretched string is lighter, and so sounds higher by half its stretch") {
    // Limit of a small stretch ε = T/EA: μ = μ0/(1 + ε), so f rises by ε/2.
    StringMechanics stiffer{1e-3, 1e15, 0.0, 1.0}, stretching{1e-3, 70.0 / 1e-4, 0.0, 1.0};
    CHECK(pitch_at_tension_hz(stretching, 70.0, 0.65) / pitch_at_tension_hz(stiffer, 70.0, 0.65) - 1.0 ==
          Approx(0.5e-4).epsilon(1e-3));
}

TEST_CASE("tension and pitch are each other's inverse") {
    for (const double inches : {0.009, 0.017, 0.024})
        for (const double hz : {110.0, 196.0, 329.63}) {
            const StringMechanics string = plain(inches);
            const double tension = tension_at_pitch_n(string, hz, 0.6477);
            CHECK(pitch_at_tension_hz(string, tension, 0.6477) == Approx(hz).epsilon(1e-12));
        }
}

TEST_CASE("how tension follows the speaking length agrees with a difference quotient") {
    const StringMechanics string = plain(0.017);
    const double l = 0.6477, d = 1e-6, hz = 196.0;
    const double quotient =
        (tension_at_pitch_n(string, hz, l + d) - tension_at_pitch_n(string, hz, l - d)) / (2 * d);
    CHECK(tension_at_pitch_per_m(string, hz, l, tension_at_pitch_n(string, hz, l)) ==
          Approx(quotient).epsilon(1e-7));
}

TEST_CASE("a tuning below the string's own stiffness has no tension") {
    CHECK(tension_at_pitch_n(plain(0.15), 15.0, 0.3) < 0.0);
}

TEST_CASE("a plain ten at E4 on 25.5 inches pulls about 16 pounds") {
    // Common practice.
    const double pounds =
        tension_at_pitch_n(plain(0.010), 329.63, metres_from_inches(25.5)) / newtons_per_lbf;
    CHECK(pounds == Approx(16.2).margin(0.2));
}

TEST_CASE("a wound 46 at E2 on 25.5 inches pulls about 17½ pounds") {
    // Common practice, for a nickel plated steel wrap.
    const StringMechanics s =
        mechanics_of({metres_from_inches(0.046), true, {}, CoreShape::round, Wrap::nickel_plated_steel, {}});
    CHECK(tension_at_pitch_n(s, 82.407, metres_from_inches(25.5)) / newtons_per_lbf ==
          Approx(17.5).margin(0.4));
}

TEST_CASE("a wrapped string is lighter than a solid one of its size and only the core carries") {
    const double d = metres_from_inches(0.046);
    const StringMechanics s = mechanics_of({d, true, {}, CoreShape::round, Wrap::nickel_plated_steel, {}});
    CHECK(s.unit_weight_kg_m < music_wire_density_kg_m3 * round_area_m2(d));
    const double core = estimated_core_m(d);
    CHECK(core / metres_per_inch == Approx(0.0085 + 0.18 * 0.046));
    CHECK(s.axial_stiffness_n == Approx(young_modulus_pa(core) * round_area_m2(core)));
    CHECK(s.breaking_load_n == Approx(tensile_strength_pa(core) * round_area_m2(core)));
}

TEST_CASE("one turn of wrap, unrolled, is the hypotenuse of its circle and its pitch") {
    // By hand: core 0.4 mm, wrap wire 0.3 mm, outside 1.0 mm. Circle through the wrap's middle π·0.7 mm; one
    // turn √((π·0.7)² + 0.3²) = 2.2195 mm of wire per 0.3 mm of string.
    const StringMechanics s = mechanics_of({1.0e-3, true, 0.4e-3, CoreShape::round, Wrap::nickel, {}});
    const double core = 7850 * pi * 0.16e-6 / 4, wrap = 8900 * pi * 0.09e-6 / 4 * 2.2195 / 0.3;
    CHECK(s.unit_weight_kg_m == Approx(core + wrap).epsilon(1e-4));
}

TEST_CASE("a measured weight wins over the estimate") {
    CHECK(mechanics_of({1e-3, true, {}, CoreShape::round, Wrap::nickel, 5.5e-3}).unit_weight_kg_m == 5.5e-3);
}

TEST_CASE("a string whose tuner is not touched pulls by Hooke's law and never pushes") {
    const StringMechanics s = plain(0.010);
    const double unstretched = unstretched_length_m(s, 70.0, 0.7);
    CHECK(tension_at_length_n(s, unstretched, 0.7) == Approx(70.0));
    CHECK(tension_at_length_n(s, unstretched, unstretched * 0.999) == 0.0);
}
