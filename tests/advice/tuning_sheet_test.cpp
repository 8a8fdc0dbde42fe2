#include "engine/advice/tuning_sheet.h"
#include "engine/say/names.h"
#include "tests/bench_support.h"
#include "tests/reference/simulated_tuning.h"

#include <algorithm>
#include <cmath>

using namespace counterpull;
using namespace counterpull::test;
using reference::Simulated;

TEST_CASE("the sheet followed exactly lands every string within a cent in one pass") {
    int followed = 0;
    for (const std::string& name : example_names()) {
        const Setup setup = example(name);
        const Report report = answered(setup);
        if (!report.tuning || !setup.log.empty())
            continue;
        Simulated guitar(setup, report);
        const std::vector<double> before = guitar.cents();
        for (std::size_t i = 0; i < before.size(); ++i)
            CHECK(before[i] == Approx(report.tuning->begin_cents[i]).margin(1e-3));
        guitar.aim(report.tuning->aim_cents);
        INFO(name << ", " << name_of(report.tuning->start));
        CHECK(guitar.worst() < 1.0);
        ++followed;
        // And the gentler way too, in two.
        if (report.tuning->why_gentler) {
            Simulated gently(setup, report);
            for (const std::vector<double>& pass : report.tuning->gentler_cents)
                gently.aim(pass);
            CHECK(gently.worst() < 1.0);
        }
    }
    CHECK(followed >= 5);
}

TEST_CASE("it says where it begins") {
    CHECK(name_of(answered(example("small-sag")).tuning->start) == "as the claw turn leaves them");
    CHECK(name_of(answered(example("lower-and-heavier")).tuning->start) == "brought up roughly");
    CHECK(name_of(answered(example("three-readings-in")).tuning->start) == "from readings");
}

// The closed-loop benchmark prints the table that tests/benchmark/RESULTS.md shows.
TEST_CASE(
    "with springs a fifth off it lands near, and within three cents after a sheet from those readings") {
    for (const reference::Landing& landing : reference::landings(light_set_level())) {
        const double moved = std::abs(landing.tail_mm);
        INFO("springs " << landing.spring_factor << ", tail from " << landing.tail_mm
                        << " mm: " << landing.sheet << ", then " << landing.second);
        if (landing.spring_factor == 1.0)
            CHECK(landing.sheet < 1.0);
        if (moved <= 0.75)
            CHECK(landing.sheet < 10.0);
        if (moved <= 1.5) {
            CHECK(landing.sheet < 17.0);
            CHECK(landing.second < 3.0); // what friction may have done is not the springs'
        }
        CHECK(landing.sheet < 0.75 * landing.plain);
        CHECK(landing.second < landing.sheet + 0.1);
    }
}

TEST_CASE("a large move asks for two gentler passes and says why") {
    const Report report = answered(example("lower-and-heavier"));
    REQUIRE(report.tuning->why_gentler);
    CHECK(*report.tuning->why_gentler == WhyGentler::far);
    double one = 0.0, two = 0.0;
    for (const double cents : report.tuning->aim_cents)
        one = std::max(one, std::abs(cents));
    for (const std::vector<double>& pass : report.tuning->gentler_cents)
        for (const double cents : pass)
            two = std::max(two, std::abs(cents));
    CHECK(two < 0.75 * one);
    CHECK_FALSE(answered(example("small-sag")).tuning->why_gentler);
}

TEST_CASE(
    "turned until the watched string shows its cents, the claw stands where it should, whatever its thread") {
    // Counting turns hangs on the screw's thread; the tuner does not.
    const Setup setup = example("small-sag");
    const Report report = answered(setup);
    REQUIRE(report.tuning->watch);
    Setup real = setup;
    real.guitar.bay.screw_pitch_mm *= 1.1;
    Problems problems;
    const Assembly now = assembly_of(real, fitting_now(real));
    const ClawSetting claw = claw_now(real, now, problems).value();
    Strung strung;
    strung.angle_rad = angle_of_tail_rad(real, real.now.tail_mm);
    strung.lengths_m = lengths_at_pitch(now, Attitude(strung.angle_rad));
    const auto watch = static_cast<std::size_t>(*report.tuning->watch);
    double low = -1.0, high = 1.0;
    for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (low + high);
        const Strung there = settled(now, claw.turned(middle), strung);
        const double shown = cents_shown(now, there.lengths_m, Attitude(there.angle_rad))[watch];
        (shown < report.tuning->watch_cents ? low : high) = middle;
    }
    CHECK(low == Approx(*report.solution.advice[0].turns / 1.1).epsilon(0.01));
    const Rest end = rest_at_pitch(now, claw.turned(low), 0.0);
    CHECK(std::abs(1000.0 * tail_at_angle_m(now.bridge, end.angle_rad)) < 0.05);
}

TEST_CASE("a stop on the way is a reason for gentler passes, but where the bridge may rest on it") {
    Aims aims;
    aims.cents = {20.0, -10.0};
    CHECK_FALSE(why_gentler(aims, false));
    CHECK_FALSE(why_gentler(aims, true));
    aims.against_stop = true;
    CHECK(why_gentler(aims, false) == WhyGentler::stop);
    CHECK_FALSE(why_gentler(aims, true));
}

TEST_CASE("strings that were not read are where the turn left them") {
    // At the bench only the string that is watched is entered; the sheet that follows brings all to pitch.
    const Setup setup = until(by_way(example("small-sag"), plain), StepKind::turn_until);
    Simulated guitar(setup, answered(setup));
    const Setup then = after(setup, {});
    const Report report = answered(then);
    REQUIRE(report.tuning);
    CHECK(report.tuning->start == SheetStart::from_readings);
    guitar.aim(report.tuning->aim_cents);
    CHECK(guitar.worst() < 1.0);
}

TEST_CASE("the string that is watched is one that was read") {
    Setup setup = example("small-sag");
    Reading reading;
    reading.kind = ReadingKind::after_pass;
    reading.springs = setup.now.springs;
    reading.turns = {0.25, 0.25};
    reading.tail_mm = -0.6;
    reading.cents.emplace(setup.next.strings.size());
    reading.cents->front() = 8.0;
    setup.log.push_back(reading);
    const Report report = answered(setup);
    REQUIRE(report.tuning);
    REQUIRE(report.tuning->watch);
    CHECK(*report.tuning->watch == 0);
}

TEST_CASE("bringing up strings that were off when it began is entered as a pass before what is read") {
    Setup setup = until(by_way(example("strings-are-off"), plain), StepKind::read);
    setup = after(setup, as_expected(setup, due_on(setup).step));
    REQUIRE(setup.log.size() >= 2);
    const Reading& first = setup.log.front();
    CHECK(first.kind == ReadingKind::after_pass);
    CHECK_FALSE(first.aim_cents); // brought to pitch, not to the sheet's aims
    CHECK_FALSE(first.tail_mm);
}
