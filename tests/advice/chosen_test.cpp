// Springs that the player has taken instead of those recommended (next.springs).
#include "engine/base/format.h"
#include "engine/document/link.h"
#include "engine/say/answer.h"
#include "engine/say/report_json.h"
#include "engine/say/report_text.h"
#include "engine/say/whatif_json.h"
#include "engine/say/work_sheet.h"
#include "tests/support.h"

#include <nlohmann/json.hpp>

#include <algorithm>

using namespace counterpull;
using namespace counterpull::test;
using nlohmann::json;

namespace {

const Arrangement three = {{0, 0, {}}, {2, 2, {}}, {4, 4, {}}};
const Arrangement four = {{0, 0, {}}, {1, 1, {}}, {3, 3, {}}, {4, 4, {}}};

Setup with(Setup setup, const Arrangement& springs) {
    setup.next.springs = springs;
    return setup;
}

// From 9-42 to 10-56, with springs enough: five are less work than the three that there are.
Setup much_heavier() {
    Setup setup = light_set_level();
    setup.next.strings = set_of("56w 42w 30w 17 13 10");
    return setup;
}

bool tells(const Report& report, const char* key) {
    const std::vector<Phrase> details = answer_details(report);
    return std::any_of(details.begin(), details.end(), [&](const Phrase& said) { return said.key == key; });
}

// What is said and worked out of the springs advised, without the list of all.
json what_follows(const Report& report) {
    json all = json::parse(report_json(report, english()));
    json followed;
    for (const char* key : {"next", "tuning_sheet", "test_reading", "warnings", "instead"})
        followed[key] = all.at(key);
    followed["answer"] = answer_text(report, english());
    for (const Way way : {Way{true, false}, Way{false, false}})
        followed["sheets"].push_back(sheet_text(work_sheet(report, way), english()));
    json effects = json::parse(whatif_json(whatif(report.solution)));
    effects.erase("two_tunings"); // compares all springs there are
    followed["whatif"] = effects;
    return followed;
}

} // namespace

TEST_CASE("springs taken are advised, and answer, sheets, aims and what-ifs are as if there were no others") {
    Setup setup = much_heavier();
    const Report left = answered(setup);
    REQUIRE(left.solution.advised().springs.size() > three.size());
    REQUIRE(left.solution.advised().fits());
    const Report taken = answered(with(setup, three));
    CHECK(taken.solution.advised().springs == three);
    CHECK(taken.solution.advised().chosen);
    REQUIRE(taken.solution.advised().fits());
    CHECK(taken.carried_out.placed == three);
    // With three springs and no more, those are the only ones that can be recommended.
    setup.guitar.springs_owned = 3;
    const Report forced = answered(setup);
    REQUIRE(forced.solution.advised().springs == three);
    CHECK(what_follows(taken) == what_follows(forced));
    CHECK(what_follows(taken) != what_follows(left));
}

TEST_CASE("what is recommended stays so beside the player's choice, and stands first without one") {
    for (const std::string& name : example_names()) {
        INFO(name);
        const Setup setup = example(name);
        const Report left = answered(setup);
        CHECK(&left.solution.recommended() == &left.solution.advised());
        const Report taken = answered(with(setup, four));
        CHECK(taken.solution.advised().springs == four);
        CHECK(taken.solution.recommended().springs == left.solution.advised().springs);
        const auto& advice = taken.solution.advice;
        CHECK(std::count_if(advice.begin(), advice.end(), [](const Advice& a) { return a.recommended; }) ==
              1);
        CHECK(std::count_if(advice.begin(), advice.end(), [](const Advice& a) { return a.chosen; }) == 1);
        const auto told = told_choices(taken);
        CHECK(std::find(told.begin(), told.end(), &taken.solution.recommended()) != told.end());
    }
}

TEST_CASE("springs taken that do not fit: the answer says why, and what is recommended instead") {
    // One spring against six strings: the thread is far too short.
    const Report report = answered(with(example("small-sag"), {{2, 2, {}}}));
    CHECK_FALSE(report.solution.advised().fits());
    CHECK_FALSE(report.next);
    CHECK_FALSE(report.tuning);
    CHECK_FALSE(report.wedge);
    CHECK(report.instead.empty()); // it floats as it is, on other springs
    CHECK(english().say(answer_sentence(report)).starts_with("It does not work on the springs you chose: "));
    CHECK(tells(report, "answer.recommended"));
    const std::string text = report_text(report, english());
    CHECK(text.find("Recommended instead: 3 on hooks 1, 3 and 5; ¼ turn, looser (0.28 ± ") !=
          std::string::npos);
    CHECK(text.find("chosen by you; ") != std::string::npos);
    CHECK(json::parse(report_json(report, english())).at("next").is_null());
    CHECK(work_sheet(report, {}).steps.empty());
    CHECK_FALSE(whatif_json(whatif(report.solution)).empty());
}

TEST_CASE("springs taken that are yet to be bought are told so, not that it cannot float") {
    Setup setup = example("small-sag");
    setup.guitar.springs_owned = 3;
    const Report report = answered(with(setup, four));
    CHECK(report.solution.advised().only_springs_missing());
    CHECK(english().say(answer_sentence(report)) ==
          "It does not work on the springs you chose: needs four springs; three are there.");
    CHECK(tells(report, "answer.recommended"));
}

TEST_CASE("where nothing fits, what would work instead is told with a choice as without") {
    const Setup setup = example("cannot-float");
    const Report left = answered(setup), taken = answered(with(setup, {{1, 1, {}}, {3, 3, {}}}));
    REQUIRE_FALSE(left.instead.empty());
    CHECK(taken.instead.size() == left.instead.size());
    CHECK_FALSE(tells(taken, "answer.recommended"));
}

TEST_CASE("springs led across are taken as any") {
    const Arrangement across = {{0, 1, {}}, {2, 2, {}}, {4, 3, {}}};
    const Report report = answered(with(example("small-sag"), across));
    CHECK(report.solution.advised().springs == across);
    CHECK(report.solution.advised().fits());
    CHECK(report.carried_out.placed == across);
    CHECK(english().say(choice_of(report.solution.advised().springs)) ==
          "3 on hooks 1, 3 and 5, holes 2, 3 and 4");
}

TEST_CASE("a hook or a hole taken twice is refused where it stands") {
    json document = json::parse(example_text("small-sag"));
    document["next"]["springs"] = {{{"hook", 0}, {"hole", 0}}, {{"hook", 0}, {"hole", 1}}};
    CHECK(refusals(document.dump()) ==
          std::vector<std::string>{"next.springs[1].hook: 0 is taken by another spring"});
}

TEST_CASE("a link carries the springs taken") {
    const Setup setup = with(example("small-sag"), {{0, 1, {}}, {2, 2, {}}, {4, 3, {}}});
    const SetupRead back = open_link(link_of(setup));
    REQUIRE(back.setup);
    CHECK(*back.setup == setup);
}

TEST_CASE("the time is told as people tell it") {
    const Words german("de");
    auto said = [](double minutes) { return english().say(time_in_words(minutes)); };
    CHECK(said(1) == "about 5 minutes");
    CHECK(said(26) == "about 25 minutes");
    CHECK(said(28) == "about half an hour");
    CHECK(said(38) == "about 40 minutes");
    CHECK(said(57) == "about an hour");
    CHECK(said(80) == "about an hour and a half");
    CHECK(said(119) == "about two hours");
    CHECK(said(190) == "about three hours");
    CHECK(said(1e6) == "over three hours");
    CHECK(german.say(time_in_words(38)) == "etwa 40 Minuten");
    CHECK(german.say(time_in_words(34)) == "etwa eine halbe Stunde");
    CHECK(german.say(time_in_words(95)) == "etwa anderthalb Stunden");
}

TEST_CASE("how the arm will feel is told against now, with a share where it differs") {
    // Nothing changes: it feels the same. Each spring more stiffens it, each less softens it.
    const Report same = answered(light_set_level());
    CHECK(*same.solution.arm_now_nm_per_rad == Approx(same.solution.advised().arm_nm_per_rad));
    auto feel = [](const Report& report, const Arrangement& springs) {
        for (const Phrase& note : outlook_of(report, advice_on(report, springs)))
            if (note.key.starts_with("choice.arm"))
                return english().say(note);
        return std::string();
    };
    CHECK(feel(same, three) == "the arm will feel about as now");
    CHECK(feel(same, four).ends_with(" % stiffer than now"));
    CHECK(feel(same, {{0, 0, {}}, {4, 4, {}}}).ends_with(" % softer than now"));
    CHECK_FALSE(answered(example("strings-are-off")).solution.arm_now_nm_per_rad);
}

TEST_CASE("the list counts turns from where the screws stand, as the answer does") {
    const Report report = answered(example("three-readings-in"));
    const Advice& advised = report.solution.advised();
    REQUIRE(std::abs(*advised.turns) > 0.25); // from the start
    CHECK(english().say(answer_sentence(report)).find("leave the springs and the claw") != std::string::npos);
    CHECK(english().say(turns_of(report, advised)).starts_with("no turn (±"));
    for (const Advice& advice : report.solution.advice) {
        if (!advice.turns)
            continue;
        const double more = *advice.turns - report.solution.turns_made();
        const std::string said = english().say(turns_of(report, advice));
        INFO(said);
        CHECK((said.find("tighter") != std::string::npos) == (more >= least_turn));
        CHECK((said.find("looser") != std::string::npos) == (more <= -least_turn));
    }
}

TEST_CASE("a tail that may stand anywhere is told so, with no spread beyond its travel") {
    const Report report = answered(example("strings-are-off"));
    REQUIRE(report.solution.advised().measure_first);
    const auto after = back_in_tune(report);
    REQUIRE(after);
    CHECK(english().say(*after).find("anywhere between its stops") != std::string::npos);
    CHECK(answer_text(report, english()).find("give or take 6") == std::string::npos);
}
