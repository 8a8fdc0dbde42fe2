#include "engine/whatif/screw_load.h"

#include "engine/base/units.h"
#include "tests/support.h"

using namespace counterpull;
using namespace counterpull::test;

namespace {

Stand level(const std::vector<PlacedSpring>& springs) {
    Setup setup = light_set_level();
    setup.now.springs = springs;
    return standing_now(setup);
}

} // namespace

// By hand: level, the strings' torque Σ T h is held by the springs at the block's depth (claw at the same
// height, springs along x), so together the screws hold Σ T h/depth.
TEST_CASE("both screws together hold the strings' torque over the block's depth") {
    const Stand stand = level({{0, 0, {}}, {2, 2, {}}, {4, 4, {}}});
    double torque = 0.0;
    for (const StringOnBridge& on : stand.assembly.strung())
        torque += tension_at_pitch_n(on, Attitude(0.0)) * on.saddle_height_m;
    const ScrewLoads loads = screw_loads(stand);
    CHECK(loads.bass_n + loads.treble_n ==
          Approx(torque / stand.assembly.bridge.block_depth_m).epsilon(0.001));
    CHECK(loads.bass_n == Approx(loads.treble_n)); // symmetric
}

// By hand: one spring at z = +12 mm between screws 38 mm apart: (12 + 19)/38 = 81.6 % on the treble screw; at
// +24 mm, beyond it, 113.2 %, and the bass screw is pushed.
TEST_CASE("a spring off the middle loads the nearer screw by the lever of the claw") {
    for (const auto& [hook, share] : {std::pair(3, 31.0 / 38.0), {4, 43.0 / 38.0}, {0, -5.0 / 38.0}}) {
        const Stand stand = level({{hook, hook, {}}});
        const ScrewLoads loads = screw_loads(stand);
        CHECK(loads.treble_n / (loads.bass_n + loads.treble_n) == Approx(share));
    }
}

// Wood Handbook, chapter 8, wood screws, withdrawal from side grain: P = 15 700 G² D L in pounds and inches,
// the same as 108.25 G² D L in newtons and millimetres (from memory). No. 8: 0.164 in; 0.79 in deep in wood
// of gravity 0.40: 15 700 · 0.16 · 0.164 · 0.79 = 325 lbf; three quarters of it in end grain.
TEST_CASE("a wood screw's withdrawal is the handbook's, in either units") {
    const double in_pounds = 15700.0 * 0.40 * 0.40 * 0.164 * 0.79 * 0.75;
    CHECK(withdrawal_n(metres_from_inches(0.164), metres_from_inches(0.79)) / newtons_per_lbf ==
          Approx(in_pounds).epsilon(0.002));
    CHECK(withdrawal_n(4e-3, 20e-3, 0.6) == Approx(0.75 * 108.25 * 0.36 * 80.0));
    CHECK(withdrawal_n(4e-3, 40e-3) == Approx(2.0 * withdrawal_n(4e-3, 20e-3)));
    // ANSI/ASME B18.6.1: No. 6 has 18 threads per inch, No. 8 15, No. 10 13.
    CHECK(shank_of_pitch_m(25.4e-3 / 18) == Approx(metres_from_inches(0.138)));
    CHECK(shank_of_pitch_m(1.69e-3) == Approx(metres_from_inches(0.164)));
    CHECK(shank_of_pitch_m(2.0e-3) == Approx(metres_from_inches(0.190)));
}
