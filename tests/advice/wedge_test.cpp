#include "engine/advice/wedge.h"
#include "engine/base/units.h"
#include "tests/support.h"

#include <cmath>

using namespace counterpull;
using namespace counterpull::test;

TEST_CASE("with the wedge pulled a surplus of spring shows as sharp strings and a low tail") {
    for (const char* name : {"lower-and-heavier", "small-sag", "six-screw-plate"}) {
        const Setup setup = example(name);
        const Report report = answered(setup);
        REQUIRE(report.wedge);
        const WedgeWay& way = *report.wedge;
        // The springs win: the block's foot wants toward the neck, where the wedge is.
        CHECK(net_torque_at_pitch(report.solution.assembly_advised(), report.now.claw.turned(way.turns),
                                  report.solution.advised().angle_rad)
                  .value < 0.0);
        CHECK(way.turns == Approx(*report.solution.advice[0].turns + way.surplus_turns));
        CHECK(way.tail_mm < setup.next.tail_mm);
        for (const double cents : way.cents)
            CHECK(cents > 0.0);
        if (std::string(name) == "six-screw-plate")
            continue; // its tail is read much nearer to the pivot
        // "0.1 mm of tail shows as 3 to 8 cents" (common practice), for the set as a whole.
        double mean = 0.0;
        for (const double cents : way.cents)
            mean += cents / static_cast<double>(way.cents.size());
        const double per_tenth = 0.1 * mean / (setup.next.tail_mm - way.tail_mm);
        INFO(name << ": " << per_tenth << " cents for 0.1 mm");
        CHECK(per_tenth > 3.0);
        CHECK(per_tenth < 8.0);
    }
}

TEST_CASE(
    "eased by what the tuner shows, everything lands at pitch and level, whatever the springs really are") {
    const Setup setup = example("lower-and-heavier");
    const Report report = answered(setup);
    const WedgeWay& way = *report.wedge;
    for (const double factor : {0.85, 1.0, 1.15}) {
        // The guitar's springs are stiffer or softer than believed; its claw was found with them.
        Setup real = setup;
        real.guitar.spring.rate_n_mm *= factor;
        Problems problems;
        const auto claw = claw_now(real, assembly_of(real, fitting_now(real)), problems);
        REQUIRE(claw);
        const Assembly assembly = assembly_of(real, fitting_next(real, report.solution.advice[0].springs));
        const StringLengths lengths = lengths_at_pitch(assembly, Attitude(0.0));
        auto shown = [&](double turns) {
            const Rest rest = rest_free(assembly, lengths, claw->turned(turns), 0.0);
            return cents_shown(assembly, lengths,
                               Attitude(rest.angle_rad))[static_cast<std::size_t>(way.read_string)];
        };
        const double before = shown(way.turns);
        const double after = shown(way.turns - before * way.turns_to_ease_per_cent);
        INFO("springs " << factor << ": " << before << " cents, then " << after);
        CHECK(std::abs(after) < 0.25 * std::abs(before) + 0.5);
    }
}

TEST_CASE("without thread for the surplus, or on the body, there is no wedge") {
    Setup setup = example("small-sag");
    setup.guitar.bay.turns_in_left = 0.0;
    CHECK_FALSE(answered(setup).wedge);
    setup = example("lower-and-heavier");
    setup.next.rest = RestWanted::on_the_body;
    CHECK_FALSE(answered(setup).wedge);
}

TEST_CASE("the less sure the turns are, the tighter the springs hold the wedge, within the thread there is") {
    Advice advice;
    advice.turns = 1.0;
    advice.thread_in = 5.0;
    auto surplus = [&](double sigma) {
        advice.turns_sigma = sigma;
        const auto turns = wedge_surplus_turns(advice);
        REQUIRE(turns);
        CHECK(std::fmod(*turns * 8.0, 1.0) == 0.0); // a screwdriver makes eighths
        return *turns;
    };
    CHECK(surplus(0.0) == 0.375);
    CHECK(surplus(0.2) == 0.375);
    // One in twenty of a normal value lies further below its mean than 1.645 spreads (any table of it).
    for (const double sigma : {0.3, 0.5, 1.0}) {
        const double dropped_out = 0.5 * std::erfc(surplus(sigma) / sigma / std::sqrt(2.0));
        CHECK(dropped_out <= 0.05);
        CHECK(surplus(sigma) <= 1.645 * sigma + 0.125);
    }
    // As much and no more, however little is known: the strings go sharp by it.
    CHECK(surplus(3.0) == 2.0);
    // Half a turn stays for the time that it drops out.
    advice.thread_in = 1.05;
    CHECK(surplus(1.0) == 0.5);
    advice.thread_in = 0.8;
    CHECK_FALSE(wedge_surplus_turns(advice));
}
