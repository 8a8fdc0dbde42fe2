#include "engine/whatif/nut_lock.h"

#include "engine/base/units.h"
#include "engine/whatif/bend.h"
#include "tests/support.h"

#include <cmath>

using namespace counterpull;
using namespace counterpull::test;

namespace {

Stand level(bool locked) {
    Setup setup = light_set_level();
    setup.guitar.nut_locked = locked;
    return standing_now(setup);
}

} // namespace

// By hand, the bridge standing still: drawn in by x a string's strain grows by x/(L + dead), so ΔT = EA x/(L
// + dead) and its pitch by 600/ln 2 · ΔT/T cents for a small draw. The bridge gives way to one string by what
// its torque is of the stiffness; the rest of that share is left.
TEST_CASE("a fine tuner draws as far as strain and bridge allow") {
    const Stand stand = level(true);
    const double draw = 0.02e-3;
    const double stiffness = -net_torque_free(stand.assembly, stand.lengths_m, stand.claw, 0.0).slope;
    const std::vector<FineTuner> reach = fine_tuner_range(stand, draw);
    for (std::size_t i = 0; i < 6; ++i) {
        const StringOnBridge& on = stand.assembly.strings[i];
        const double ea = on.mechanics.axial_stiffness_n, length = on.scale_m + on.dead_m;
        const double still =
            600.0 / std::log(2.0) * ea * draw / length / tension_at_pitch_n(on, Attitude(0.0));
        const double gives = ea * on.saddle_height_m * on.saddle_height_m / length / stiffness;
        CHECK(*reach[i].up_cents == Approx(still * (1.0 - gives)).epsilon(0.03));
        CHECK(*reach[i].down_cents == Approx(-*reach[i].up_cents).epsilon(0.02));
    }
}

TEST_CASE("all tuned as said before clamping are in tune when each has been drawn in") {
    const Stand stand = level(true);
    const std::vector<std::optional<double>> aims = aims_before_clamping(stand, 5.0);
    for (const auto& aim : aims)
        REQUIRE(aim);
    // Another way there: the same guitar tuned to its aims, by the balance at pitch; then each string's
    // strain raised by what makes 5 cents of its pull on a bridge that stays, 2 ln 2/1200 for each cent, and
    // the bridge let go.
    Stand tuned = stand;
    for (std::size_t i = 0; i < 6; ++i)
        tuned.assembly.strings[i].frequency_hz *= std::exp2(*aims[i] / 1200.0);
    const Rest at = rest_at_pitch(tuned.assembly, stand.claw, 0.0);
    StringLengths lengths = lengths_at_pitch(tuned.assembly, Attitude(at.angle_rad));
    for (std::size_t i = 0; i < 6; ++i) {
        const StringOnBridge& on = stand.assembly.strings[i];
        const double raised = tension_at_pitch_n(on, Attitude(0.0)) * 5.0 * std::log(2.0) / 600.0;
        lengths[i] -= raised / on.mechanics.axial_stiffness_n * lengths[i];
    }
    for (const auto& cents : moved(stand, untouched(lengths)).cents)
        CHECK(*cents == Approx(0.0).margin(0.15));
    // Clamping sharpens each string of a bridge that stays by 5 cents; all together they also pull the tail
    // up, which flattens all: so the aims lie less far below pitch than 5 cents, and the thick ones, which
    // follow the bridge most, may lie above.
    for (const auto& aim : aims) {
        CHECK(*aim > -5.0);
        CHECK(*aim < 5.0);
    }
    CHECK(aims_before_clamping(stand, 0.0)[2].value() == Approx(0.0).margin(1e-6));
    // Twice as much clamping, about twice the aim.
    const auto twice = aims_before_clamping(stand, 10.0);
    CHECK(*twice[5] == Approx(2.0 * *aims[5]).margin(0.1));
}

TEST_CASE("clamped, less stretches and the float is stiffer") {
    const Stand open = level(false), clamped = level(true);
    CHECK(net_torque_free(clamped.assembly, clamped.lengths_m, clamped.claw, 0.0).slope <
          net_torque_free(open.assembly, open.lengths_m, open.claw, 0.0).slope);
    CHECK(bend(clamped, 3, 200.0).moved.tail_m < bend(open, 3, 200.0).moved.tail_m);
}
