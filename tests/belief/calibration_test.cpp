#include "engine/base/units.h"
#include "engine/belief/calibration.h"
#include "engine/document/choices.h"
#include "engine/say/report_json.h"
#include "tests/reference/hidden_guitar.h"
#include "tests/support.h"

#include <algorithm>
#include <cmath>

using namespace counterpull;
using namespace counterpull::test;

namespace {

Reading in_tune_reading(const Setup& setup, double turns, double tail_mm) {
    Reading reading;
    reading.springs = setup.now.springs;
    reading.turns = {turns, turns};
    reading.tail_mm = tail_mm;
    return reading;
}

} // namespace

TEST_CASE("without readings the belief is the prior") {
    const Setup setup = example("lower-and-heavier");
    const Calibration calibration = calibrate(setup);
    CHECK(calibration.belief.mean() == Deviations{});
    CHECK(calibration.belief.covariance().empty());
    CHECK(calibration.readings.empty());
}

TEST_CASE("readings that say what was expected leave the mean and shrink the spread") {
    Setup setup = example("small-sag");
    const Report before = answered(setup);
    const Assembly now = assembly_of(setup, fitting_now(setup));
    const double turns = *before.solution.advice[0].turns;
    const Rest rest = rest_at_pitch(now, before.now.claw.turned(turns), 0.0);
    setup.log.push_back(
        in_tune_reading(setup, turns, mm_from_metres(tail_at_angle_m(now.bridge, rest.angle_rad))));
    const Calibration calibration = calibrate(setup);
    CHECK(calibration.converged);
    CHECK(calibration.readings[0].predicted ==
          Approx(calibration.readings[0].observation.value).margin(1e-6));
    for (const double z : calibration.belief.mean())
        CHECK(std::abs(z) < 1e-6);
    const Report after = answered(setup);
    CHECK(*after.solution.advice[0].turns == Approx(turns).margin(1e-6));
    CHECK(after.solution.advice[0].turns_sigma < before.solution.advice[0].turns_sigma);
}

TEST_CASE("taking a reading away undoes it exactly") {
    Setup setup = example("three-readings-in");
    const std::string before = report_json(answered(setup), english());
    setup.log.push_back(in_tune_reading(setup, -0.75, 0.4));
    CHECK(report_json(answered(setup), english()) != before);
    setup.log.pop_back();
    CHECK(report_json(answered(setup), english()) == before);
}

TEST_CASE("a reading says the same of the guitar after something else is wanted") {
    const Setup before = example("three-readings-in");
    const Calibration then = calibrate(before);
    auto after_wanting = [&](auto&& change) {
        Setup after = before;
        change(after.next);
        keep_readings_true(before, after);
        for (const Reading& entry : after.log)
            REQUIRE(entry.own);
        return after;
    };
    // Another tuning of the same strings, to the last digit.
    const Setup retuned = after_wanting([](NextSetup& next) { next.tuning = notes_of("E2 A2 D3 G3 B3 E4"); });
    const Calibration same = calibrate(retuned);
    CHECK(same.converged == then.converged);
    CHECK(same.belief.mean() == then.belief.mean());
    CHECK(same.belief.covariance() == then.belief.covariance());
    REQUIRE(same.readings.size() == then.readings.size());
    for (std::size_t i = 0; i < same.readings.size(); ++i)
        CHECK(same.readings[i].predicted == then.readings[i].predicted);
    // Other strings: those of then have no weights to be learnt any more. They are known to 1.5 % each, so
    // that these readings say next to nothing of them: what they say of the guitar moves by less than
    // a twentieth of its spread.
    const Setup restrung =
        after_wanting([](NextSetup& next) { next.strings = set_of("56w 44w 34w 21 17 13"); });
    const Calibration other = calibrate(restrung);
    REQUIRE(other.readings.size() == then.readings.size());
    for (int u = 0; u < common_unknowns; ++u) {
        const auto unknown = static_cast<Unknown>(u);
        INFO(u);
        CHECK(other.belief.mean()[static_cast<std::size_t>(u)] ==
              Approx(then.belief.mean()[static_cast<std::size_t>(u)])
                  .margin(0.05 * then.belief.sigma_of(unknown)));
    }
    // Had they become readings of what is wanted now, they would say something else altogether.
    Setup mistaken = retuned;
    for (Reading& entry : mistaken.log)
        entry.own.reset();
    CHECK(std::abs(calibrate(mistaken).belief.mean()[0] - then.belief.mean()[0]) > 0.1);
}

TEST_CASE("strings that stayed on are not slackened by calling them by another name") {
    // In tune on the strings of now, then those turned and read: the same whether they are called "now" or
    // carried by the entries.
    Setup setup = example("small-sag");
    REQUIRE(setup.now.strings == setup.next.strings);
    for (const ReadingKind kind : {ReadingKind::in_tune, ReadingKind::after_turn}) {
        Reading reading = in_tune_reading(setup, kind == ReadingKind::in_tune ? 0.0 : 0.25, -0.2);
        reading.kind = kind;
        reading.strings = reading.tuning = Which::now;
        setup.log.push_back(reading);
    }
    setup.next.strings = set_of("52w 42w 30w 17 13 10");
    const Calibration named = calibrate(setup);
    Setup carried = setup;
    for (Reading& entry : carried.log)
        entry.own = {setup.now.strings, setup.now.tuning, setup.now.offset_cents};
    CHECK(calibrate(carried).belief.mean() == named.belief.mean());
    carried.log[0].own.reset();
    CHECK(calibrate(carried).belief.mean() == named.belief.mean());
}

TEST_CASE("a reading that does not fit is named and left out") {
    Setup setup = example("three-readings-in");
    const Report before = answered(setup);
    for (const FittedReading& reading : before.solution.calibration.readings)
        CHECK(reading.trust == Trust::full);
    (*setup.log[2].cents)[1] = 60.0; // misread, or the nut was locked
    const Report report = answered(setup);
    int out = 0;
    for (const FittedReading& reading : report.solution.calibration.readings)
        out += reading.trust == Trust::left_out;
    CHECK(out == 1);
    bool warned = false;
    for (const Warning& warning : report.warnings)
        warned = warned || (warning.kind == WarningKind::reading_left_out && warning.entry == 3);
    CHECK(warned);
    // The others say what they said before.
    CHECK(*report.solution.advice[0].turns == Approx(*before.solution.advice[0].turns).margin(0.03));
}

TEST_CASE("a reading at a stop says only that it went at least that far") {
    Setup setup = example("small-sag");
    const double low = setup.guitar.bridge.tail_limits_mm[0];
    // Tightened three turns the tail sinks, onto its stop.
    setup.log.push_back(in_tune_reading(setup, 3.0, low));
    const Calibration calibration = calibrate(setup);
    REQUIRE(calibration.readings.size() == 1);
    CHECK(calibration.readings[0].observation.stop == -1);
    for (const double z : calibration.belief.mean())
        CHECK(std::abs(z) < 1e-6); // as expected: nothing to learn from
    // Read at the stop after a quarter turn, where it was not expected: that does say something.
    setup.log[0] = in_tune_reading(setup, 0.25, low);
    double most = 0.0;
    const Calibration surprised = calibrate(setup);
    for (const double z : surprised.belief.mean())
        most = std::max(most, std::abs(z));
    CHECK(most > 0.05);
}

TEST_CASE("a reading at the upper stop says only that it went at least that far, as well") {
    Setup setup = example("small-sag");
    const double high = setup.guitar.bridge.tail_limits_mm[1];
    // Eased seven turns it goes beyond its stop.
    setup.guitar.bay.turns_out_left = 8;
    setup.log.push_back(in_tune_reading(setup, -7.0, high));
    const Calibration calibration = calibrate(setup);
    REQUIRE(calibration.readings.size() == 1);
    CHECK(calibration.readings[0].observation.stop == 1);
    for (const double z : calibration.belief.mean())
        CHECK(std::abs(z) < 1e-6);
}

TEST_CASE(
    "where its stops are says nothing of a tail read between them, though it was thought to lie on one") {
    Setup setup = example("lower-and-heavier");
    setup.now.strings = setup.next.strings;
    setup.now.tuning = setup.next.tuning;
    setup.now.tail_mm = 2.0;
    auto fitted = [&](double lower_mm) {
        setup.guitar.bridge.tail_limits_mm[0] = lower_mm;
        setup.log.clear();
        const Assembly typed = assembly_of(setup, fitting_now(setup));
        const ClawSetting turned = answered(setup).now.claw.turned(1.5);
        const double thought_mm =
            mm_from_metres(tail_at_angle_m(typed.bridge, rest_at_pitch(typed, turned, 0.0).angle_rad));
        setup.log.push_back(in_tune_reading(setup, 1.5, -4.0));
        return std::pair(thought_mm, calibrate(setup));
    };
    const auto [thought_mm, near] = fitted(-5.5);
    REQUIRE(thought_mm == Approx(-5.5));
    const auto far = fitted(-12.0).second;
    REQUIRE(near.readings.size() == 1);
    CHECK(near.is_sound());
    CHECK(near.readings[0].trust == Trust::full);
    for (std::size_t u = 0; u < near.belief.mean().size(); ++u)
        CHECK(near.belief.mean()[u] == Approx(far.belief.mean()[u]).margin(1e-6));
    // As good as at the stop it says no more than that it went so far: which was thought.
    const Calibration there = fitted(-4.4).second;
    CHECK(there.readings[0].predicted == -4.4); // not beyond the stop
    for (const double z : there.belief.mean())
        CHECK(std::abs(z) < 1e-9);
}

TEST_CASE("where the fit starts from a guitar that cannot be played it ends elsewhere") {
    // Hardly known, on the edge of running away, with readings that contradict each other.
    Setup setup = example("small-sag");
    setup.guitar.bridge.block_depth_mm = 30.0;
    setup.guitar.bridge.block_setback_mm = 20.0;
    setup.guitar.spring.initial_tension_n = 30.0;
    setup.now.tail_mm = 0.0;
    for (const char* path : {"spring.rate_n_mm", "spring.initial_tension_n", "spring.free_length_mm",
                             "bridge.saddle_height_mm", "bridge.saddle_setback_mm", "bridge.block_depth_mm",
                             "bridge.block_setback_mm", "bay.screw_pitch_mm"})
        setup.guitar.basis.push_back({path, Basis::guess});
    Reading reading = in_tune_reading(setup, -0.54, -0.4);
    reading.kind = ReadingKind::after_turn;
    reading.cents = {56.3, 47.5, 46.3, -28.2, -162.1, 75.5};
    setup.log.push_back(reading);
    const Calibration calibration = calibrate(setup);
    CHECK(calibration.starts > 1);
    CHECK_FALSE(calibration.readings.empty());
    answered(setup);
}

TEST_CASE("the same springs are the same in whatever order they are listed") {
    Setup setup = example("small-sag");
    setup.log = {in_tune_reading(setup, 0.5, -0.6), in_tune_reading(setup, 0.5, 0.0)};
    setup.log[1].kind = ReadingKind::after_pass;
    setup.log[1].tail_mm.reset();
    setup.log[1].cents = std::vector<std::optional<double>>(6, 0.5);
    Setup other = setup;
    std::reverse(other.log[1].springs.begin(), other.log[1].springs.end());
    const Calibration a = calibrate(setup), b = calibrate(other);
    REQUIRE(a.readings.size() == b.readings.size());
    for (std::size_t i = 0; i < a.readings.size(); ++i)
        CHECK(b.readings[i].predicted == Approx(a.readings[i].predicted).margin(1e-6));
}

TEST_CASE("screws turned and turned back stand no surer than where they were turned to") {
    Setup setup = example("small-sag");
    setup.log = {in_tune_reading(setup, 0.5, -3.4), in_tune_reading(setup, 0.0, -1.5)};
    Setup other = setup;
    other.log[1].turns = {1e-9, 1e-9};
    const Belief back = calibrate(setup).belief, nearly = calibrate(other).belief;
    REQUIRE(back.used(static_cast<int>(Unknown::screws_now)));
    CHECK(back.mean()[static_cast<std::size_t>(Unknown::screws_now)] != 0.0);
    CHECK(back.sigma_of(Unknown::screws_now) == Approx(nearly.sigma_of(Unknown::screws_now)).epsilon(1e-6));
    CHECK(answered(setup).solution.advised().turns_sigma ==
          Approx(answered(other).solution.advised().turns_sigma).epsilon(1e-6));
}

TEST_CASE("an entry of which nothing was read says where it leaves the bridge") {
    Setup setup = example("lower-and-heavier");
    setup.log = {in_tune_reading(setup, 0.0, 0.0)};
    setup.log[0].tail_mm.reset();
    const Calibration calibration = calibrate(setup);
    CHECK(calibration.left);
    CHECK(calibration.belief.mean() == Deviations{});
    Belief prior(setup);
    for (const Unknown unknown : {Unknown::spring_rate, Unknown::tail_now})
        CHECK(calibration.belief.sigma_of(unknown) == Approx(prior.sigma_of(unknown)).epsilon(1e-9));
}

TEST_CASE("a reading left out counts again where it fits once another is out") {
    // Two in tune that go on from each other, and one at the stop that no guitar reads after them.
    Setup setup = light_set_level();
    setup.next.strings = set_of("46w 36w 26w 17 13 10");
    const double high = setup.guitar.bridge.tail_limits_mm[1];
    for (const auto& [turns, tail] : {std::pair{1.5, 14.0}, {2.0, 9.0}, {2.25, high}})
        setup.log.push_back(in_tune_reading(setup, turns, tail));
    for (const FittedReading& reading : calibrate(setup).readings) {
        INFO(reading.observation.entry << ": " << reading.sigmas);
        CHECK((reading.trust != Trust::left_out || reading.sigmas > outlier_sigmas));
    }
}

TEST_CASE("a fit that is sound is sought from one point") {
    CHECK(calibrate(example("three-readings-in")).starts == 1);
}

TEST_CASE("each entry is played on the springs that it was read with") {
    Setup setup = example("small-sag");
    const Arrangement four{{0, 0, {}}, {1, 1, {}}, {3, 3, {}}, {4, 4, {}}};
    setup.log = {in_tune_reading(setup, 0.2, 0.0), in_tune_reading(setup, -3.0, 0.0)};
    setup.log[1].springs = four;
    const Belief belief(setup);
    Playback playback(belief);
    std::vector<double> predicted;
    REQUIRE(playback.play(std::vector<double>(playback.width()), Settling::search, predicted));
    REQUIRE(predicted.size() == 2);
    // Where the guitar as written rests on them.
    const ClawSetting claw = answered(setup).now.claw;
    for (std::size_t e = 0; e < 2; ++e) {
        const Assembly assembly = assembly_of(setup, fitting_next(setup, setup.log[e].springs));
        const Rest rest = rest_at_pitch(assembly, claw.turned(setup.log[e].turns[0]), 0.0);
        REQUIRE(rest.kind == RestKind::floats);
        CHECK(predicted[e] ==
              Approx(mm_from_metres(tail_at_angle_m(assembly.bridge, rest.angle_rad))).margin(1e-6));
    }
}

TEST_CASE("a full search does not hang on what was played before") {
    // A shallow block far back, with stiff springs: in tune it stands on an edge, between a float further
    // down and its upper stop. Friction decides which way it goes.
    Setup setup = light_set_level();
    setup.guitar.bridge.block_depth_mm = 15.0;
    setup.guitar.bridge.block_setback_mm = 25.0;
    setup.guitar.bridge.tail_limits_mm = {-15.0, 25.0};
    setup.guitar.spring.rate_n_mm = 4.0;
    setup.guitar.spring.initial_tension_n = 2.0;
    setup.log = {in_tune_reading(setup, 0.0, 0.0)};
    const Belief belief(setup);
    Playback playback(belief);
    std::vector<double> down(playback.width()), up(playback.width()), predicted;
    REQUIRE(playback.unknowns().visits.empty());
    down[0] = -1.0; // the entry's friction comes first
    up[0] = 1.0;
    for (int i = 0; i < 2; ++i) {
        REQUIRE(playback.play(down, Settling::search, predicted));
        CHECK(predicted[0] < -5.0);
        CHECK(predicted[0] > -15.0);
        REQUIRE(playback.play(up, Settling::search, predicted));
        CHECK(predicted[0] >= 25.0); // or it would be, were there no stop
    }
}

TEST_CASE("a belief conditioned on a reading comes nearer to the guitar as it is") {
    double before = 0.0, after = 0.0;
    int guitars = 0;
    for (std::uint64_t number = 0; guitars < 20; ++number) {
        reference::HiddenGuitar guitar(example("lower-and-heavier"), number);
        if (!guitar.possible())
            continue;
        ++guitars;
        const Report first = answered(guitar.setup());
        const auto test = best_test_reading(first.solution);
        if (!test)
            continue; // already sure
        guitar.setup().log.push_back(guitar.read_test(*test));
        const Calibration calibration = calibrate(guitar.setup());
        // In spreads, as the belief counts.
        const double truth = guitar.spring_rate_log() / calibration.belief.spread(Unknown::spring_rate).share;
        before += truth * truth;
        after += std::pow(calibration.belief.mean()[0] - truth, 2);
    }
    CHECK(before > 0.0);
    CHECK(after < 0.7 * before);
}

TEST_CASE("the test reading asked for leaves the spread that it promised") {
    for (const char* name : {"small-sag", "lower-and-heavier", "six-screw-plate"}) {
        Setup setup = example(name);
        const Report before = answered(setup);
        const auto test = best_test_reading(before.solution);
        REQUIRE(test);
        CHECK(test->sigma_after < 0.9 * before.solution.advice[0].turns_sigma);
        // Taken on a guitar that is as the set-up says.
        const Assembly now = assembly_of(setup, fitting_now(setup));
        const double angle = angle_of_tail_rad(setup, setup.now.tail_mm);
        const int string = now.string_count - test->string;
        const double by = test->kind == ReadingKind::bend ? test->by_cents : -test->by_cents;
        const Tuners tuners =
            one_at_pitch(lengths_at_pitch(now, Attitude(angle)), string,
                         now.strings[static_cast<std::size_t>(string)].frequency_hz * std::exp2(by / 1200.0));
        const Attitude there(rest(now, tuners, before.now.claw, angle).angle_rad);
        const std::vector<double> shown = cents_shown(now, lengths_as_tuned(now, tuners, there), there);
        Reading reading;
        reading.kind = test->kind;
        reading.string = test->string;
        reading.by_cents = test->by_cents;
        reading.strings = reading.tuning = Which::now;
        reading.springs = setup.now.springs;
        reading.cents = std::vector<std::optional<double>>(shown.begin(), shown.end());
        setup.log.push_back(reading);
        const Report after = answered(setup);
        const Advice& same = advice_on(after, before.solution.advised().springs);
        INFO(name);
        CHECK(same.turns_sigma == Approx(test->sigma_after).epsilon(0.02));
        CHECK(*same.turns == Approx(*before.solution.advised().turns).margin(0.01));
    }
}
