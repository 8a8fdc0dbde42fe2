#include "engine/whatif/disturbance.h"

#include "engine/base/units.h"
#include "tests/support.h"

#include <cmath>

using namespace counterpull;
using namespace counterpull::test;

namespace {

Stand level() {
    return standing_now(light_set_level());
}

double slope_free(const Stand& stand) {
    return net_torque_free(stand.assembly, stand.lengths_m, stand.claw, stand.angle_rad).slope;
}

} // namespace

TEST_CASE("with a string gone the bridge sinks and the others go sharp; turns bring it back") {
    const Stand stand = level();
    for (int string = 0; string < 6; ++string) {
        const Loss loss = without_string(stand, string);
        CHECK(loss.moved.tail_m < 0.0); // common practice
        for (int i = 0; i < 6; ++i) {
            const auto& cents = loss.moved.cents[static_cast<std::size_t>(i)];
            CHECK(cents.has_value() == (i != string));
            if (cents)
                CHECK(*cents > 0.0);
        }
        REQUIRE(loss.turns);
        CHECK(*loss.turns < 0.0);
        Assembly left = stand.assembly;
        for (int i = string + 1; i < 6; ++i)
            left.strings[static_cast<std::size_t>(i - 1)] = left.strings[static_cast<std::size_t>(i)];
        left.string_count = 5;
        CHECK(rest_at_pitch(left, stand.claw.turned(*loss.turns), 0.0).angle_rad == Approx(0.0).margin(1e-8));
        CHECK(rest_at_pitch(left, stand.claw, 0.0).angle_rad ==
              Approx(angle_at_tail_rad(stand.assembly.bridge, loss.retuned_tail_m)));
    }
}

// By hand, to first order: the missing torque T h of a string, level, over the stiffness that is left.
TEST_CASE("a string barely there is missed by its torque over the stiffness") {
    for (const std::size_t place : {std::size_t{5}, std::size_t{2}, std::size_t{0}}) {
        Assembly assembly = level().assembly;
        StringMechanics& thin = assembly.strings[place].mechanics;
        thin.unit_weight_kg_m *= 1e-4;
        thin.bending_stiffness_n_m2 *= 1e-4;
        thin.axial_stiffness_n *= 1e-4;
        const ClawSetting claw = level().claw;
        const Root turns = turns_for_attitude(assembly, claw, 0.0);
        REQUIRE(turns.found());
        const Stand stand = standing(assembly, claw.turned(turns.at), 0.0);
        const double torque = tension_at_pitch_n(assembly.strings[place], Attitude(0.0)) *
                              assembly.strings[place].saddle_height_m;
        CHECK(without_string(stand, static_cast<int>(place)).moved.angle_rad ==
              Approx(torque / slope_free(stand)).epsilon(0.01));
    }
}

// By hand, to first order: let down by c cents and kept there, a string's torque T h falls by the share c ln
// 2/600 (T goes as the square of the pitch); the rest, with that string at its pitch, answers with its
// stiffness.
TEST_CASE("a string let down a little moves the bridge by its lost torque over the stiffness") {
    const Stand stand = level();
    for (const int place : {5, 3, 0}) {
        const StringOnBridge& on = stand.assembly.strings[static_cast<std::size_t>(place)];
        const double lost =
            tension_at_pitch_n(on, Attitude(0.0)) * on.saddle_height_m * 5.0 * std::log(2.0) / 600.0;
        const double slope =
            net_torque(stand.assembly, one_at_pitch(stand.lengths_m, place, on.frequency_hz), stand.claw, 0.0)
                .slope;
        CHECK(with_string_at(stand, place, -5.0).moved.angle_rad == Approx(lost / slope).epsilon(0.02));
    }
}

TEST_CASE("the lowest string let down lets the tail sink and the others rise in pitch") {
    const Stand stand = level();
    const Loss loss = with_string_at(stand, 0, -200.0);
    CHECK(*loss.moved.cents[0] == Approx(0.0).margin(1e-6)); // it has its new pitch
    CHECK(loss.moved.tail_m < 0.0);
    for (std::size_t i = 1; i < 6; ++i)
        CHECK(*loss.moved.cents[i] > 0.0);
    CHECK(loss.retuned_tail_m < loss.moved.tail_m); // the others, brought down to pitch, hold it less
    CHECK(*loss.turns < 0.0);
}

// By hand: weight W at setback s, level, turns the bridge by −W s/stiffness; the tail moves by tail distance
// times that.
TEST_CASE("laid on its back the tail sinks by weight times setback over the stiffness") {
    const Stand stand = level();
    for (const double grams : {100.0, 250.0, 400.0}) {
        const double setback = 12e-3;
        const Moved lay = turned_over(stand, false, grams * 1e-3, setback);
        const double by_hand =
            stand.assembly.bridge.tail_m * grams * 1e-3 * standard_gravity_m_s2 * setback / slope_free(stand);
        CHECK(by_hand < 0.0);
        CHECK(lay.tail_m == Approx(by_hand).epsilon(0.02));
    }
    // And back again, from a guitar that lies.
    Assembly heavy = stand.assembly;
    heavy.bridge.weight_n = 0.4 * standard_gravity_m_s2;
    heavy.bridge.weight_setback_m = 12e-3;
    const Root turns = turns_for_attitude(heavy, stand.claw, 0.0);
    REQUIRE(turns.found());
    const Stand lying = standing(heavy, stand.claw.turned(turns.at), 0.0);
    CHECK(turned_over(lying, true, 0.4, 12e-3).tail_m > 0.0);
}

// By hand: blocked, a string's strain falls by (α_steel − α_wood) ΔT, so T by EA times that, and by the share
// of its modulus; Δf/f = ½ ΔT/T, in cents 600/ln 2 · ΔT/T.
TEST_CASE("warmth lets a blocked string fall as its strain does, and a floating bridge gives way") {
    const Stand stand = level();
    const double kelvin = 10.0;
    CHECK(warmer(stand, 0.0).tail_m == Approx(0.0).margin(1e-9));
    const Moved floating = warmer(stand, kelvin);
    for (std::size_t i = 0; i < 6; ++i) {
        const StringOnBridge& on = stand.assembly.strings[i];
        const double tension = tension_at_pitch_n(on, Attitude(0.0));
        const double strain = (steel_expansion_per_k - wood_expansion_per_k) * kelvin;
        const double by_hand =
            600.0 / std::log(2.0) *
            (steel_modulus_per_k * kelvin - on.mechanics.axial_stiffness_n * strain / tension);
        // With the bridge held where it was: the same string, its length and its nut grown.
        StringOnBridge grown = on;
        grown.scale_m = on.nut().x * (1.0 + wood_expansion_per_k * kelvin) + on.saddle_setback_m;
        grown.dead_m *= 1.0 + wood_expansion_per_k * kelvin;
        grown.mechanics.axial_stiffness_n *= 1.0 + steel_modulus_per_k * kelvin;
        const double now =
            tension_at_length_n(grown.mechanics, stand.lengths_m[i] * (1.0 + steel_expansion_per_k * kelvin),
                                speaking_length_m(grown, Attitude(0.0)) + grown.dead_m);
        CHECK(600.0 / std::log(2.0) * (now - tension) / tension == Approx(by_hand).epsilon(0.03));
        CHECK(*floating.cents[i] > by_hand); // the bridge sinks and tightens them again
        CHECK(*floating.cents[i] < 0.0);
    }
    CHECK(floating.tail_m < 0.0);
}

// Pulls that all weaken by one share leave the balance where it is.
TEST_CASE("steel that weakens alike on both sides moves no bridge, but its strings fall") {
    Stand stand = level();
    const double share = 1.0 + steel_modulus_per_k * 100.0;
    for (StringOnBridge& on : stand.assembly.strings) {
        on.mechanics.axial_stiffness_n *= share;
        on.mechanics.bending_stiffness_n_m2 *= share;
    }
    for (SpringOnBridge& on : stand.assembly.springs) {
        on.spring.rate_n_m *= share;
        on.spring.initial_tension_n *= share;
    }
    const Moved weak = moved(stand, untouched(stand.lengths_m));
    CHECK(weak.tail_m == Approx(0.0).margin(1e-9));
    for (const auto& cents : weak.cents)
        CHECK(*cents == Approx(600.0 * std::log2(share)).epsilon(0.01));
}
