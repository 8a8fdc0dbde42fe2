#include "engine/advice.h"
#include "engine/units.h"
#include "tests/reference/random_setup.h"
#include "tests/support.h"

#include <cmath>

using namespace counterpull;
using namespace counterpull::test;

namespace {

std::vector<int> hooks(const std::vector<PlacedSpring>& springs) {
    std::vector<int> all;
    for (const PlacedSpring& spring : springs)
        all.push_back(spring.hook);
    return all;
}

} // namespace

TEST_CASE("springs are spread evenly and symmetrically over five hooks") {
    const BaySetup bay = example("lower-and-heavier").guitar.bay;
    CHECK(hooks(evenly_placed(bay, 1)) == std::vector<int>{2});
    CHECK(hooks(evenly_placed(bay, 2)) == std::vector<int>{1, 3});
    CHECK(hooks(evenly_placed(bay, 3)) == std::vector<int>{0, 2, 4});
    CHECK(hooks(evenly_placed(bay, 4)) == std::vector<int>{0, 1, 3, 4});
    CHECK(hooks(evenly_placed(bay, 5)) == std::vector<int>{0, 1, 2, 3, 4});
}

TEST_CASE("advice carried out leaves the bridge level, inside thread and springs") {
    int fitting = 0;
    for (std::uint64_t seed = 0; seed < 300; ++seed) {
        const SetupRead read = read_setup(reference::random_setup(seed).dump());
        REQUIRE(read.setup);
        const Setup& setup = *read.setup;
        const ReportResult result = report(setup);
        if (!result.report)
            continue;
        REQUIRE_FALSE(result.report->advice.empty());
        bool still_fits = true;
        for (const Advice& advice : result.report->advice) {
            CHECK_FALSE(advice.reasons.empty());
            CHECK((still_fits || !advice.fits)); // what fits stands first
            still_fits = advice.fits;
            if (!advice.fits)
                continue;
            ++fitting;
            INFO("seed " << seed);
            const Assembly assembly = assembly_of(setup, fitting_next(setup, advice.springs));
            const ClawSetting claw = result.report->now.claw.turned(*advice.turns);
            const Rest rest = rest_at_pitch(assembly, claw, advice.angle_rad);
            CHECK(rest.kind == RestKind::floats);
            CHECK(mm_from_metres(tail_at_angle_m(assembly.bridge, rest.angle_rad)) ==
                  Approx(setup.next.tail_mm).margin(0.01));
            CHECK(*advice.turns <= setup.guitar.bay.turns_in_left);
            CHECK(*advice.turns >= -setup.guitar.bay.turns_out_left);
            for (const SpringOnBridge& spring : assembly.sprung()) {
                const double length = spring_length_m(assembly, spring, claw, Attitude(rest.angle_rad));
                CHECK(length > spring.spring.free_length_m);
                CHECK(length <= spring.spring.longest_m);
            }
        }
    }
    CHECK(fitting > 100);
}

TEST_CASE("a small sag is answered by turns alone") {
    const Report report = answered(example("small-sag"));
    CHECK(report.advice[0].fits);
    CHECK(report.advice[0].springs_moved == 0);
    CHECK(*report.advice[0].turns < 0.0);
    CHECK(*report.advice[0].turns > -1.0);
}

TEST_CASE("springs that the player does not have are not advised as if they were there") {
    const Report report = answered(example("cannot-float"));
    CHECK_FALSE(report.advice[0].fits);
    CHECK(report.advice[0].springs_missing);
    CHECK(report.advice[0].springs.size() == 3);
    CHECK(report.advice[0].reasons[0].key == "reason.not_owned");
    CHECK_FALSE(report.next);
}

TEST_CASE("too many turns for the thread are told with what is left") {
    Setup setup = example("six-screw-plate");
    setup.guitar.bay.turns_in_left = 1.0;
    for (const Advice& advice : answered(setup).advice)
        if (advice.springs == setup.now.springs) {
            CHECK_FALSE(advice.fits);
            REQUIRE(advice.reasons.size() == 1);
            CHECK(english().say(advice.reasons[0]) ==
                  "the thread runs short: 1.7 turns in, and only 1 are left");
        }
}

TEST_CASE("on the body the springs hold the tail down under a bend, and a quarter turn more") {
    Setup setup = example("lower-and-heavier");
    setup.next.rest = RestWanted::on_the_body;
    const Report report = answered(setup);
    const Advice& advice = report.advice[0];
    REQUIRE(advice.turns);
    const Assembly assembly = assembly_of(setup, fitting_next(setup, advice.springs));
    const Attitude on_stop(lowest_angle_rad(assembly.bridge));
    // The least turns: a quarter turn less, the worst bend just balances. Each string bent in turn, by hand.
    const ClawSetting least = report.now.claw.turned(*advice.turns - held_extra_turns);
    double worst = -1e9;
    for (int bent = 0; bent < assembly.string_count; ++bent) {
        Assembly with_bend = assembly;
        with_bend.strings[static_cast<std::size_t>(bent)].frequency_hz *= std::pow(2.0, 3.0 / 12.0);
        worst = std::max(worst, string_torque_at_pitch(with_bend, on_stop).value);
    }
    CHECK(worst + spring_torque(assembly, least, on_stop).value == Approx(0.0).margin(1e-8));
    CHECK(report.advice[0].angle_rad == Approx(lowest_angle_rad(assembly.bridge)));
}

TEST_CASE("springs of another kind keep their kind when one more is added") {
    Setup setup = example("lower-and-heavier");
    setup.now.springs[0].spring = setup.now.springs[2].spring = SpringSetup{3.0, 60, 6, 100};
    for (const Advice& advice : answered(setup).advice)
        if (advice.springs.size() == 4) {
            CHECK(advice.springs.front().spring == setup.now.springs[0].spring);
            CHECK(advice.springs.back().spring == setup.now.springs[2].spring);
            CHECK_FALSE(advice.springs[1].spring);
        }
}
