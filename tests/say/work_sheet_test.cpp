#include "engine/base/embedded.h"
#include "engine/document/json_text.h"
#include "engine/document/presets.h"
#include "engine/say/work_sheet.h"
#include "tests/support.h"

#include <algorithm>
#include <cmath>

using namespace counterpull;
using namespace counterpull::test;

namespace {

constexpr Way plain{}, wedge{true, false}, test_first{false, true};

bool says(const std::vector<Phrase>& phrases, const std::string& key) {
    return std::any_of(phrases.begin(), phrases.end(), [&](const Phrase& p) { return p.key == key; });
}

// The step that says this; as many as there are steps where none does.
std::size_t at(const WorkSheet& sheet, const std::string& key) {
    std::size_t i = 0;
    while (i < sheet.steps.size() && !says(sheet.steps[i].text, key))
        ++i;
    return i;
}

bool has(const WorkSheet& sheet, const std::string& key) {
    return at(sheet, key) < sheet.steps.size();
}

std::size_t place(const WorkSheet& sheet, const std::string& key) {
    INFO(key);
    REQUIRE(has(sheet, key));
    return at(sheet, key);
}

std::vector<std::string> cautions(const WorkSheet& sheet, const std::string& step) {
    std::vector<std::string> all;
    for (const Phrase& phrase : sheet.steps[place(sheet, step)].cautions)
        all.push_back(phrase.key);
    return all;
}

WorkSheet sheet_for(const std::string& name, Way way) {
    return work_sheet(answered(example(name)), way);
}

// On the springs chosen, which are more than are fitted.
Setup with_a_spring_more() {
    Setup setup = example("lower-and-heavier");
    setup.next.springs = {{{0, 0, {}}, {1, 1, {}}, {3, 3, {}}, {4, 4, {}}}};
    return setup;
}

// Drop D on the light set.
Setup drop_d() {
    Setup setup = light_set_level();
    setup.next.tuning = test::notes_of("D2 A2 D3 G3 B3 E4");
    return setup;
}

// A first turn made and read in tune.
Setup under_way(double turned, double tail_mm) {
    Setup setup = example("lower-and-heavier");
    Reading reading;
    reading.springs = answered(setup).solution.advice[0].springs;
    reading.turns = {turned, turned};
    reading.tail_mm = tail_mm;
    setup.log.push_back(reading);
    return setup;
}

std::string english_text(const WorkSheet& sheet) {
    return sheet_text(sheet, english());
}

} // namespace

TEST_CASE("strings come down before springs are touched, springs before screws, screws before tuning") {
    const WorkSheet sheet = work_sheet(answered(with_a_spring_more()), wedge);
    CHECK(place(sheet, "sheet.note") == 0);
    CHECK(place(sheet, "sheet.slacken_all") < place(sheet, "sheet.springs_on"));
    CHECK(place(sheet, "sheet.springs_on") < place(sheet, "sheet.loosen"));
    CHECK(place(sheet, "sheet.loosen") < place(sheet, "sheet.strings"));
    CHECK(place(sheet, "sheet.strings") < place(sheet, "sheet.wedge_in"));
    CHECK(place(sheet, "sheet.wedge_in") < place(sheet, "sheet.tune_once"));
    CHECK(place(sheet, "sheet.tune_once") < place(sheet, "sheet.wedge_out"));
    CHECK(place(sheet, "sheet.wedge_out") < place(sheet, "sheet.ease"));
    CHECK(place(sheet, "sheet.ease") < place(sheet, "sheet.read_tail_wedged"));
    CHECK(place(sheet, "sheet.read_tail_wedged") < place(sheet, "sheet.wait_new"));
}

TEST_CASE("cautions stand at the step where they bite") {
    const WorkSheet sheet = work_sheet(answered(with_a_spring_more()), wedge);
    using Keys = std::vector<std::string>;
    CHECK(cautions(sheet, "sheet.slacken_all") == Keys{"caution.eyes", "caution.jump"});
    CHECK(cautions(sheet, "sheet.springs_off") == Keys{"caution.spring", "caution.finish"});
    CHECK(cautions(sheet, "sheet.loosen") == Keys{"caution.driver", "caution.strip"});
    CHECK(cautions(sheet, "sheet.tune_once") == Keys{"caution.wedge_loose"});
    CHECK(cautions(sheet, "sheet.wedge_out") == Keys{"caution.held"});
    CHECK_FALSE(has(sheet_for("lower-and-heavier", plain), "sheet.wedge_out"));
}

TEST_CASE("a mere correction asks for no new strings, no wedge and no moved springs") {
    const Report report = answered(example("small-sag"));
    CHECK_FALSE(usual_way(report).wedge);
    const WorkSheet sheet = work_sheet(report, plain);
    CHECK(sheet.at_hand.size() == 1);
    CHECK(says(sheet.at_hand, "sheet.hand_tools"));
    for (const char* key : {"sheet.strings", "sheet.springs_on", "sheet.springs_off", "sheet.wait_new"})
        CHECK_FALSE(has(sheet, key));
    CHECK(has(sheet, "sheet.watch")); // the strings stay up for a quarter turn
    CHECK_FALSE(has(sheet, "sheet.slacken_all"));
    CHECK(has(sheet, "sheet.tune_aims"));
    CHECK(has(sheet, "sheet.before_retuning"));
    const auto told = cautions(sheet, "sheet.watch");
    CHECK(std::find(told.begin(), told.end(), "caution.held") != told.end()); // the tuner decides
}

TEST_CASE("screws are not tightened by more than half a turn under full pull") {
    Setup setup = light_set_level();
    setup.now.tail_mm = 3.0;
    const Report report = answered(setup);
    REQUIRE(*report.solution.advice[0].turns > 0.5);
    const WorkSheet sheet = work_sheet(report, plain);
    CHECK(place(sheet, "sheet.slacken_all") < place(sheet, "sheet.tighten"));
    CHECK_FALSE(has(sheet, "sheet.watch"));
}

TEST_CASE("where a test reading saves work the sheet begins with it: the A down to G and back") {
    Setup setup = light_set_level();
    for (const BridgePreset& preset : presets().bridges)
        if (preset.number == 4)
            setup.guitar.bridge = preset.bridge;
    setup.now.strings = setup.next.strings = set_of("46w 36w 26w 17 13 10");
    setup.next.tuning = notes_of("Eb2 Ab2 Db3 Gb3 Bb3 Eb4");
    const Report report = answered(setup);
    const Way way = usual_way(report, false);
    REQUIRE(way.test);
    const WorkSheet sheet = work_sheet(report, way);
    REQUIRE(place(sheet, "sheet.test_drop") == 1); // before anything is touched
    const std::string said = sheet.steps[1].said(english());
    INFO(said);
    CHECK(said.find("tune string 5 from A2 down to G2, read the others, tune it back") != std::string::npos);
    const auto told = cautions(sheet, "sheet.test_drop");
    CHECK(told == std::vector<std::string>{"caution.held"});
    CHECK_FALSE(has(work_sheet(report, plain), "sheet.test_drop"));
    CHECK_FALSE(usual_way(answered(drop_d()), false).test); // four minutes that would not come back
}

TEST_CASE("the weight of the bridge alone shifts the low string by about ten cents") {
    // A bridge of 0.4 kg whose mass lies about 12 mm behind its pivot (from memory), turned face down.
    Setup setup = light_set_level();
    const Assembly held = assembly_of(setup, fitting_now(setup));
    Problems problems;
    const auto claw = claw_now(setup, held, problems);
    REQUIRE(claw);
    const StringLengths lengths = lengths_at_pitch(held, Attitude(0.0));
    setup.guitar.held = Held::on_its_back;
    setup.guitar.bridge.mass_g = 400.0;
    setup.guitar.bridge.mass_setback_mm = 12.0;
    const Assembly turned = assembly_of(setup, fitting_now(setup));
    const Rest rest = rest_free(turned, lengths, *claw, 0.0);
    const double cents = std::abs(cents_shown(turned, lengths, Attitude(rest.angle_rad))[0]);
    CHECK(cents > 5.0);
    CHECK(cents < 15.0);
}

TEST_CASE("a nut with clamps is opened before strings come down and clamped last") {
    Setup setup = example("lower-and-heavier");
    setup.guitar.nut_clamps = true;
    for (const Way way : {plain, wedge}) {
        const WorkSheet sheet = work_sheet(answered(setup), way);
        CHECK(place(sheet, "sheet.open_nut") < place(sheet, "sheet.slacken_all"));
        CHECK(place(sheet, "sheet.close_nut") > place(sheet, "sheet.wait_new"));
        CHECK(english_text(sheet).find("fine tuners to mid-travel") != std::string::npos);
    }
}

TEST_CASE("a guitar without clamps hears nothing of clamps and fine tuners") {
    for (const std::string& name : example_names()) {
        const Setup setup = example(name);
        if (nut_has_clamps(setup.guitar))
            continue;
        for (const Way way : {plain, wedge, test_first}) {
            const std::string text = english_text(work_sheet(answered(setup), way));
            CHECK(text.find("lamps") == std::string::npos);
            CHECK(text.find("fine tuner") == std::string::npos);
        }
    }
}

TEST_CASE("new strings cannot be had with the nut clamped, and half a tone can") {
    Setup setup = example("lower-and-heavier");
    setup.guitar.nut_locked = true;
    Report report = answered(setup);
    CHECK(warns(report, WarningKind::nut_locked));
    CHECK(cautions(work_sheet(report, plain), "sheet.open_nut") == std::vector<std::string>{"caution.nut"});
    setup = example("small-sag");
    setup.guitar.nut_locked = true;
    report = answered(setup);
    CHECK_FALSE(warns(report, WarningKind::nut_locked));
    CHECK_FALSE(has(work_sheet(report, plain), "sheet.open_nut")); // it stays clamped
    setup = drop_d();
    setup.guitar.nut_locked = true;
    CHECK(warns(answered(setup), WarningKind::nut_locked)); // a whole tone on one string
    setup.next.tuning = test::notes_of("Eb2 Ab2 Db3 Gb3 Bb3 Eb4");
    CHECK_FALSE(warns(answered(setup), WarningKind::nut_locked));
}

TEST_CASE(
    "with the wedge the screws go further than the answer says, and the sheet says by how much and why") {
    const Report report = answered(example("lower-and-heavier"));
    REQUIRE(report.wedge);
    const WorkSheet sheet = work_sheet(report, wedge);
    const SheetStep& turn = sheet.steps[place(sheet, "sheet.loosen")];
    const std::string said = turn.said(english());
    INFO(said);
    CHECK(said.find(english().say(Turns{report.wedge->turns})) != std::string::npos);
    const std::string answer = english().say(Turns{*report.solution.advised().turns});
    CHECK(said.find("That is " + answer + " looser as the answer says") != std::string::npos);
    const std::string surplus = english().say(Turns{report.wedge->surplus_turns});
    CHECK(said.find(surplus + " tighter for the wedge, to be loosened once it is out") != std::string::npos);
    const WorkSheet without = work_sheet(report, plain);
    CHECK(without.steps[place(without, "sheet.loosen")].text.size() == 1);
}

TEST_CASE("under way the sheet is for a correction: no strings to buy, no springs taken twice") {
    const Setup setup = under_way(*answered(example("lower-and-heavier")).solution.advice[0].turns, 1.2);
    const WorkSheet sheet = work_sheet(answered(setup), plain);
    CHECK_FALSE(says(sheet.at_hand, "sheet.buy_strings"));
    CHECK_FALSE(has(sheet, "sheet.strings"));
    CHECK_FALSE(has(sheet, "sheet.springs_on"));
    const std::string first = sheet.steps[0].said(english());
    CHECK(first.find("tail +1.2 mm at the last reading") != std::string::npos);
}

TEST_CASE("the way back undoes the change") {
    const WorkSheet sheet = work_sheet(answered(with_a_spring_more()), plain);
    REQUIRE(sheet.back.size() == 3);
    CHECK(sheet.back[0].key == "sheet.back_tighten"); // the change loosens
    CHECK(english().say(sheet.back[1]).find("1, 3 and 5") != std::string::npos);
    CHECK(english().say(sheet.back[2]).find("E2 A2 D3 G3 B3 E4") != std::string::npos);
}

TEST_CASE("the way back counts what was really turned, not what was advised") {
    Setup setup = under_way(-0.6, 1.2);
    setup.log[0].turns = {-0.5, -0.7};
    const WorkSheet sheet = work_sheet(answered(setup), plain);
    REQUIRE(sheet.back.size() == 2);
    CHECK(english().say(sheet.back[0]).find("bass −0.50, treble −0.70") != std::string::npos);
}

TEST_CASE("no sheet asks for a part of a turn that no hand makes, whatever the springs are") {
    for (const double tail_mm : {-1.5, -0.5, -0.35})
        for (const double rate : {1.2, 2.4, 4.8}) {
            Setup setup = light_set_level();
            setup.now.tail_mm = tail_mm;
            setup.guitar.spring.rate_n_mm = rate;
            const Report report = answered(setup);
            for (const Way way : {plain, wedge}) {
                const std::string text = english_text(work_sheet(report, way));
                INFO(text);
                for (const char* fine : {" 0 turns", "(0.00", "(0.01", "(0.02", "(0.03", "(0.04", "(0.05"})
                    CHECK(text.find(fine) == std::string::npos);
            }
        }
}

TEST_CASE("turns are told as a hand makes them: by halves, at once, or a touch") {
    const Report report = answered(light_set_level());
    for (const auto& [turns, key] : {std::pair(0.8, "sheet.tighten"),
                                     {0.55, "sheet.tighten_once"},
                                     {1.0 / 16.0, "sheet.tighten_once"},
                                     {0.06, "sheet.tighten_touch"},
                                     {-0.05, "sheet.loosen_touch"},
                                     {-0.5, "sheet.loosen_once"},
                                     {-0.6, "sheet.loosen"}}) {
        INFO(turns);
        Step step;
        step.kind = StepKind::turn;
        step.turns = {turns, turns};
        const SheetStep told = sentences_of(report, {step}, 0);
        CHECK(told.text.front().key == key);
        const std::string said = told.said(english());
        CHECK((said.find("half a turn at a time") != std::string::npos) == (std::abs(turns) > 0.5625));
        CHECK(said.find(" 0 turns") == std::string::npos);
    }
}

TEST_CASE("a spread wider than the travel is not told in millimetres") {
    Setup setup = example("lower-and-heavier");
    setup.next.springs = {{{0, 0, {}}, {4, 4, {}}}};
    const Report report = answered(setup);
    REQUIRE(report.solution.advised().fits());
    REQUIRE(report.solution.advised().measure_first);
    const WorkSheet sheet = work_sheet(report, plain);
    const std::string said = sheet.steps[place(sheet, "sheet.read_tail_anywhere")].said(english());
    CHECK(said.find("anywhere between its stops") != std::string::npos);
    CHECK(said.find("give or take") == std::string::npos);
}

TEST_CASE("what must be bought is on the list of what to have at hand") {
    const WorkSheet sheet = work_sheet(answered(with_a_spring_more()), wedge);
    CHECK(says(sheet.at_hand, "sheet.buy_strings"));
    CHECK(says(sheet.at_hand, "sheet.hand_wedge"));
    CHECK(says(sheet.at_hand, "sheet.hand_springs"));
    CHECK_FALSE(says(sheet.at_hand, "sheet.buy_springs"));
    Setup setup = with_a_spring_more();
    setup.guitar.springs_owned = 3;
    const WorkSheet short_of_one = work_sheet(answered(setup), wedge);
    REQUIRE(says(short_of_one.at_hand, "sheet.buy_springs"));
    CHECK(english().say(short_of_one.at_hand[0]) == "to buy: one spring like the others");
}

TEST_CASE("where nothing fits there are no steps, and the text of every other sheet is complete") {
    CHECK(sheet_for("cannot-float", plain).steps.empty());
    for (const std::string& name : example_names())
        for (const Way way : {plain, wedge, test_first})
            for (const Language& language : languages()) {
                const std::string text = sheet_text(sheet_for(name, way), Words(language.code));
                INFO(name << "\n" << text);
                CHECK(text.find('{') == std::string::npos); // no value left open
                CHECK(text.find("sheet.") == std::string::npos);
            }
}

TEST_CASE("for paper the sheet tells hooks and holes before and after, both sets, and what is read") {
    const Report report = answered(with_a_spring_more());
    const auto page = Json::parse(sheet_json(report, work_sheet(report, plain), english()));
    CHECK(page["hooks"]["now"].size() == report.setup().now.springs.size());
    CHECK(page["hooks"]["next"] == Json::parse("[[0, 0], [1, 1], [3, 3], [4, 4]]"));
    CHECK(page["hooks"]["hook_mm"].size() == report.setup().guitar.bay.hook_mm.size());
    REQUIRE(page["strung"].size() == 2);
    CHECK(page["strung"][1].get<std::string>().find("w") != std::string::npos);
    CHECK(page["readings"]["heads"].size() == 2 + report.setup().next.strings.size());
}
