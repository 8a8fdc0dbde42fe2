#include "engine/advice/report.h"
#include "engine/say/report_json.h"
#include "tests/support.h"

#include <nlohmann/json.hpp>

using namespace counterpull;
using namespace counterpull::test;
using nlohmann::json;

namespace {

json report_of(const Setup& setup) {
    return json::parse(report_json(answered(setup), english()));
}

void nine_digits_throughout(const json& value) {
    if (value.is_structured())
        for (const json& item : value)
            nine_digits_throughout(item);
    if (!value.is_number_float())
        return;
    std::string digits = value.dump();
    digits.resize(std::min(digits.find('e'), digits.size()));
    std::erase_if(digits, [](char c) { return c < '0' || c > '9'; });
    digits.erase(0, std::min(digits.find_first_not_of('0'), digits.size()));
    INFO(value.dump());
    CHECK(digits.size() <= 10); // nine, or nine and the 0 of "…0.0"
}

} // namespace

TEST_CASE("the report has the contract's parts") {
    for (const std::string& name : example_names()) {
        INFO(name);
        const Setup setup = example(name);
        const json report = report_of(setup);
        CHECK(report.at("format") == "counterpull-report/1");
        for (const char* state : {"now", "next"}) {
            const json& part = report.at(state);
            if (part.is_null())
                continue;
            CHECK(part.at("strings").size() == setup.next.strings.size());
            for (const json& string : part["strings"])
                for (const char* key : {"pitch_hz", "tension_n", "strength_used"})
                    CHECK(string.contains(key));
            for (const json& spring : part.at("springs"))
                for (const char* key : {"force_n", "length_mm"})
                    CHECK(spring.at(key).is_number());
            for (const char* key : {"total_tension_n", "angle_deg", "tail_mm"})
                CHECK(part.contains(key));
        }
        for (const char* key : {"outcome", "angle_deg", "tail_mm", "per_turn_mm"})
            CHECK(report.at("untouched").contains(key));
        CHECK_FALSE(report.at("advice").empty());
        for (const json& advice : report["advice"]) {
            for (const char* key : {"springs", "turns", "turns_sigma", "more_turns", "fits", "reasons"})
                CHECK(advice.contains(key));
            CHECK_FALSE(advice["reasons"].empty());
        }
        CHECK(report.at("next").is_null() == !report["advice"][0]["fits"].get<bool>());
        CHECK(report.at("tuning_sheet").is_null() == report.at("next").is_null());
        if (!report["tuning_sheet"].is_null()) {
            CHECK(report["tuning_sheet"].at("aim_cents").size() == setup.next.strings.size());
            CHECK(report["tuning_sheet"].contains("start"));
            CHECK(report["tuning_sheet"].contains("plain_passes"));
        }
        for (const char* key : {"rate_n_mm", "saddle_height_mm", "block_depth_mm", "screw_pitch_mm"}) {
            CHECK(report.at("fitted").at(key).at("value").is_number());
            CHECK(report["fitted"][key].at("sigma").get<double>() > 0.0);
        }
        CHECK(report.at("warnings").is_array());
        nine_digits_throughout(report);
    }
}

TEST_CASE("left alone, nothing changed stays where it is") {
    Setup setup = example("small-sag");
    const json report = report_of(setup);
    CHECK(report["untouched"]["outcome"] == "floats");
    CHECK(report["untouched"]["tail_mm"].get<double>() == Approx(-1.5).margin(1e-6));
    CHECK(report["untouched"]["per_turn_mm"].get<double>() < 0.0);
}

TEST_CASE("at a stop there is no millimetre per turn") {
    const json report = report_of(example("cannot-float"));
    CHECK(report["untouched"]["outcome"] == "tail up stop");
    CHECK(report["untouched"]["tail_mm"].get<double>() == Approx(18.0));
    CHECK(report["untouched"]["per_turn_mm"].is_null());
}

TEST_CASE("with the strings off their pull is not known") {
    const json report = report_of(example("strings-are-off"));
    CHECK(report["now"]["total_tension_n"].is_null());
    for (const json& string : report["now"]["strings"])
        CHECK(string["tension_n"].is_null());
    CHECK(report["now"]["springs"][0]["length_mm"].get<double>() == Approx(71.0).margin(1e-5));
    CHECK(report["next"]["total_tension_n"].is_number());
}

TEST_CASE("more turns are the advised less those made at the last reading") {
    const json report = report_of(example("three-readings-in"));
    for (const json& advice : report["advice"])
        CHECK(advice["more_turns"].get<double>() == Approx(advice["turns"].get<double>() + 0.75));
}

TEST_CASE("a string near its breaking load is warned of") {
    Setup setup = light_set_level();
    setup.next.tuning[5] = *parse_pitch("G#4"); // a nine, four semitones up
    const Report report = answered(setup);
    bool warned = false;
    for (const Warning& warning : report.warnings)
        warned = warned || (warning.kind == WarningKind::strength && warning.string == 1);
    CHECK(warned);
}

TEST_CASE("a bridge that is in tune only because nobody retunes it is told") {
    // Two soft springs against a heavy set: it stands, but retuning runs away.
    Setup setup = light_set_level();
    setup.now.strings = setup.next.strings = set_of("56w 45w 35w 26w 17 13");
    setup.now.springs = {{1, 1, {}}, {3, 3, {}}};
    setup.guitar.spring.rate_n_mm = 1.5;
    const Report report = answered(setup);
    CHECK(report.untouched.outcome == RestKind::floats);
    CHECK_FALSE(report.untouched.per_turn_mm);
    CHECK(warns(report, WarningKind::unstable_now));
    CHECK(advice_on(report, setup.now.springs).hindrances.unstable);
}

TEST_CASE("the same set-up always gives the same report") {
    const Setup setup = example("lower-and-heavier");
    CHECK(report_json(answered(setup), english()) == report_json(answered(setup), english()));
}
