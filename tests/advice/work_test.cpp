// The work predicted of an arrangement, and that arrangements are ranked by it.
#include "engine/belief/belief.h"
#include "engine/document/presets.h"
#include "tests/reference/random_setup.h"
#include "tests/support.h"

#include <algorithm>
#include <cmath>

using namespace counterpull;
using namespace counterpull::test;

namespace {

// The share of a normal distribution within ±limit: its density, exp(−x²/2σ²)/(σ√(2π)), added up by Simpson's
// rule. (The program takes the error function.)
double share_within(double limit, double sigma) {
    constexpr int parts = 2000;
    const double step = 2.0 * limit / parts;
    double sum = 0.0;
    for (int i = 0; i <= parts; ++i) {
        const double x = -limit + i * step;
        const double density = std::exp(-0.5 * x * x / (sigma * sigma)) / (sigma * std::sqrt(2.0 * M_PI));
        sum += density * (i == 0 || i == parts ? 1.0 : i % 2 == 1 ? 4.0 : 2.0);
    }
    return sum * step / 3.0;
}

Setup on_bridge(const BridgePreset& bridge, const char* strings) {
    Setup setup = example_setup();
    setup.guitar.basis.clear();
    setup.guitar.bridge = bridge.bridge;
    setup.guitar.bay = bridge.bay;
    setup.now.strings = setup.next.strings = set_of(strings);
    setup.now.tuning = setup.next.tuning = notes_of("E2 A2 D3 G3 B3 E4");
    setup.now.tail_mm = setup.next.tail_mm = bridge.usual_aim_mm;
    return setup;
}

const char* const nine = "42w 32w 24w 16 11 9";
const char* const ten = "46w 36w 26w 17 13 10";
const char* const eleven = "49w 38w 28w 18 14 11";

} // namespace

TEST_CASE("drop D takes about 1.6 visits on the three springs that are on, and 2.0 with a fourth") {
    // The first edition of the recessed bridge; 1.6 and 2.0 were worked out by hand, and in an independent
    // loop three springs are level after one visit on 88 % of guitars and four on 68 %.
    const BridgePreset& first = presets().bridges.front();
    REQUIRE(first.retired);
    Setup setup = on_bridge(first, ten);
    setup.next.tuning = notes_of("D2 A2 D3 G3 B3 E4");
    const Report report = answered(setup);
    for (const std::size_t springs : {3u, 4u}) {
        const auto& all = report.solution.advice;
        const auto advice = std::find_if(
            all.begin(), all.end(), [&](const Advice& a) { return a.springs.size() == springs && a.fits(); });
        REQUIRE(advice != all.end());
        const Job& job = advice->job;
        const double s = job.per_turn_mm, hand = 0.06 * s;
        const double sigma1 =
            std::sqrt(std::pow(job.turns_sigma * s, 2) + hand * hand + std::pow(job.friction_mm, 2));
        const double sigma2 = std::sqrt(0.3 * 0.3 + std::pow(job.friction_mm, 2) + hand * hand +
                                        std::pow(left_by_correction * sigma1, 2));
        const double visits = 1.0 + (1.0 - share_within(0.5, sigma1)) / share_within(0.5, sigma2);
        CHECK(predicted_work(job, {}).visits == Approx(visits).epsilon(1e-6));
        CHECK(visits == Approx(springs == 3 ? 1.6 : 2.0).margin(0.1));
    }
}

TEST_CASE("nobody adds a spring for drop D, or for half a tone down") {
    for (const BridgePreset& bridge : presets().bridges)
        for (const char* strings : {nine, ten, eleven})
            for (const char* tuning : {"D2 A2 D3 G3 B3 E4", "Eb2 Ab2 Db3 Gb3 Bb3 Eb4"}) {
                Setup setup = on_bridge(bridge, strings);
                setup.next.tuning = notes_of(tuning);
                INFO(bridge.name << ", " << strings << ", " << tuning);
                const Report report = answered(setup);
                CHECK(report.solution.advised().fits());
                CHECK(report.solution.advised().moved == 0);
            }
}

TEST_CASE("what has to be measured first comes last among what fits") {
    int met = 0;
    for (std::uint64_t seed = 0; seed < 300; ++seed) {
        const SetupRead read = read_setup(reference::random_setup(seed).dump());
        REQUIRE(read.setup);
        const ReportResult result = report(*read.setup);
        if (!result.report)
            continue;
        bool measured = false;
        for (const Advice& advice : result.report->solution.advice) {
            if (!advice.fits() || advice.chosen)
                continue;
            INFO("seed " << seed);
            CHECK((advice.measure_first || !measured));
            measured = measured || advice.measure_first;
        }
        met += measured;
    }
    REQUIRE(met > 0);
}

TEST_CASE("the more springs are moved, the longer it takes; and the more visits") {
    Job job;
    job.per_turn_mm = 3.4; // common practice: a quarter turn for 0.6 to 1.2 mm
    job.turns_sigma = 0.2;
    job.strings = 6;
    double before = predicted_work(job, {}).minutes;
    for (job.springs_moved = 1; job.springs_moved <= 4; ++job.springs_moved) {
        const double minutes = predicted_work(job, {}).minutes;
        CHECK(minutes == Approx(before + work_minutes.spring));
        before = minutes;
    }
    const Work surer = predicted_work(job, {});
    job.turns_sigma = 0.4;
    CHECK(predicted_work(job, {}).visits > surer.visits);
    CHECK(predicted_work(job, {}).minutes > surer.minutes);
}

TEST_CASE("a test reading is worth its minutes where it saves more than that") {
    Job job;
    job.per_turn_mm = 3.4;
    job.strings = 6;
    job.turns_sigma = 0.3;
    job.turns_sigma_tested = 0.15;
    CHECK(least_work(job).way == Way{false, true});
    job.turns_sigma_tested = 0.295;
    CHECK(least_work(job).way == Way{});
    // A bridge on the body rests where it shall: one visit.
    job.per_turn_mm = 0.0;
    CHECK(least_work(job).visits == 1.0);
}

TEST_CASE("the minutes of a plain job and of one with a wedge, added up by hand") {
    // A bridge on the body: one visit. Six strings tuned 2.5 times each for 1.5 minutes: 22.5, 5 at the
    // screws and 10 to begin with. The wedge: 10 more and 15 for strings down, tuned 1.7 times: 15.3.
    Job job;
    job.strings = 6;
    CHECK(predicted_work(job, {}).minutes == Approx(37.5));
    CHECK(predicted_work(job, {.wedge = true}).minutes == Approx(55.3));
    CHECK(predicted_work(job, {.test = true}).minutes == Approx(41.5));
    job.strings_are_up = false;
    CHECK(predicted_work(job, {.wedge = true}).minutes == Approx(40.3));
    job.strings_are_up = true;
    job.out_of_thread = 0.25;
    CHECK(predicted_work(job, {}).minutes == Approx(52.5));
}

TEST_CASE("the tail is off by as much as the turns are times what a turn does, and by nothing on the body") {
    Job job;
    job.turns_sigma = 0.08; // with 0.06 by the hand: 0.1 turn
    for (const double per_turn_mm : {0.5, 1.0, 2.0}) {
        job.per_turn_mm = per_turn_mm;
        CHECK(first_tail_sigma_mm(job, {}) == Approx(0.1 * per_turn_mm));
    }
    job.per_turn_mm = 0.0;
    job.friction_mm = 0.2;
    CHECK(first_tail_sigma_mm(job, {}) == 0.0);
}
