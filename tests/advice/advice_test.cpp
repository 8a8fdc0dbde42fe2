#include "engine/advice/advice.h"
#include "engine/base/units.h"
#include "engine/say/names.h"
#include "engine/say/words.h"
#include "tests/reference/random_setup.h"
#include "tests/support.h"

#include <algorithm>
#include <cmath>

using namespace counterpull;
using namespace counterpull::test;

TEST_CASE("advice carried out leaves the bridge level, inside thread and springs") {
    int fitting = 0;
    for (std::uint64_t seed = 0; seed < 1000; ++seed) {
        const SetupRead read = read_setup(reference::random_setup(seed).dump());
        REQUIRE(read.setup);
        const Setup& setup = *read.setup;
        const ReportResult result = report(setup);
        if (!result.report)
            continue;
        REQUIRE_FALSE(result.report->solution.advice.empty());
        bool still_fits = true;
        for (const Advice& advice : result.report->solution.advice) {
            CHECK_FALSE(reasons_of(setup, advice).empty());
            CHECK((still_fits || !advice.fits())); // what fits stands first
            still_fits = advice.fits();
            if (!advice.fits())
                continue;
            ++fitting;
            if (&advice == &result.report->solution.advice.front()) {
                bool over = false;
                for (const StringState& string : result.report->next->strings)
                    over = over || *string.strength_used > strength_warning;
                CHECK(over == (warns(*result.report, WarningKind::strength) ||
                               warns(*result.report, WarningKind::breaks)));
            }
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
    CHECK(fitting > 1000);
}

TEST_CASE("a small sag is answered by turns alone") {
    const Report report = answered(example("small-sag"));
    CHECK(report.solution.advice[0].fits());
    CHECK(report.solution.advice[0].moved == 0);
    CHECK(*report.solution.advice[0].turns < 0.0);
    CHECK(*report.solution.advice[0].turns > -1.0);
}

TEST_CASE("springs that the player does not have are not advised as if they were there") {
    const Report report = answered(example("cannot-float"));
    const Advice& advised = report.solution.advised();
    CHECK_FALSE(advised.fits());
    CHECK(advised.only_springs_missing());
    CHECK(advised.springs.size() >= 3);
    CHECK(main_reason(report.setup(), advised).key == "reason.not_owned");
    CHECK_FALSE(report.next);
}

TEST_CASE("too many turns for the thread are told with what is left") {
    Setup setup = example("six-screw-plate");
    setup.guitar.bay.turns_in_left = 1.5;
    const Report report = answered(setup);
    const Advice& same_springs = advice_on(report, setup.now.springs);
    CHECK_FALSE(same_springs.fits());
    CHECK(same_springs.hindrances.thread_short);
    CHECK(same_springs.hindrances.count() == 1);
    const std::vector<Phrase> reasons = reasons_of(setup, same_springs);
    REQUIRE(reasons.size() == 1);
    CHECK(english().say(reasons[0]) == "the thread runs short: 1.7 turns in, and only 1.5 are left");
}

TEST_CASE("whether an arrangement fits and why not say the same, whatever the guitar") {
    int hindered = 0;
    for (std::uint64_t seed = 0; seed < 200; ++seed) {
        const SetupRead read = read_setup(reference::random_setup(seed).dump());
        REQUIRE(read.setup);
        const ReportResult result = report(*read.setup);
        if (!result.report)
            continue;
        for (const Advice& advice : result.report->solution.advice) {
            INFO("seed " << seed);
            const std::vector<Phrase> reasons = reasons_of(*read.setup, advice);
            REQUIRE_FALSE(reasons.empty());
            CHECK(advice.fits() == (reasons[0].key == "reason.fits"));
            CHECK(advice.fits() == advice.hindrances.none());
            CHECK(advice.turns.has_value() != advice.hindrances.no_claw_position);
            hindered += !advice.fits();
        }
    }
    CHECK(hindered > 100);
}

TEST_CASE("on the body the springs hold the tail down under a bend, and a quarter turn more") {
    Setup setup = example("lower-and-heavier");
    setup.next.rest = RestWanted::on_the_body;
    const Report report = answered(setup);
    const Advice& advice = report.solution.advice[0];
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
    CHECK(report.solution.advice[0].angle_rad == Approx(lowest_angle_rad(assembly.bridge)));
}

TEST_CASE("springs of another kind keep their kind and place when one more is added") {
    Setup setup = example("lower-and-heavier");
    setup.now.springs[0].spring = setup.now.springs[2].spring = SpringSetup{3.0, 60, 6, 100};
    int kept = 0;
    for (const Advice& advice : answered(setup).solution.advice)
        if (advice.springs.size() == 4 && springs_needed(advice.springs) == 2) {
            ++kept;
            CHECK(advice.springs.front() == setup.now.springs[0]);
            CHECK(advice.springs.back() == setup.now.springs[2]);
        }
    CHECK(kept == 1);
}

TEST_CASE("the ranking is what it says: fits, may be measured later, least work, few springs more or fewer, "
          "little moved, thread left") {
    for (std::uint64_t seed = 0; seed < 200; ++seed) {
        const SetupRead read = read_setup(reference::random_setup(seed).dump());
        REQUIRE(read.setup);
        const ReportResult result = report(*read.setup);
        if (!result.report)
            continue;
        const std::vector<Advice>& all = result.report->solution.advice;
        for (std::size_t i = 1; i < all.size(); ++i) {
            const Advice &a = all[i - 1], &b = all[i];
            INFO("seed " << seed << ", place " << i);
            CHECK(a.fits() >= b.fits());
            if (!a.fits() || !b.fits())
                continue;
            CHECK(a.measure_first <= b.measure_first);
            if (a.measure_first != b.measure_first)
                continue;
            const double step_a = std::floor(a.work.minutes / work_step_minutes);
            const double step_b = std::floor(b.work.minutes / work_step_minutes);
            CHECK(step_a <= step_b);
            const auto on_it = fitted_springs(*read.setup).size();
            const auto changed = [&](const Advice& advice) {
                return advice.springs.size() > on_it ? advice.springs.size() - on_it
                                                     : on_it - advice.springs.size();
            };
            if (step_a == step_b)
                CHECK(changed(a) <= changed(b));
            if (step_a == step_b && changed(a) == changed(b))
                CHECK(a.moved <= b.moved);
            if (step_a == step_b && changed(a) == changed(b) && a.moved == b.moved)
                CHECK(a.thread_left() >= b.thread_left() - thread_step_turns);
        }
    }
}

TEST_CASE("the third string bent a whole tone raises the tail, to where the bridge balances again") {
    // That bending pulls a floating bridge forward is common practice; a whole tone is a sixth of an octave.
    for (const char* name : {"small-sag", "lower-and-heavier", "seven-strings-two-scales"}) {
        const Report report = answered(example(name));
        const Advice& advised = report.solution.advised();
        const Assembly assembly = report.solution.assembly_advised();
        const std::size_t third = assembly.strung().size() - 3;
        const StringLengths lengths = lengths_at_pitch(assembly, Attitude(advised.angle_rad));
        const double level_m = tail_at_angle_m(assembly.bridge, advised.angle_rad);
        const double bent_rad = angle_at_tail_rad(assembly.bridge, level_m + advised.bend_tail_m);
        const Tuners bent = one_at_pitch(lengths, static_cast<int>(third),
                                         assembly.strings[third].frequency_hz * std::exp2(1.0 / 6.0));
        const double torque_nm =
            net_torque(assembly, bent, report.solution.claw.turned(*advised.turns), bent_rad).value;
        INFO(name);
        CHECK(advised.bend_tail_m > 1e-4);
        CHECK(std::abs(torque_nm) < 1e-8 * string_torque_scale_nm(assembly, Attitude(bent_rad)));
    }
}

TEST_CASE("a clamped nut is opened for other strings and for tunings that fine tuners do not reach") {
    // Common practice.
    Setup setup = example("small-sag");
    setup.next.strings = setup.now.strings;
    setup.next.tuning = setup.now.tuning;
    REQUIRE(setup.now.in_tune);
    CHECK_FALSE(needs_an_open_nut(setup));
    Setup other = setup;
    other.next.strings[0].gauge_in += 0.002;
    CHECK(needs_an_open_nut(other));
    other = setup;
    other.now.in_tune = false;
    CHECK(needs_an_open_nut(other));
    other = setup;
    other.next.offset_cents.values.assign(6, 0.0);
    other.next.offset_cents.values[2] = -90.0;
    CHECK_FALSE(needs_an_open_nut(other));
    other.next.offset_cents.values[2] = -110.0;
    CHECK(needs_an_open_nut(other));
}
