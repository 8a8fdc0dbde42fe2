#include "engine/document/model.h"
#include "engine/document/path.h"
#include "tests/support.h"

using namespace counterpull;
using namespace counterpull::test;

TEST_CASE("what stretches but does not speak counts, up to the tuner while the nut is open") {
    Setup setup = example("lower-and-heavier");
    CHECK(assembly_of(setup, fitting_now(setup)).strings[0].dead_m == Approx(0.048));
    setup.guitar.nut_locked = true;
    CHECK(assembly_of(setup, fitting_now(setup)).strings[0].dead_m == Approx(0.008));
}

TEST_CASE("spring lengths say where the claw is, whichever spring is read") {
    const Setup setup = example("strings-are-off");
    const Assembly assembly = assembly_of(setup, fitting_now(setup));
    Problems problems;
    const auto claw = claw_now(setup, assembly, problems);
    REQUIRE(claw);
    const Attitude attitude(angle_of_tail_rad(setup, setup.now.tail_mm));
    double mean = 0.0;
    for (const SpringOnBridge& spring : assembly.sprung())
        mean += spring_length_m(assembly, spring, *claw, attitude) / 3;
    CHECK(mean == Approx(0.071).margin(1e-6));
}

TEST_CASE("in tune at a tail reading, the claw is where the bridge balances") {
    const Setup setup = example("lower-and-heavier");
    const Assembly assembly = assembly_of(setup, fitting_now(setup));
    Problems problems;
    const auto claw = claw_now(setup, assembly, problems);
    REQUIRE(claw);
    const double angle = angle_of_tail_rad(setup, -1.0);
    CHECK(net_torque_at_pitch(assembly, *claw, angle).value == Approx(0.0).margin(1e-9));
}

TEST_CASE("springs that could not be open in tune are told, not guessed around") {
    Setup setup = example("lower-and-heavier");
    setup.guitar.spring.initial_tension_n = 50;
    const ReportResult result = report(setup);
    REQUIRE_FALSE(result.report);
    CHECK(result.problems.told[0].path == "now.springs");
    CHECK(result.problems.told[0].why.key == "refused.springs_closed_now");
}

TEST_CASE("a spring length shorter than its gap is refused at its place") {
    Setup setup = example("strings-are-off");
    setup.now.springs = {{0, 4, {}}, {2, 2, {}}, {4, 0, {}}};
    setup.now.spring_mm = {{40, 71, 71}};
    const ReportResult result = report(setup);
    REQUIRE_FALSE(result.report);
    CHECK(result.problems.told[0].path == "now.spring_mm[0]");
}

TEST_CASE("a pitch below the string's own stiffness is refused at its place") {
    Setup setup = example("lower-and-heavier");
    setup.guitar.scale_mm.values = {300};
    setup.next.strings[0] = {};
    setup.next.strings[0].gauge_in = 0.15;
    setup.next.tuning[0] = *parse_pitch("B0");
    const ReportResult result = report(setup);
    REQUIRE_FALSE(result.report);
    CHECK(result.problems.told[0].path == "next.tuning[0]");
}

TEST_CASE("a pitch too low for the strings of one entry is refused at that entry") {
    Setup setup = example("lower-and-heavier");
    setup.log.emplace_back();
    setup.log[0].springs = setup.now.springs;
    setup.log[0].tuning = Which::now;
    // Each goes with its own strings: "now" is low, but on thinner ones.
    setup.guitar.scale_mm.values = {300};
    setup.next.strings[0] = {};
    setup.next.strings[0].gauge_in = 0.15;
    setup.next.tuning[0] = *parse_pitch("E4");
    setup.now.tuning[0] = *parse_pitch("B0");
    Problems problems;
    CHECK_FALSE(checked_claw_now(setup, problems));
    REQUIRE(problems.told.size() == 1);
    CHECK(problems.told[0].path == "log[0].tuning[0]");
}

TEST_CASE("a long key is told by whole letters") {
    const std::string key = std::string(59, 'x') + "ä" + std::string(20, 'x');
    CHECK(Path(Path("guitar"), key).text() == "guitar." + std::string(59, 'x') + "...");
    CHECK(Path(Path("guitar"), std::string(60, 'x')).text() == "guitar." + std::string(60, 'x'));
}
