#include "engine/say/answer.h"
#include "engine/say/report_text.h"
#include "engine/say/work_sheet.h"
#include "tests/support.h"

using namespace counterpull;
using namespace counterpull::test;

namespace {

std::string answer_to(const Setup& setup) {
    return english().say(answer_sentence(answered(setup)));
}

} // namespace

TEST_CASE("the answer is one sentence that a player can act on") {
    CHECK(answer_to(example("small-sag")) == "Loosen each claw screw ¼ turn counter-clockwise (⅛ to ⅜).");
    CHECK(answer_to(example("six-screw-plate")) == "Tighten each claw screw 1¾ turns clockwise (1 to 2⅜).");
    CHECK(answer_to(example("cannot-float")) ==
          "It cannot float as wanted on the two springs there are; with four it would.");
    CHECK(answer_to(light_set_level()) == "Leave the springs and the claw as they are.");
}

TEST_CASE("springs of another kind that are on it count among those that there are") {
    Setup setup = example("cannot-float");
    const auto stronger = SpringSetup{2.5, 60, 6, 100};
    setup.now.springs[0].spring = stronger;
    setup.guitar.springs_owned = 1;
    const Report told = answered(setup);
    const Advice& advised = told.solution.advised();
    REQUIRE(advised.only_springs_missing());
    REQUIRE(springs_needed(advised.springs) + 1 == static_cast<int>(advised.springs.size()));
    CHECK(answer_to(setup).starts_with("It cannot float as wanted on the two springs there are; with four"));
}

TEST_CASE("turns already made are not asked for again") {
    Setup setup = example("six-screw-plate");
    setup.guitar.springs_owned = 3;
    const double turns = *answered(setup).solution.advice[0].turns;
    Reading reading;
    reading.springs = answered(setup).solution.advice[0].springs;
    reading.turns = {turns, turns};
    reading.tail_mm = 2.5;
    setup.log.push_back(reading);
    CHECK(answer_to(setup) == "That is it: leave the springs and the claw as they are.");
    setup.log[0].turns = {turns - 0.5, turns - 0.5};
    setup.log[0].tail_mm.reset();
    CHECK(answer_to(setup).starts_with(
        "Now ½ turn more from where the screws stand, both tighter (clockwise)"));
}

TEST_CASE("a range is told where it says more, and either way where it may be either way") {
    CHECK(english().say(TurnsRange{2.25, ninety_percent * 0.15}) == " (2 to 2½)");
    CHECK(english().say(TurnsRange{-2.25, ninety_percent * 0.15}) == " (2 to 2½)");
    CHECK(english().say(TurnsRange{2.25, ninety_percent * 0.01}).empty());
    CHECK(english().say(TurnsRange{0.125, ninety_percent * 0.2}) == ", give or take ⅜");
}

TEST_CASE("sides that differ belong to the posts, and the claw acts on their mean") {
    Setup setup = example("small-sag");
    setup.now.tail_sides_mm = {{-0.9, -2.1}};
    bool told = false;
    for (const Phrase& phrase : answer_details(answered(setup)))
        if (phrase.key == "answer.bass_side_up") {
            told = true;
            CHECK(english().say(phrase).find("1.2 mm higher") != std::string::npos);
        }
    CHECK(told);
    const auto first_step = [&] { return work_sheet(answered(setup), Way{}).steps[0].said(english()); };
    CHECK(first_step().find("bring the posts to one height") != std::string::npos);
    setup.guitar.bridge.kind = Pivot::screw_plate; // which has none
    CHECK(first_step().find("the posts") == std::string::npos);
    setup.guitar.bridge.kind.reset();
    setup.now.tail_sides_mm = {{-1.4, -1.6}};
    CHECK(first_step().find("the posts") == std::string::npos);
}

TEST_CASE("nothing is told of turns where there are none") {
    const Report told = answered(light_set_level());
    REQUIRE(told.before_retuning_tail_mm);
    for (const Phrase& detail : answer_details(told))
        CHECK(detail.key != "answer.before_retuning");
}

TEST_CASE("with the strings off the arm is not worked, and no try is off by more than the travel") {
    const Report told = answered(example("strings-are-off"));
    CHECK(work_sheet(told, Way{}).steps[0].text[0].key == "sheet.note_off");
    Setup loose = example("strings-are-off");
    for (const char* path : {"spring.rate_n_mm", "spring.free_length_mm"})
        loose.guitar.basis.emplace_back(path, Basis::guess);
    const Report unsure = answered(loose);
    REQUIRE(unsure.solution.advised().measure_first);
    for (const Phrase& detail : answer_details(unsure))
        CHECK(detail.key != "answer.wedge");
}

TEST_CASE("one turn is a turn, more are turns") {
    CHECK(english().say(Turns{0.5}) == "½ turn");
    CHECK(english().say(Turns{-1.0}) == "1 turn");
    CHECK(english().say(Turns{1.1}) == "1⅛ turns");
    CHECK(english().say(Turns{2.25}) == "2¼ turns");
}

TEST_CASE("hooks are counted from one at the bass side, as people count") {
    CHECK(english().say(hooks_of({{4, 0, {}}, {0, 1, {}}, {2, 2, {}}})) == "1, 3 and 5");
}

TEST_CASE("only turned, the bridge stands elsewhere before it is retuned, and both are told") {
    const Setup setup = example("small-sag");
    const Report report = answered(setup);
    REQUIRE(report.before_retuning_tail_mm);
    // Strings at their tuners give way less than strings kept at pitch: it moves only part of the way.
    CHECK(*report.before_retuning_tail_mm > setup.now.tail_mm);
    CHECK(*report.before_retuning_tail_mm < setup.next.tail_mm);
    CHECK_FALSE(answered(example("lower-and-heavier")).before_retuning_tail_mm);
}

TEST_CASE("the text for people carries units and stays within a terminal's width where it can") {
    const Setup setup = example("six-screw-plate");
    const std::string text = report_text(answered(setup), english());
    CHECK(text.starts_with("Six screws, rear a little up\n\nTighten each claw screw 1¾ turns"));
    for (const char* part : {" mm", "°", " lbf", " N ", "E2", "0.0460", "repairer"})
        CHECK(text.find(part) != std::string::npos);
}

TEST_CASE("the wedge is advised where the predicted work says so, not by a threshold") {
    auto advised = [](const Report& report) {
        for (const Phrase& phrase : answer_details(report))
            if (phrase.key.starts_with("answer.wedge"))
                return true;
        return false;
    };
    for (const std::string& name : example_names()) {
        const Report report = answered(example(name));
        INFO(name);
        CHECK(advised(report) == (report.wedge && report.solution.advised().work.way.wedge));
    }
    CHECK(advised(answered(example("lower-and-heavier"))));
    CHECK_FALSE(advised(answered(example("small-sag"))));
}
