// What every repairer knows. No source but common practice.
#include "engine/advice/advice.h"
#include "engine/base/units.h"
#include "tests/support.h"

#include <algorithm>

using namespace counterpull;
using namespace counterpull::test;

namespace {

Setup light_set_going_to(const std::string& gauges, const std::string& notes) {
    Setup setup = light_set_level();
    setup.next.strings = set_of(gauges);
    setup.next.tuning = notes_of(notes);
    return setup;
}

constexpr const char* e_standard = "E2 A2 D3 G3 B3 E4";
constexpr const char* thirteens = "56w 45w 35w 26w 17 13";

} // namespace

TEST_CASE("a 9–42 set in E standard on a 648 mm scale pulls about 84 lbf and floats on three springs") {
    const Report report = answered(light_set_level());
    CHECK(*report.now.total_tension_n / newtons_per_lbf == Approx(84.0).margin(2.0));
    CHECK(report.untouched.outcome == RestKind::floats);
    CHECK(report.untouched.per_turn_mm.has_value());
    CHECK(report.solution.advice[0].fits());
    CHECK(report.solution.advice[0].springs.size() == 3);
}

TEST_CASE("a quarter turn of both screws moves a level tail visibly, under 2 mm, once back in tune") {
    const Setup setup = light_set_level();
    const Report report = answered(setup);
    const Assembly assembly = assembly_of(setup, fitting_now(setup));
    for (const double turn : {0.25, -0.25}) {
        const Rest rest = rest_at_pitch(assembly, report.now.claw.turned(turn), 0.0);
        const double tail_mm = mm_from_metres(tail_at_angle_m(assembly.bridge, rest.angle_rad));
        CHECK(std::abs(tail_mm) > 0.5);
        CHECK(std::abs(tail_mm) < 2.0);
        CHECK((tail_mm < 0.0) == (turn > 0.0)); // tighter pulls the tail down
    }
}

TEST_CASE("loosening alone makes the strings go flat, tightening sharp") {
    const Setup setup = light_set_level();
    const Report report = answered(setup);
    const Assembly assembly = assembly_of(setup, fitting_now(setup));
    const StringLengths lengths = lengths_at_pitch(assembly, Attitude(0.0));
    for (const double turn : {0.25, -0.25}) {
        const Rest rest = rest_free(assembly, lengths, report.now.claw.turned(turn), 0.0);
        REQUIRE(rest.kind == RestKind::floats);
        const Attitude attitude(rest.angle_rad);
        for (std::size_t i = 0; i < 6; ++i) {
            const StringOnBridge& string = assembly.strings[i];
            const double length = speaking_length_m(string, attitude);
            const double tension = tension_at_length_n(string.mechanics, lengths[i], length + string.dead_m);
            const double cents =
                cents_between(string.frequency_hz, pitch_at_tension_hz(string.mechanics, tension, length));
            CHECK((cents > 0.0) == (turn > 0.0));
            CHECK(std::abs(cents) > 2.0);
        }
    }
}

TEST_CASE("thirteens on that set-up, springs untouched, cannot be brought to E standard") {
    const Setup setup = light_set_going_to(thirteens, e_standard);
    const Report report = answered(setup);
    CHECK(report.untouched.outcome == RestKind::tail_up_stop);

    // With only the three lowest strings up to pitch the bridge is already far forward. The other three hang
    // slack meanwhile; the nine-gauge set's claw is where it was.
    Assembly three = assembly_of(setup, fitting_next(setup, setup.now.springs));
    three.string_count = 3;
    const Assembly light = assembly_of(setup, fitting_now(setup));
    const Rest rest = rest_at_pitch(three, report.now.claw, 0.0);
    INFO("tail " << mm_from_metres(tail_at_angle_m(three.bridge, rest.angle_rad)) << " mm");
    Assembly three_light = light;
    three_light.string_count = 3;
    const double with_light =
        tail_at_angle_m(light.bridge, rest_at_pitch(three_light, report.now.claw, 0.0).angle_rad);
    const double with_heavy = tail_at_angle_m(three.bridge, rest.angle_rad);
    CHECK(with_heavy > with_light + 2e-3);
}

TEST_CASE("thirteens in drop C: three springs still do not do, a fourth brings it back in a few turns") {
    const Report report = answered(light_set_going_to(thirteens, "C2 G2 C3 F3 A3 D4"));
    bool three = false, four = false;
    for (const Advice& advice : report.solution.advice) {
        if (advice.springs.size() == 3) {
            three = true;
            CHECK((!advice.fits() ||
                   !advice.settable())); // the thread runs short or the float is too soft to settle
        }
        if (advice.springs.size() == 4) {
            four = true;
            CHECK(advice.fits());
            CHECK(std::abs(*advice.turns) < 4.0);
        }
    }
    CHECK(three);
    CHECK(four);
    CHECK(report.solution.advice[0].springs.size() >= 4);
}

TEST_CASE("a lighter set lets the bridge sink, a heavier pulls it forward, a lower tuning lets it sink") {
    CHECK(answered(light_set_going_to("38w 30w 22w 15 10 8", e_standard)).untouched.tail_mm < -0.5);
    CHECK(answered(light_set_going_to("46w 36w 26w 17 13 10", e_standard)).untouched.tail_mm > 0.5);
    CHECK(answered(light_set_going_to("42w 32w 24w 16 11 9", "D2 G2 C3 F3 A3 D4")).untouched.tail_mm < -0.5);
}
