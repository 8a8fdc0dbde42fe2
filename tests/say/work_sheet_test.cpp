#include "engine/say/work_sheet.h"
#include "tests/support.h"

#include <algorithm>
#include <cmath>

using namespace counterpull;
using namespace counterpull::test;

namespace {

std::vector<std::string> keys(const WorkSheet& sheet) {
    std::vector<std::string> all;
    for (const SheetStep& step : sheet.steps)
        all.push_back(step.text.key);
    return all;
}

bool has(const WorkSheet& sheet, const char* key) {
    const auto all = keys(sheet);
    return std::find(all.begin(), all.end(), key) != all.end();
}

std::size_t place(const WorkSheet& sheet, const char* key) {
    const auto all = keys(sheet);
    const auto at = std::find(all.begin(), all.end(), key);
    INFO(key);
    REQUIRE(at != all.end());
    return static_cast<std::size_t>(at - all.begin());
}

WorkSheet sheet_for(const std::string& name, SheetWay way) {
    return work_sheet(answered(example(name)), way);
}

} // namespace

TEST_CASE("strings come down before springs are touched, springs before screws, screws before tuning") {
    const WorkSheet sheet = sheet_for("lower-and-heavier", SheetWay::wedge);
    CHECK(place(sheet, "sheet.note") == 0);
    CHECK(place(sheet, "sheet.slacken_all") < place(sheet, "sheet.springs_on"));
    CHECK(place(sheet, "sheet.springs_on") < place(sheet, "sheet.loosen"));
    CHECK(place(sheet, "sheet.loosen") < place(sheet, "sheet.strings"));
    CHECK(place(sheet, "sheet.wedge_neck") < place(sheet, "sheet.tune_once"));
    CHECK(place(sheet, "sheet.tune_once") < place(sheet, "sheet.wedge_out"));
    CHECK(place(sheet, "sheet.wedge_out") < place(sheet, "sheet.ease"));
    CHECK(place(sheet, "sheet.ease") < place(sheet, "sheet.read_tail_wedged"));
    CHECK(place(sheet, "sheet.wait_new") < place(sheet, "sheet.lock"));
}

TEST_CASE("cautions stand at the step where they bite") {
    const WorkSheet sheet = sheet_for("lower-and-heavier", SheetWay::plain);
    auto cautions = [&](const char* step) {
        std::vector<std::string> all;
        for (const Phrase& phrase : sheet.steps[place(sheet, step)].cautions)
            all.push_back(phrase.key);
        return all;
    };
    CHECK(cautions("sheet.slacken_all") == std::vector<std::string>{"caution.eyes"});
    CHECK(cautions("sheet.springs_off") == std::vector<std::string>{"caution.spring", "caution.finish"});
    CHECK(cautions("sheet.loosen") == std::vector<std::string>{"caution.driver", "caution.strip"});
    CHECK_FALSE(has(sheet, "sheet.wedge_out"));
}

TEST_CASE("a mere correction asks for no new strings, no wedge and no moved springs") {
    const Setup setup = example("small-sag");
    const Report report = answered(setup);
    CHECK(usual_way(report) == SheetWay::plain);
    const WorkSheet sheet = work_sheet(report, SheetWay::plain);
    CHECK(sheet.buy.empty());
    for (const char* key : {"sheet.strings", "sheet.springs_on", "sheet.springs_off", "sheet.wait_new"})
        CHECK_FALSE(has(sheet, key));
    CHECK(has(sheet, "sheet.watch")); // the strings stay up for a quarter turn
    CHECK_FALSE(has(sheet, "sheet.slacken_little"));
    CHECK(has(sheet, "sheet.tune_aims"));
    CHECK(has(sheet, "sheet.before_retuning"));
}

TEST_CASE("more than half a turn is not made under full pull") {
    Setup setup = light_set_level();
    setup.now.tail_mm = -3.0;
    const Report report = answered(setup);
    REQUIRE(std::abs(*report.solution.advice[0].turns) > 0.5);
    const WorkSheet sheet = work_sheet(report, SheetWay::plain);
    CHECK(place(sheet, "sheet.slacken_little") < place(sheet, "sheet.loosen"));
    CHECK_FALSE(has(sheet, "sheet.watch"));
}

TEST_CASE("under way the sheet is for a correction: no strings to buy, no springs taken twice") {
    Setup setup = example("lower-and-heavier");
    const Report first = answered(setup);
    Reading reading;
    reading.springs = first.solution.advice[0].springs;
    reading.turns = {*first.solution.advice[0].turns, *first.solution.advice[0].turns};
    reading.tail_mm = 1.2;
    setup.log.push_back(reading);
    const WorkSheet sheet = work_sheet(answered(setup), SheetWay::plain);
    CHECK(sheet.buy.empty());
    CHECK_FALSE(has(sheet, "sheet.strings"));
    CHECK_FALSE(has(sheet, "sheet.springs_on"));
    CHECK(sheet.back.size() == 3); // all the way back, not only from the last step
}

TEST_CASE("the way back undoes the change") {
    const Setup setup = example("lower-and-heavier");
    const WorkSheet sheet = sheet_for("lower-and-heavier", SheetWay::plain);
    REQUIRE(sheet.back.size() == 3);
    CHECK(sheet.back[0].key == "sheet.back_tighten"); // the change loosens
    CHECK(english().say(sheet.back[1]).find("1, 3 and 5") != std::string::npos);
    CHECK(english().say(sheet.back[2]).find("E2 A2 D3 G3 B3 E4") != std::string::npos);
}

TEST_CASE("where nothing fits there are no steps, and the text of every other sheet is complete") {
    CHECK(sheet_for("cannot-float", SheetWay::plain).steps.empty());
    for (const std::string& name : example_names())
        for (const SheetWay way : {SheetWay::plain, SheetWay::wedge}) {
            const std::string text = sheet_text(sheet_for(name, way), english());
            INFO(name << "\n" << text);
            CHECK(text.find('{') == std::string::npos); // no value left open
            CHECK(text.find("sheet.") == std::string::npos);
        }
}
