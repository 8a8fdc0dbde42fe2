// A general multibody library judges where the bridge comes to rest with the tuners untouched: the bridge a
// body on a pin, strings and springs two-point springs in three dimensions, and the library's own energy
// minimizer instead of a torque and a root.
#include "tests/reference/multibody_rest.h"
#include "tests/support.h"

using namespace counterpull;
using namespace counterpull::test;

namespace {

std::vector<reference::TwoPointSpring> springs_of(const Assembly& assembly, const StringLengths& lengths,
                                                  const ClawSetting& claw) {
    std::vector<reference::TwoPointSpring> all;
    for (std::size_t i = 0; i < assembly.strung().size(); ++i) {
        const StringOnBridge& string = assembly.strings[i];
        all.push_back({{string.saddle().x, string.saddle().y, 0.0},
                       {string.nut().x, string.nut().y, 0.0},
                       string.mechanics.axial_stiffness_n / lengths[i],
                       lengths[i] - string.dead_m});
    }
    for (const SpringOnBridge& spring : assembly.sprung()) {
        const Point hole = assembly.bridge.block(), hook = hook_at(assembly.claw, claw, spring.hook_z_m);
        // Open, F0 + k (l − l_free) is a spring of rate k that would be slack at l_free − F0/k.
        all.push_back(
            {{hole.x, hole.y, spring.hole_z_m},
             {hook.x, hook.y, spring.hook_z_m},
             spring.spring.rate_n_m,
             spring.spring.free_length_m - spring.spring.initial_tension_n / spring.spring.rate_n_m});
    }
    return all;
}

} // namespace

TEST_CASE("a multibody library finds the bridge at rest where we do") {
    int compared = 0;
    for (const char* name :
         {"lower-and-heavier", "small-sag", "six-screw-plate", "seven-strings-two-scales"}) {
        const Setup setup = example(name);
        Problems problems;
        Assembly assembly = assembly_of(setup, fitting_now(setup));
        const auto claw = claw_now(setup, assembly, problems);
        REQUIRE(claw);
        // One spring led across as well: the library sees all three dimensions.
        assembly.springs[0].hook_z_m += 4e-3;
        const double from = angle_of_tail_rad(setup, setup.now.tail_mm);
        const StringLengths lengths = lengths_at_pitch(assembly, Attitude(from));
        for (const double turns : {-1.0, -0.25, 0.5, 1.5}) {
            const Rest rest = rest_free(assembly, lengths, claw->turned(turns), from);
            REQUIRE(rest.kind == RestKind::floats);
            INFO(name << ", " << turns << " turns");
            // A pin turns about +z; the tail rises by turning the other way.
            const double judged =
                -reference::resting_angle_rad(springs_of(assembly, lengths, claw->turned(turns)), -from);
            CHECK(judged == Approx(rest.angle_rad).margin(1e-5));
            ++compared;
        }
    }
    CHECK(compared == 16);
}
