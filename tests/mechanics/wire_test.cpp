#include "engine/base/units.h"
#include "engine/mechanics/wire.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace counterpull;

TEST_CASE("music wire has the moduli of the handbook, by diameter") {
    // Shigley, Mechanical Engineering Design, table 10-5, music wire A228, from memory: Mpsi by inches.
    struct Row {
        double inches, young_mpsi, shear_mpsi;
    };
    for (const Row& row :
         {Row{0.020, 29.5, 12.0}, Row{0.040, 29.0, 11.85}, Row{0.080, 28.5, 11.75}, Row{0.140, 28.0, 11.6}}) {
        const double d = metres_from_inches(row.inches);
        CHECK(young_modulus_pa(d) == Approx(row.young_mpsi * 1e6 * pascals_per_psi).epsilon(1e-3));
        CHECK(shear_modulus_pa(d) == Approx(row.shear_mpsi * 1e6 * pascals_per_psi).epsilon(1e-3));
    }
}

TEST_CASE("thin music wire is as strong as the handbook says") {
    // Shigley, table 10-4: A = 201 kpsi·in^m in customary units, m = 0.145 (from memory).
    for (const double inches : {0.010, 0.017, 0.046})
        CHECK(tensile_strength_pa(metres_from_inches(inches)) ==
              Approx(201e3 / std::pow(inches, 0.145) * pascals_per_psi).epsilon(5e-3));
}

TEST_CASE("a plain ten weighs what steel weighs") {
    // ASTM A228 density 7850 kg/m³: a 0.010 in wire of 1 m weighs 0.398 g.
    const double d = metres_from_inches(0.010);
    CHECK(music_wire_density_kg_m3 * round_area_m2(d) == Approx(0.3978e-3).epsilon(1e-3));
}

TEST_CASE("a hexagon lies between its inscribed and circumscribed circles") {
    const double c = 0.4e-3, outer = c * 2.0 / std::sqrt(3.0);
    CHECK(hex_area_m2(c) == Approx(0.866 * c * c).epsilon(1e-4));
    CHECK(hex_area_m2(c) > round_area_m2(c));
    CHECK(hex_area_m2(c) < round_area_m2(outer));
    CHECK(hex_second_moment_m4(c) > round_second_moment_m4(c));
    CHECK(hex_second_moment_m4(c) < round_second_moment_m4(outer));
}
