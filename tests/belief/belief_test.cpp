#include "engine/base/units.h"
#include "engine/belief/belief.h"
#include "tests/support.h"

#include <cmath>

using namespace counterpull;
using namespace counterpull::test;

namespace {

Deviations moved(Unknown unknown, double z) {
    Deviations all{};
    all[static_cast<std::size_t>(unknown)] = z;
    return all;
}

} // namespace

TEST_CASE(
    "what is usual is spread by common practice, what is measured by the ruler, a guess twice as wide") {
    Setup setup = example("lower-and-heavier");
    setup.guitar.basis.clear();
    CHECK(Belief(setup).spread(Unknown::spring_rate).share == 0.20);
    CHECK(Belief(setup).spread(Unknown::block_depth).size_at(38.0) == Approx(0.04 * 38.0));
    setup.guitar.basis = {{"spring.rate_n_mm", Basis::guess},
                          {"bridge.block_depth_mm", Basis::measured},
                          {"bay.screw_pitch_mm", Basis::measured}};
    const Belief belief(setup);
    CHECK(belief.spread(Unknown::spring_rate).share == 0.40);
    CHECK(belief.spread(Unknown::block_depth).size_at(38.0) == 0.3);
    CHECK(belief.spread(Unknown::screw_pitch).share == 0.01);
}

TEST_CASE("without deviations the guitar is the set-up's, with them one number moves and nothing else") {
    const Setup setup = example("lower-and-heavier");
    const Belief belief(setup);
    const Fitting fitting = fitting_next(setup, setup.now.springs);
    const Assembly plain = assembly_of(setup, fitting), same = belief.assembly(fitting, {});
    CHECK(same.strings[0].mechanics.unit_weight_kg_m == plain.strings[0].mechanics.unit_weight_kg_m);
    CHECK(same.bridge.block_depth_m == Approx(plain.bridge.block_depth_m).epsilon(1e-15));
    const Assembly stiff = belief.assembly(fitting, moved(Unknown::spring_rate, 1.0));
    CHECK(stiff.springs[0].spring.rate_n_m == Approx(plain.springs[0].spring.rate_n_m * std::exp(0.2)));
    CHECK(stiff.strings[3].saddle_height_m == Approx(plain.strings[3].saddle_height_m));
    const Assembly thick = belief.assembly(fitting, moved(Unknown::core, 1.0));
    CHECK(thick.strings[0].mechanics.axial_stiffness_n > plain.strings[0].mechanics.axial_stiffness_n);
    CHECK(thick.strings[5].mechanics.axial_stiffness_n == plain.strings[5].mechanics.axial_stiffness_n);
}

TEST_CASE("a string that stays on is the same string next, a new one is another") {
    Setup setup = example("small-sag");
    const Belief same(setup);
    CHECK(same.weight_index(Which::now, 2) == same.weight_index(Which::next, 2));
    CHECK_FALSE(same.used(common_unknowns + most_strings + 2));
    setup.next.strings[2].gauge_in += 0.002;
    const Belief other(setup);
    CHECK(other.weight_index(Which::now, 2) != other.weight_index(Which::next, 2));
    CHECK(other.used(common_unknowns + most_strings + 2));
    CHECK_FALSE(other.used(common_unknowns + 6)); // there is no seventh string
}

TEST_CASE(
    "how a string's dead length moves is its difference quotient, and nothing where there is none left") {
    for (const double anchor_mm : {8.0, 0.0}) {
        Setup setup = example("small-sag");
        setup.guitar.nut_locked = true;
        for (double& mm : setup.guitar.bridge.anchor_mm.values)
            mm = anchor_mm;
        const Belief belief(setup);
        for (const double z : {-1.0, 0.5}) {
            const double step = 1e-4;
            const double quotient = (belief.dead_m(0, z + step) - belief.dead_m(0, z - step)) / (2.0 * step);
            INFO(anchor_mm << " mm, z " << z);
            CHECK(belief.dead_per_z_m(0, z) == Approx(quotient).epsilon(1e-6).margin(1e-12));
        }
    }
}
