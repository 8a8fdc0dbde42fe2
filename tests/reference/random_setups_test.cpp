// The report against the independent judge (independent_balance.h), on random set-ups and the examples.
#include "engine/say/refusal.h"
#include "engine/say/report_json.h"
#include "tests/reference/independent_balance.h"
#include "tests/reference/random_setup.h"
#include "tests/support.h"

#include <nlohmann/json.hpp>

#include <cstdlib>

using namespace counterpull::test;
using nlohmann::json;

namespace {

json report_of(const json& setup) {
    const counterpull::SetupRead read = counterpull::read_setup(setup.dump());
    if (!read.setup)
        FAIL(counterpull::first_message(read.problems, counterpull::english()));
    const counterpull::ReportResult result = counterpull::report(*read.setup);
    return result.report ? json::parse(counterpull::report_json(*result.report, counterpull::english()))
                         : json();
}

void compare_advice(const reference::Judge& judge, const json& setup, const json& report) {
    const double tail = setup["next"].value("tail_mm", 0.0);
    for (const json& advice : report["advice"]) {
        const auto turns = judge.turns_for(advice["springs"], tail);
        CHECK(turns.has_value() == advice["turns"].is_number());
        if (!turns || advice["turns"].is_null())
            continue;
        CHECK(advice["turns"].get<double>() == Approx(turns->turns).margin(0.001));
        if (advice["fits"].get<bool>())
            CHECK(turns->slope < 0.0);
    }
    const json& best = report["advice"][0];
    if (!best["fits"].get<bool>())
        return;
    const reference::Springs springs = judge.springs(best["springs"], best["turns"], judge.angle_rad(tail));
    for (std::size_t i = 0; i < springs.force_n.size(); ++i) {
        CHECK(report["next"]["springs"][i]["force_n"].get<double>() ==
              Approx(springs.force_n[i]).epsilon(1e-4));
        CHECK(report["next"]["springs"][i]["length_mm"].get<double>() ==
              Approx(springs.length_mm[i]).epsilon(1e-4));
    }
}

void compare(const json& setup, const json& report) {
    const reference::Judge judge(setup);
    const double now_tail = setup["now"]["tail_mm"];
    CHECK(report["now"]["tail_mm"].get<double>() == Approx(now_tail).margin(1e-6));
    if (setup["now"].value("in_tune", true)) {
        const reference::Strings now = judge.strings("now", judge.angle_rad(now_tail));
        for (std::size_t i = 0; i < now.tension_n.size(); ++i) {
            const json& string = report["now"]["strings"][i];
            CHECK(string["tension_n"].get<double>() == Approx(now.tension_n[i]).epsilon(1e-4));
            CHECK(string["strength_used"].get<double>() == Approx(now.strength_used[i]).epsilon(1e-4));
        }
    }
    const reference::Springs springs = judge.springs(setup["now"]["springs"], 0.0, judge.angle_rad(now_tail));
    for (std::size_t i = 0; i < springs.force_n.size(); ++i)
        CHECK(report["now"]["springs"][i]["force_n"].get<double>() ==
              Approx(springs.force_n[i]).epsilon(1e-4).margin(1e-3));
    const reference::Untouched alone = judge.untouched();
    CHECK(report["untouched"]["outcome"] == alone.outcome);
    CHECK(report["untouched"]["tail_mm"].get<double>() == Approx(alone.tail_mm).margin(0.002));
    if (report["untouched"]["per_turn_mm"].is_number())
        CHECK(report["untouched"]["per_turn_mm"].get<double>() == Approx(alone.per_turn_mm).epsilon(1e-3));
    compare_advice(judge, setup, report);
}

} // namespace

TEST_CASE("the examples agree with an independent solver") {
    for (const std::string& name : example_names()) {
        INFO(name);
        json setup = json::parse(example_text(name));
        setup["log"] = json::array(); // what readings teach is judged elsewhere (fit_test)
        compare(setup, report_of(setup));
    }
}

TEST_CASE("random set-ups agree with an independent solver within 1e-4, 0.002 mm and 0.001 turns") {
    const char* wanted = std::getenv("COUNTERPULL_RANDOM");
    const std::uint64_t count = wanted ? std::strtoull(wanted, nullptr, 10) : 150;
    std::uint64_t answered = 0;
    for (std::uint64_t seed = 0; seed < count; ++seed) {
        INFO("seed " << seed);
        const json setup = reference::random_setup(seed);
        const json report = report_of(setup);
        if (report.is_null())
            continue;
        ++answered;
        compare(setup, report);
    }
    CHECK(answered * 2 > count); // the others: springs that could not be open in tune
}
