#include "engine/advice/by_ear.h"
#include "tests/reference/closed_loop.h"
#include "tests/reference/ear_player.h"
#include "tests/reference/simulated_tuning.h"
#include "tests/support.h"

#include <algorithm>
#include <cmath>

using namespace counterpull;
using namespace counterpull::test;
using namespace reference;

namespace {

// The guitar as it is believed to be, heard exactly.
struct Exact {
    Report report;
    Step step;
    Simulated guitar;
    std::vector<HeardInPass> pass;

    explicit Exact(const Setup& setup, double spring_factor = 1.0)
        : report(answered(setup)), step(tune_step(report)), guitar(setup, report, spring_factor) {
        hear(0);
    }
    void hear(int tuned) {
        const std::vector<double> cents = guitar.cents();
        pass.push_back({tuned, {cents.begin(), cents.end()}});
    }
    void tune(const Aim& aim) {
        const int place = guitar.assembly.string_count - aim.string;
        guitar.strung = after_aim(guitar.assembly, guitar.claw, guitar.strung, place, aim.cents);
        hear(aim.string);
    }
    static Strung after_aim(const Assembly& assembly, const ClawSetting& claw, Strung strung, int place,
                            double cents) {
        const double hz =
            assembly.strings[static_cast<std::size_t>(place)].frequency_hz * std::exp2(cents / 1200.0);
        const Tuners tuners = one_at_pitch(strung.lengths_m, place, hz);
        strung.angle_rad = rest(assembly, tuners, claw, strung.angle_rad).angle_rad;
        strung.lengths_m = lengths_as_tuned(assembly, tuners, Attitude(strung.angle_rad));
        return strung;
    }
    // Until nothing is left to be tuned. Returns the strings tuned.
    std::vector<int> until_done() {
        std::vector<int> order;
        for (auto aims = aims_by_ear(report, step, pass); !aims.empty() && order.size() < 40;
             aims = aims_by_ear(report, step, pass)) {
            order.push_back(aims.front().string);
            tune(aims.front());
        }
        return order;
    }
};

} // namespace

TEST_CASE("a bridge said to come back exactly is tuned by ear as any other") {
    Setup setup = example("small-sag");
    setup.guitar.bridge.return_cents = 0.0;
    Exact exact(setup, 1.05);
    exact.until_done();
    CHECK(exact.guitar.worst() < 2.0);
    for (const Aim& aim : aims_by_ear(exact.report, exact.step, exact.pass))
        CHECK(std::isfinite(aim.cents));
}

TEST_CASE("a guitar that is as believed is tuned as the sheet says, each string once") {
    Exact exact(example("small-sag"));
    const std::vector<Aim> aims = aims_by_ear(exact.report, exact.step, exact.pass);
    REQUIRE(aims.size() == exact.step.aims.size());
    for (std::size_t i = 0; i < aims.size(); ++i) {
        CHECK(aims[i].string == exact.step.aims[i].string);
        CHECK(aims[i].cents == Approx(exact.step.aims[i].cents).margin(0.2));
        CHECK(aims[i].hz == Approx(exact.step.aims[i].hz).epsilon(2e-4));
    }
    CHECK(exact.until_done() == std::vector<int>{6, 5, 4, 3, 2, 1});
    CHECK(exact.guitar.worst() < 1.8);
}

TEST_CASE("before anything was heard the aims are the step's own, and nothing is left where all was heard at "
          "pitch") {
    const Exact exact(example("small-sag"));
    const std::vector<Aim> aims = aims_by_ear(exact.report, exact.step, {});
    REQUIRE(aims.size() == 6);
    CHECK(aims[0].cents == exact.step.aims[0].cents);
    const HeardInPass there{0, {1.5, -1.0, 0.3, 0.0, -0.7, 1.6}};
    CHECK(aims_by_ear(exact.report, exact.step, {there}).empty());
    Step other;
    other.kind = StepKind::read;
    CHECK(aims_by_ear(exact.report, other, {there}).empty());
}

TEST_CASE("with springs a fifth off and all else as written, one pass and a string or two more land it") {
    for (const double factor : {0.8, 1.2}) {
        Exact exact(example("small-sag"), factor);
        const std::vector<int> order = exact.until_done();
        INFO(factor << ": " << order.size());
        CHECK(order.size() <= 8);
        CHECK(exact.guitar.worst() < 2.0);
    }
}

TEST_CASE("strings that are plucked one at a time only, each before and after it is tuned, are tuned too") {
    for (const double factor : {0.8, 1.2}) {
        Exact exact(example("small-sag"), factor);
        int tuned = 0, plucked = 0;
        auto alone = [&](int string) {
            auto& shown = exact.pass.back().shown_cents;
            for (std::size_t i = 0; i < shown.size(); ++i)
                if (static_cast<int>(shown.size() - i) != string)
                    shown[i].reset();
            return shown[shown.size() - static_cast<std::size_t>(string)].value();
        };
        for (auto aims = aims_by_ear(exact.report, exact.step, exact.pass); !aims.empty() && plucked < 60;
             aims = aims_by_ear(exact.report, exact.step, exact.pass), ++plucked) {
            const int string = aims.front().string;
            exact.hear(0);
            const double shown = alone(string);
            const auto now = aims_by_ear(exact.report, exact.step, exact.pass);
            if (now.empty() || now.front().string != string || std::abs(now.front().cents - shown) < 0.5)
                continue;
            exact.tune(now.front());
            alone(string);
            ++tuned;
        }
        INFO(factor << ": " << tuned << " tuned, " << plucked << " plucked");
        CHECK(tuned <= 14);
        CHECK(plucked < 30);
        CHECK(exact.guitar.worst() < 2.5);
    }
}

TEST_CASE("a bridge that runs away when brought to pitch is not chased") {
    // With such springs a fifth softer it has no balance at pitch.
    Exact exact(example("seven-strings-two-scales"), 0.8);
    REQUIRE(rest_at_pitch(exact.guitar.assembly, exact.guitar.claw, exact.guitar.strung.angle_rad).at_stop());
    CHECK_FALSE(runs_to_stop(exact.report, exact.step, exact.pass));
    CHECK(exact.until_done().size() <= 3 * 7);
    CHECK(runs_to_stop(exact.report, exact.step, exact.pass));
    Exact stable(example("small-sag"), 0.8);
    stable.until_done();
    CHECK_FALSE(runs_to_stop(stable.report, stable.step, stable.pass));
}

TEST_CASE("one value far off the others hardly moves the aims") {
    Exact exact(example("small-sag"), 0.8);
    for (int tuned = 0; tuned < 4; ++tuned)
        exact.tune(aims_by_ear(exact.report, exact.step, exact.pass).front());
    const std::vector<Aim> right = aims_by_ear(exact.report, exact.step, exact.pass);
    *exact.pass[2].shown_cents[5] += 12.0;
    const std::vector<Aim> doubted = aims_by_ear(exact.report, exact.step, exact.pass);
    REQUIRE(doubted.size() >= 2);
    for (std::size_t i = 0; i < 2; ++i) {
        CHECK(doubted[i].string == right[i].string);
        CHECK(std::abs(doubted[i].cents - right[i].cents) < 1.0);
    }
}

TEST_CASE("a string that nobody heard since it was tuned does not count as done") {
    Exact exact(example("small-sag"));
    const int last = exact.until_done().back();
    CHECK(aims_by_ear(exact.report, exact.step, exact.pass).empty());
    exact.pass.back().shown_cents[static_cast<std::size_t>(6 - last)].reset();
    const std::vector<Aim> left = aims_by_ear(exact.report, exact.step, exact.pass);
    REQUIRE(left.size() == 1);
    CHECK(left[0].string == last);
    exact.hear(0);
    CHECK(aims_by_ear(exact.report, exact.step, exact.pass).empty());
}

TEST_CASE("nothing heard at all, and nonsense, are met with the aims that are left") {
    const Exact exact(example("small-sag"));
    const std::vector<std::optional<double>> nothing(6), nonsense(6, std::nan("")), far(6, 5000.0);
    for (const auto& shown : {nothing, nonsense, far, {}}) {
        const std::vector<Aim> aims =
            aims_by_ear(exact.report, exact.step, {{0, shown}, {6, shown}, {99, shown}, {-3, shown}});
        REQUIRE(!aims.empty());
        for (const Aim& aim : aims) {
            CHECK(std::isfinite(aim.cents));
            CHECK(std::abs(aim.cents) <= most_aim_cents);
        }
        CHECK(expected_by_ear(exact.report, exact.step, {{0, shown}}).size() == 6);
    }
    std::vector<HeardInPass> endless(200, exact.pass.front());
    for (std::size_t k = 1; k < endless.size(); ++k)
        endless[k].tuned = 1 + static_cast<int>(k % 6);
    CHECK(!aims_by_ear(exact.report, exact.step, endless).empty());
}

TEST_CASE("while a wedge holds the tail each string is tuned once, as the step says") {
    const Exact exact(example("small-sag"));
    Step wedged = exact.step;
    wedged.wedged = true;
    for (Aim& aim : wedged.aims)
        aim.cents = 0.0;
    std::vector<HeardInPass> pass = {{0, {-40.0, -30.0, 0.5, -20.0, -20.0, -10.0}}};
    pass.push_back({6, {0.4, -30.0, 0.5, -20.0, -20.0, -10.0}});
    const std::vector<Aim> left = aims_by_ear(exact.report, wedged, pass);
    REQUIRE(left.size() == 4); // the sixth was tuned, the fourth stands there
    CHECK(left[0].string == 5);
    CHECK(left[1].string == 3);
    for (const Aim& aim : left)
        CHECK(aim.cents == 0.0);
}

TEST_CASE("strings brought up from slack are aimed sharp, within what is asked of anyone, and each once") {
    const Report report = answered(change_called("one set heavier").setup);
    for (const Step& step : steps(report, Way{false, false})) {
        if (step.kind != StepKind::tune || step.how != TuneHow::rough)
            continue;
        const std::vector<Aim> aims = aims_by_ear(report, step, {{0, Heard(6)}});
        REQUIRE(aims.size() == 6);
        CHECK(aims.front().string == 6);
        CHECK(aims.front().cents == Approx(most_aim_cents));
        for (const Aim& aim : aims) {
            CHECK(aim.cents >= 0.0);
            CHECK(aim.cents <= most_aim_cents);
        }
        CHECK(aims_by_ear(report, step, {{0, Heard(6)}, {6, Heard(6)}}).size() == 5);
        return;
    }
    FAIL("no string is brought up");
}

TEST_CASE(
    "strings that are a few cents off are tuned by ear too, and those that stand there are left alone") {
    Exact exact(change_called("small correction").setup);
    exact.step.how = TuneHow::plain;
    for (Aim& aim : exact.step.aims)
        aim.cents = 0.0;
    exact.until_done(); // in tune
    const std::vector<double> off = {9.0, 0.0, -7.0, 0.0, 0.0, 4.0};
    for (std::size_t i = 0; i < off.size(); ++i) { // set off, each for itself
        const double per_cent = -exact.guitar.strung.lengths_m[i] * 6e-6;
        exact.guitar.strung.lengths_m[i] += per_cent * off[i];
    }
    exact.guitar.strung = settled(exact.guitar.assembly, exact.guitar.claw, exact.guitar.strung);
    REQUIRE(exact.guitar.worst() > 5.0);
    exact.pass.clear();
    exact.hear(0);
    const std::vector<int> order = exact.until_done();
    INFO(order.size());
    CHECK(order.size() <= 5);
    CHECK(exact.guitar.worst() < 2.0);
}

TEST_CASE("seven strings on two scales are tuned by ear as well") {
    Exact exact(example("seven-strings-two-scales"), 1.2);
    const std::vector<int> order = exact.until_done();
    INFO(order.size());
    CHECK(order.size() >= 7);
    CHECK(order.size() <= 14);
    CHECK(exact.guitar.worst() < 2.0);
}

TEST_CASE("on the body no string moves another: each is brought to pitch once") {
    Setup setup = light_set_level();
    setup.next.rest = RestWanted::on_the_body;
    setup.next.tail_mm = setup.guitar.bridge.tail_limits_mm[0];
    const Report report = answered(setup);
    REQUIRE(report.tuning);
    const std::vector<Aim> aims =
        aims_by_ear(report, tune_step(report), {{0, {-40.0, -30.0, 20.0, -20.0, -20.0, -10.0}}});
    REQUIRE(aims.size() == 6);
    for (const Aim& aim : aims)
        CHECK(std::abs(aim.cents) < 0.5);
}

TEST_CASE("before anything was heard, what the sheet begins with is expected") {
    for (const char* name : {"small-sag", "lower-and-heavier"}) {
        const Exact exact(example(name));
        const std::vector<double> expected = expected_by_ear(exact.report, exact.step, {});
        REQUIRE(expected.size() == 6);
        INFO(name);
        if (exact.report.tuning->start == SheetStart::as_the_turn_leaves)
            for (std::size_t i = 0; i < 6; ++i)
                CHECK(expected[i] == Approx(*exact.pass[0].shown_cents[i]).margin(0.01));
    }
}

TEST_CASE("where one pass asks too much, the string with the furthest to go is tuned first") {
    int met = 0;
    for (const reference::Change& change : changes()) {
        const Exact exact(change.setup);
        if (!exact.report.tuning->why_gentler)
            continue;
        const Assembly& guitar = exact.guitar.assembly;
        const Rest end = rest_at_pitch(guitar, exact.guitar.claw, exact.guitar.strung.angle_rad);
        const std::vector<double> to_go =
            cents_shown(guitar, exact.guitar.strung.lengths_m, Attitude(end.angle_rad));
        const std::vector<Aim> aims = aims_by_ear(exact.report, exact.step, exact.pass);
        REQUIRE(aims.size() > 1);
        auto going = [&](const Aim& aim) {
            return std::abs(to_go[static_cast<std::size_t>(6 - aim.string)]);
        };
        INFO(change.name);
        for (std::size_t n = 1; n < aims.size(); ++n)
            CHECK(going(aims[n]) <= going(aims[n - 1]) + 1.0);
        ++met;
    }
    CHECK(met > 0);
}

TEST_CASE("what is expected next is what is heard next, once the springs are known") {
    Exact exact(example("small-sag"), 1.2);
    double worst = 0.0;
    for (int tuned = 0; tuned < 6; ++tuned) {
        const std::vector<double> expected = expected_by_ear(exact.report, exact.step, exact.pass);
        exact.tune(aims_by_ear(exact.report, exact.step, exact.pass).front());
        for (std::size_t i = 0; i < expected.size() && tuned > 0; ++i)
            worst = std::max(worst, std::abs(expected[i] - exact.guitar.cents()[i]));
    }
    CHECK(worst < 1.5);
}

TEST_CASE("turned until one string shows its cents, the others show theirs") {
    const Setup setup = example("small-sag");
    const Report report = answered(setup);
    const std::vector<Step> all = steps(report, Way{false, false});
    const auto turn = std::find_if(all.begin(), all.end(),
                                   [](const Step& step) { return step.kind == StepKind::turn_until; });
    REQUIRE(turn != all.end());
    const std::vector<double> shown = shown_when_turned(report, *turn);
    REQUIRE(shown.size() == 6);
    // The guitar as written, its claw turned in small steps until that string shows it.
    Problems problems;
    const Assembly now = assembly_of(setup, fitting_now(setup));
    const ClawSetting claw = claw_now(setup, now, problems).value();
    Strung strung;
    strung.angle_rad = angle_of_tail_rad(setup, setup.now.tail_mm);
    strung.lengths_m = lengths_at_pitch(now, Attitude(strung.angle_rad));
    const auto place = static_cast<std::size_t>(6 - turn->string);
    auto shown_at = [&](double turns) {
        const Strung there = settled(now, claw.turned(turns), strung);
        return cents_shown(now, there.lengths_m, Attitude(there.angle_rad));
    };
    double low = -1.0, high = 1.0;
    for (int i = 0; i < 60; ++i) {
        const double middle = 0.5 * (low + high);
        (shown_at(middle)[place] < turn->cents ? low : high) = middle;
    }
    for (std::size_t i = 0; i < shown.size(); ++i)
        CHECK(shown[i] == Approx(shown_at(low)[i]).margin(0.1));
    CHECK(shown_when_turned(report, all.front()).empty());
}
