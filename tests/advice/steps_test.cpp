#include "engine/advice/steps.h"
#include "tests/support.h"

#include <algorithm>
#include <cmath>

using namespace counterpull;
using namespace counterpull::test;

namespace {

std::vector<StepKind> kinds(const std::vector<Step>& steps) {
    std::vector<StepKind> all;
    for (const Step& step : steps)
        all.push_back(step.kind);
    return all;
}

Step the(const std::vector<Step>& steps, StepKind kind) {
    const auto found =
        std::find_if(steps.begin(), steps.end(), [&](const Step& step) { return step.kind == kind; });
    REQUIRE(found != steps.end());
    return *found;
}

} // namespace

TEST_CASE("the job with a wedge, step by step") {
    using K = StepKind;
    const std::vector<Step> all = steps(answered(example("lower-and-heavier")), {true, false});
    CHECK(kinds(all) == std::vector<K>{K::note, K::slacken, K::turn, K::strings, K::wedge_in, K::tune,
                                       K::tune, K::wedge_out, K::turn_until, K::tune, K::read, K::wait,
                                       K::check});
    CHECK(all[5].how == TuneHow::rough);
    CHECK(all[6].how == TuneHow::aimed);
    CHECK(all[9].how == TuneHow::plain);
}

TEST_CASE("turned in, eased out: with a wedge the screws end where the answer has them") {
    for (const char* name : {"lower-and-heavier", "six-screw-plate", "small-sag"}) {
        const Report report = answered(example(name));
        REQUIRE(report.wedge);
        double turned = 0.0;
        for (const Step& step : steps(report, {true, false}))
            turned += step.turns[0];
        // A turn too small for a screwdriver has no step.
        CHECK(turned == Approx(report.solution.more_turns()).margin(1.0 / 16.0));
    }
}

TEST_CASE("the tuner decides while a small turn is made with the strings up") {
    const Report report = answered(example("small-sag"));
    const Step turn = the(steps(report, {}), StepKind::turn_until);
    REQUIRE(report.tuning);
    CHECK(turn.cents == report.tuning->watch_cents);
    CHECK(turn.string == 6 - *report.tuning->watch);
    REQUIRE(turn.asks.size() == 1);
    CHECK(turn.asks[0].expected == report.before_retuning_tail_mm);
    CHECK(turn.reading == ReadingKind::after_turn);
}

TEST_CASE("with a wedge each string is tuned to pitch, without it to its aim") {
    const Report report = answered(example("small-sag"));
    REQUIRE(report.tuning);
    const Step wedged = the(steps(report, {true, false}), StepKind::tune);
    const Step plain = the(steps(report, {}), StepKind::tune);
    REQUIRE(wedged.aims.size() == 6);
    REQUIRE(plain.aims.size() == 6);
    for (std::size_t i = 0; i < 6; ++i) {
        CHECK(wedged.aims[i].cents == 0.0);
        CHECK(plain.aims[i].cents == report.tuning->aim_cents[i]);
        CHECK(plain.aims[i].hz == Approx(report.tuning->aim_hz[i]));
        CHECK(plain.aims[i].string == static_cast<int>(6 - i)); // lowest first
    }
    CHECK(wedged.aims[0].hz == Approx(73.42).margin(0.01)); // D2, ISO 16
}

TEST_CASE("a test reading asks for every string but the one let down") {
    const std::vector<Step> all = steps(answered(example("small-sag")), {false, true});
    const Step test = the(all, StepKind::test);
    CHECK(all[1].kind == StepKind::test);
    CHECK(test.asks.size() == 5);
    CHECK(test.reading == test.test.kind);
    for (const Asked& asked : test.asks) {
        CHECK(asked.field == AskedField::cents);
        CHECK(asked.string != test.test.string);
    }
}

TEST_CASE("springs to move are those that differ, and nothing that fits is one step that says so") {
    Setup setup = example("lower-and-heavier");
    setup.next.springs = {{{0, 0, {}}, {1, 1, {}}, {3, 3, {}}, {4, 4, {}}}};
    const std::vector<Step> all = steps(answered(setup), {});
    const Step springs = the(all, StepKind::springs);
    CHECK(springs.off == Arrangement{{2, 2, {}}});
    CHECK(springs.on == Arrangement{{1, 1, {}}, {3, 3, {}}});
    CHECK(kinds(steps(answered(example("cannot-float")), {})) == std::vector<StepKind>{StepKind::cannot});
}

TEST_CASE("the way that takes the least work is taken unless one is chosen by hand") {
    const Report report = answered(example("lower-and-heavier"));
    const Advice& advised = report.solution.advised();
    CHECK(usual_way(report).wedge == advised.work.way.wedge);
    CHECK(usual_way(report, true).wedge);
    CHECK_FALSE(usual_way(report, false).wedge);
    CHECK(usual_way(report, false).test == advised.test_pays);
    Setup setup = example("lower-and-heavier");
    setup.next.rest = RestWanted::on_the_body;
    CHECK_FALSE(usual_way(answered(setup), true).wedge); // there is nothing to wedge
}
