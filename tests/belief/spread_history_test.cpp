#include "engine/belief/spread_history.h"
#include "tests/support.h"

#include <algorithm>
#include <cmath>

using namespace counterpull;
using namespace counterpull::test;

namespace {

std::vector<double> history_of(const Setup& setup) {
    const Solution solution = solved(setup);
    return spread_history(solution.calibration, solution.advised().turns_per);
}

// The guitar before this many of its readings were taken.
Setup up_to(Setup setup, std::size_t entries) {
    setup.log.resize(entries);
    return setup;
}

} // namespace

TEST_CASE("the spread after so many readings is that of a guitar with so many") {
    const Setup setup = example("three-readings-in");
    const Report report = answered(setup);
    const std::vector<double> history = history_of(setup);
    REQUIRE(history.size() == setup.log.size() + 1);
    CHECK(history.back() == Approx(report.solution.advice.front().turns_sigma).epsilon(1e-9));
    for (std::size_t i = 0; i < history.size(); ++i) {
        INFO("after " << i);
        // At the fit of all readings against the fit of those: the guitar is believed a little otherwise.
        CHECK(history[i] ==
              Approx(advice_on(answered(up_to(setup, i)), report.solution.advised().springs).turns_sigma)
                  .epsilon(0.15));
    }
}

TEST_CASE("no reading makes the turns less sure but for the screwdriver's part in it") {
    const Setup setup = example("three-readings-in");
    const std::vector<double> history = history_of(setup);
    for (std::size_t i = 1; i < history.size(); ++i)
        CHECK(history[i] <= std::hypot(history[i - 1], screw_reading_turns));
}

TEST_CASE("each value belongs to its entry, whatever an answer without the later ones would have been") {
    Setup setup = example("three-readings-in");
    const std::vector<double> before = history_of(setup);
    // An entry of which nothing was read yet says nothing, and stands in its place.
    Reading silent = setup.log[1];
    silent.tail_mm.reset();
    silent.cents.reset();
    setup.log.insert(setup.log.begin() + 1, silent);
    const std::vector<double> after = history_of(setup);
    REQUIRE(after.size() == before.size() + 1);
    CHECK(after[1] == Approx(before[1]).epsilon(1e-4));
    // The screws were turned for it, but not by how much they were counted.
    CHECK(after[2] >= after[1] * (1.0 - 1e-9));
    CHECK(after.back() == Approx(before.back()).epsilon(1e-4));
}

TEST_CASE("without readings there is one spread, and none where there are no turns") {
    const Setup setup = example("lower-and-heavier");
    const Report report = answered(setup);
    const std::vector<double> history = history_of(setup);
    REQUIRE(history.size() == 1);
    CHECK(history[0] == report.solution.advice.front().turns_sigma);
    CHECK(spread_history(calibrate(setup), Deviations{}).empty());
}

TEST_CASE("the last of the spreads is what is believed, whatever the readings are like") {
    Setup setup = example("three-readings-in");
    const auto last_is_believed = [&] {
        const Solution solution = solved(setup);
        const std::vector<double> history =
            spread_history(solution.calibration, solution.advised().turns_per);
        REQUIRE(history.size() == setup.log.size() + 1);
        CHECK(history.back() ==
              Approx(solution.belief().sigma_of(solution.advised().turns_per)).epsilon(1e-9));
        return solution.calibration.widened;
    };
    // Two that contradict each other.
    setup.log.resize(2, setup.log.front());
    for (Reading& entry : setup.log) {
        entry.kind = ReadingKind::in_tune;
        entry.cents.reset();
        entry.turns = setup.log.front().turns;
    }
    setup.log[0].tail_mm = 4.0;
    setup.log[1].tail_mm = -4.0;
    CHECK(last_is_believed() > 1.0);
    // Turned and turned back.
    setup.log[0].tail_mm = -2.0;
    setup.log[0].turns = {0.25, 0.25};
    setup.log[1].tail_mm = 0.0;
    setup.log[1].turns = {0.0, 0.0};
    last_is_believed();
    // An entry with nothing read.
    setup.log.resize(1, setup.log.front());
    setup.log[0].tail_mm.reset();
    setup.log[0].turns = {0.0, 0.0};
    last_is_believed();
}

TEST_CASE("springs that no earlier answer would have listed take no value away") {
    // Springs led across come into the answer only once they are hooked in so.
    const Arrangement across{{0, 1, std::nullopt}, {2, 3, std::nullopt}, {4, 4, std::nullopt}};
    Setup setup = example("three-readings-in");
    Reading led_across = setup.log.back();
    led_across.springs = across;
    led_across.kind = ReadingKind::in_tune;
    led_across.tail_mm = 0.2;
    led_across.cents.reset();
    setup.log.push_back(led_across);
    const Arrangement advised = answered(setup).solution.advice.front().springs;
    REQUIRE(advised == across);
    const Report earlier = answered(up_to(setup, 0));
    REQUIRE(std::none_of(earlier.solution.advice.begin(), earlier.solution.advice.end(),
                         [&](const Advice& advice) { return advice.springs == across; }));
    CHECK(history_of(setup).size() == setup.log.size() + 1);
}
