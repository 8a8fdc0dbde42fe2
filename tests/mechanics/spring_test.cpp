#include "engine/base/units.h"
#include "engine/mechanics/spring.h"

#include <catch2/catch.hpp>

using namespace counterpull;

TEST_CASE("a spring pulls nothing closed, its initial tension as it opens, and its rate from there") {
    const Spring spring{2400, 0.060, 6, 0.100};
    CHECK(spring_force_n(spring, 0.050) == 0.0);
    CHECK(spring_force_n(spring, 0.060) == 0.0);
    CHECK(spring_force_n(spring, 0.060 + 1e-9) == Approx(6.0));
    CHECK(spring_force_n(spring, 0.070) == Approx(30.0));
}

TEST_CASE("the rate of the handbook's extension spring") {
    // Shigley, Mechanical Engineering Design, example 10-6, from memory: hard-drawn wire 0.035 in, outside
    // 0.248 in, 12.17 body turns, G = 11.6 and E = 28.7 Mpsi: 17.91 lbf/in.
    const double rate = rate_from_wire_n_m(metres_from_inches(0.035), metres_from_inches(0.248 - 0.035),
                                           12.17, 11.6e6 * pascals_per_psi, 28.7e6 * pascals_per_psi);
    CHECK(rate / newtons_per_lbf * metres_per_inch == Approx(17.91).epsilon(1e-3));
}

TEST_CASE("two weights hung on it give the rate") {
    CHECK(rate_from_weighing_n_m(10.0, 0.062, 34.0, 0.072) == Approx(2400.0));
}
