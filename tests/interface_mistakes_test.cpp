// Slips at the page and what it says to them: numbers emptied, refused, typed where the layout moves.
#include "engine/base/embedded.h"
#include "engine/document/choices.h"
#include "shell/refusals.h"
#include "shell/text.h"
#include "tests/operated.h"

#include <imgui.h>

using namespace counterpull;
using namespace counterpull::test;

TEST_CASE(
    "the field that is typed into beside the canvas stays in sight, with a keyboard over half the screen") {
    for (const float keyboard : {0.0f, 430.0f}) {
        Operated page(example("small-sag"), phone);
        page.screen.inset_bottom = keyboard;
        std::vector<std::string> ids;
        for (const Control& control : page.interface.controls().all())
            if (control.role == Role::spinbutton)
                ids.push_back(control.id);
        REQUIRE(ids.size() > 30);
        for (const std::string& id : ids) {
            INFO(id << " over " << keyboard);
            page.interface.set_typing(id);
            page.draw(page.screen, 4);
            REQUIRE(page.find(id));
            CHECK(whole_in_sight(*page.find(id)));
        }
    }
}

TEST_CASE("the field typed into stays in sight when the answer above it grows") {
    Operated page(example("small-sag"), phone);
    const std::string id = "next.tail_mm";
    page.interface.set_typing(id);
    page.draw(phone, 4);
    const float top = page.find("answer")->high.y;
    page.ask(id, "x"); // told above, where the answer is pinned
    page.draw(phone, 4);
    REQUIRE(page.find("answer")->high.y >= top);
    CHECK(whole_in_sight(*page.find(id)));
}

TEST_CASE("a field that is scrolled out of sight is found by no finger") {
    Operated page(example("small-sag"), phone);
    const auto controls = page.interface.controls().all();
    const auto hidden = std::find_if(controls.begin(), controls.end(), [](const Control& c) {
        return c.role == Role::spinbutton && c.low.y > phone.height;
    });
    REQUIRE(hidden != controls.end());
    CHECK(hidden->seen_high.y <= hidden->seen_low.y);
    CHECK_FALSE(page.interface.controls().field_at(hidden->low.x + 1.0f, hidden->low.y + 1.0f));
}

TEST_CASE("what is typed faster than it is drawn is taken to its end, and presses count each") {
    Headless page(example("small-sag"));
    page.draw(desktop);
    for (const char* typed : {"-", "-1", "-1.", "-1.5"})
        page.interface.controls().request("now.tail_mm", typed);
    page.draw(desktop, 1);
    CHECK(page.interface.bench().setup().now.tail_mm == -1.5);
    for (int press = 0; press < 2; ++press)
        page.interface.controls().request("now.tail_mm+", "");
    page.draw(desktop);
    CHECK(page.interface.bench().setup().now.tail_mm == -0.5);
}

TEST_CASE("a reading is emptied again: it then was not read") {
    Operated page(example("small-sag"), desktop);
    page.ask("log.add", "right after a turn, nothing retuned");
    page.ask("log[0].tail_mm", "-0.9");
    page.ask("log[0].cents[2]", "7");
    REQUIRE(page.setup().log.size() == 1);
    REQUIRE(page.setup().log[0].cents);
    page.ask("log[0].cents[2]", "");
    CHECK_FALSE(page.setup().log[0].cents);
    page.ask("log[0].tail_mm", " ");
    CHECK_FALSE(page.setup().log[0].tail_mm);
    CHECK(page.find("log[0].tail_mm")->value == "–");
    CHECK_FALSE(page.interface.bench().outdated());
    CHECK(page.refused().empty());
}

TEST_CASE("what is asked at the bench and need not be read is emptied again too") {
    Operated page(example("small-sag"), phone);
    page.ask("job.open", "");
    // Step by step until one asks for the tail.
    for (int i = 0; i < 30 && !page.find("job.tail_mm"); ++i) {
        REQUIRE(page.find("job.done"));
        page.ask("job.done", "");
    }
    REQUIRE(page.find("job.tail_mm"));
    page.ask("job.tail_mm", "0.5");
    CHECK(page.find("job.tail_mm")->value == "+0.5 mm");
    page.ask("job.tail_mm", "");
    CHECK(page.find("job.tail_mm")->value == "–");
    CHECK(page.find("job.tail_mm")->problem.empty());
    page.ask("job.tail_mm", "-30");
    page.ask("job.done", "");
    REQUIRE(page.find("job.refused"));
    CHECK(
        page.find("job.refused")->value.starts_with("“Tail read”: −30 mm is outside this bridge's travel, "));
    CHECK(page.find("job.refused")->value.ends_with("or change “Lowest tail reading”"));
}

TEST_CASE("what was typed and is no number stands in the list of what is refused, by its field's name") {
    Operated page(example("small-sag"), phone);
    page.ask("next.tail_mm", "level");
    CHECK(page.refused() ==
          std::vector<std::string>{"What you want, “Tail wanted at”: level is not a number"});
    page.ask("next.tail_mm", "");
    CHECK(page.refused() ==
          std::vector<std::string>{"What you want, “Tail wanted at”: empty; a number is needed"});
    page.ask("next.tail_mm", "0");
    CHECK(page.refused().empty());
}

TEST_CASE("what was typed into a reading goes with the reading") {
    Operated page(example("small-sag"), phone);
    page.ask("log.add", "in tune");
    page.ask("log[0].tail_mm", "0.5");
    page.ask("log[0].tail_mm", "0.5.5");
    REQUIRE(page.interface.bench().outdated());
    page.ask("log[0].remove", "");
    CHECK_FALSE(page.interface.bench().outdated());
}

TEST_CASE("a number out of its range is refused by the name of its field, in the reader's units") {
    Operated page(example("small-sag"), phone);
    page.ask("log.add", "in tune");
    page.ask("log[0].tail_mm", "-60.6");
    CHECK(page.refused() ==
          std::vector<std::string>{"Reading 1, “Tail read”: −60.6 mm is outside −60 to 60 mm"});
    CHECK(page.find("log[0].tail_mm")->problem == "−60.6 mm is outside −60 to 60 mm");
    page.interface.preferences().units.length = LengthUnit::inch;
    page.draw(phone);
    CHECK(page.refused() ==
          std::vector<std::string>{"Reading 1, “Tail read”: −2.38583 in is outside −2.36 to 2.36 in"});
    page.interface.preferences() = {};
    page.interface.preferences().language = "de";
    page.draw(phone);
    CHECK(page.refused().size() == 1);
    CHECK(page.refused().front().starts_with("Ablesung 1, „"));
}

TEST_CASE("a tail reading that this bridge cannot give says which field to change otherwise") {
    Operated page(example("small-sag"), desktop);
    page.ask("now.tail_mm", "-30");
    REQUIRE(page.refused().size() == 1);
    CHECK(page.refused().front().starts_with(
        "On it now, “Tail stands at”: −30 mm is outside this bridge's travel, "));
    CHECK(page.refused().front().ends_with(" mm; or change “Lowest tail reading”"));
    page.ask("now.tail_mm", "30");
    REQUIRE(page.refused().size() == 1);
    CHECK(page.refused().front().ends_with(" mm; or change “Highest tail reading”"));
}

TEST_CASE("a gauge is refused in the thousandths that players say") {
    Operated page(example("small-sag"), desktop);
    page.ask("next.strings[0].gauge_in", "460");
    REQUIRE(page.refused().size() == 1);
    CHECK(page.refused().front() == "What you want, “String 6, gauge”: 460 is outside 5 to 150");
    page.ask("next.strings[0].gauge_in", "8");
    REQUIRE(page.refused().size() == 1);
    CHECK(page.refused().front().ends_with("switch “String 6 is wound” off, or enter a thicker one"));
}

TEST_CASE("every field of the page is refused by the label that it has there") {
    for (const char* name : {"small-sag", "seven-strings-two-scales", "strings-are-off"}) {
        Setup setup = example(name);
        Operated page(setup, desktop);
        page.ask("log.add", "right after a turn, nothing retuned");
        page.ask("log[0].tail_mm", "0");
        int fields = 0;
        for (const Control& control : page.interface.controls().all())
            if (control.role == Role::spinbutton) {
                INFO(control.id);
                CHECK(field_in_words(control.id, page.setup(), page.interface.words())
                          .ends_with("“" + control.label + "”"));
                ++fields;
            }
        CHECK(fields > 30);
    }
}

TEST_CASE("what the page says of a refusal never speaks of keys and paths of the document") {
    for (const char* path :
         {"guitar.bay.hook_mm[3]", "now.springs[1].hook", "log[2].springs", "bench.done[0].on", ""}) {
        const std::string named = field_in_words(path, example("small-sag"), english());
        INFO(path << ": " << named);
        CHECK(named.find('.') == std::string::npos);
        CHECK(named.find('_') == std::string::npos);
        CHECK(named.empty() == (*path == '\0'));
    }
}

TEST_CASE("a reading that was only begun changes nothing, until something was read") {
    Operated page(example("small-sag"), desktop);
    const Setup before = page.setup();
    const std::string answer = page.interface.answer();
    page.ask("log.add", "right after a turn, nothing retuned");
    REQUIRE(page.find("log[0].cents[0]"));
    CHECK_FALSE(page.find("log[0].confirm"));
    page.ask("log[0].turns[0]", "1/2");
    CHECK(page.find("log[0].turns[0]")->value == "+0.5");
    CHECK(page.setup() == before);
    CHECK(page.interface.answer() == answer);
    CHECK_FALSE(page.interface.bench().can_undo());
    page.ask("log[0].cents[5]", "-12");
    REQUIRE(page.setup().log.size() == 1);
    CHECK(page.setup().log[0].turns == std::array{0.5, 0.5});
    CHECK((*page.setup().log[0].cents)[5] == -12.0);
    CHECK_FALSE(page.find("log[1].tail_mm"));
    page.ask("undo", "");
    CHECK(page.setup() == before);
}

TEST_CASE("a reading begun is dropped, with what was typed into it, or said to be in tune and no more") {
    Operated page(example("small-sag"), phone);
    const Setup before = page.setup();
    page.ask("log.add", "in tune");
    page.ask("log[0].tail_mm", "low");
    CHECK(page.refused().size() == 1);
    page.ask("log[0].remove", "");
    CHECK(page.refused().empty());
    CHECK_FALSE(page.find("log[0].tail_mm"));
    CHECK(page.setup() == before);
    page.ask("log.add", "in tune");
    REQUIRE(page.find("log[0].confirm"));
    page.ask("log[0].confirm", "");
    REQUIRE(page.setup().log.size() == 1);
    CHECK_FALSE(page.setup().log[0].tail_mm);
    CHECK_FALSE(page.find("log[0].confirm"));
}

TEST_CASE("a reading begun for one guitar is not one of the next guitar") {
    Operated page(example("small-sag"), phone);
    page.ask("log.add", "in tune");
    REQUIRE(page.find("log[0].tail_mm"));
    page.interface.bench().open(example("lower-and-heavier"));
    page.draw(phone);
    CHECK_FALSE(page.find("log[0].tail_mm"));
}

TEST_CASE("a reading just begun is brought into view") {
    for (const Screen& screen : {desktop, phone}) {
        Operated page(example("three-readings-in"), screen);
        const std::size_t entries = page.setup().log.size();
        page.ask("log.add", "in tune");
        page.draw(screen, 6);
        const Control* field = page.find("log[" + std::to_string(entries) + "].tail_mm");
        REQUIRE(field);
        CHECK(whole_in_sight(*field));
    }
}

TEST_CASE("after the last string the tuning offers no next one, but the first again") {
    Operated page(example("small-sag"), phone);
    const std::string first = page.find("pass.aim")->value;
    int presses = 0;
    for (; page.find("pass.next")->label == "Next string"; ++presses) {
        REQUIRE(presses < 30);
        page.ask("pass.next", "");
    }
    CHECK(presses >= 5);
    CHECK(page.find("pass.aim")->value != first);
    CHECK(page.find("pass.next")->label == "From the first again");
    page.ask("pass.next", "");
    CHECK(page.find("pass.aim")->value == first);
}

TEST_CASE("another kind of bridge says what it set the tail to, until the next edit") {
    Setup setup = example("small-sag");
    setup.now.tail_mm = -6.0;
    setup.now.tail_sides_mm = {{-6.5, -5.5}};
    Operated page(setup, phone);
    CHECK_FALSE(page.find("guitar.bridge.set"));
    const BridgePreset* plate = nullptr;
    for (const BridgePreset& preset : presets().bridges)
        if (!preset.retired && preset.bridge.kind == Pivot::screw_plate)
            plate = &preset;
    REQUIRE(plate);
    page.ask("guitar.bridge", plate->name);
    REQUIRE(page.setup().next.tail_mm == plate->usual_aim_mm);
    REQUIRE(page.setup().now.tail_mm > -6.0);
    CHECK_FALSE(page.interface.bench().outdated());
    REQUIRE(page.find("guitar.bridge.set"));
    const std::string said = page.find("guitar.bridge.set")->value;
    CHECK(said.find("The tail wanted was set to what is usual of this bridge: ") != std::string::npos);
    CHECK(said.find("The tail now was set to ") != std::string::npos);
    page.ask("now.tail_mm", "2");
    CHECK_FALSE(page.find("guitar.bridge.set"));
}

TEST_CASE("the plot of the arm is captioned in the unit that it is drawn in") {
    Operated page(example("small-sag"), desktop);
    page.interface.preferences().units.length = LengthUnit::inch;
    page.draw(desktop);
    REQUIRE(page.find("arm next"));
    CHECK(page.find("arm next")->value.find("tail in in,") != std::string::npos);
    CHECK(page.find("arm next")->value.find(" mm") == std::string::npos);
}

TEST_CASE("undoing and going back are two words, in every language") {
    for (const Language& language : languages()) {
        const Words words(language.code);
        CHECK(words.text("ui.undo") != words.text("ui.back"));
        CHECK(words.text("ui.undo") != words.text("ui.redo"));
    }
}

TEST_CASE("a number and its unit never part at the end of a line that has room for both") {
    for (const Language& language : languages()) {
        Operated page(example("lower-and-heavier"), phone);
        page.interface.preferences().language = language.code;
        page.draw(phone);
        ImFont* font = ImGui::GetIO().Fonts->Fonts[0];
        int broken = 0;
        for (const Control& control : page.interface.controls().all())
            for (float width = 80.0f; width < 420.0f; width += 7.0f) {
                const std::string lines = wrapped(font, control.value, width);
                for (const char* unit : {"mm", "N", "cent", "Cent", "Hz", "%", "°", "turn", "Umdrehung",
                                         "vuelta", "tour", "giro", "volta", "obr"}) {
                    const std::string end = std::string("\n") + unit;
                    for (auto at = lines.find(end); at != std::string::npos; at = lines.find(end, at + 1)) {
                        const auto before = static_cast<unsigned char>(lines[at - 1]);
                        const bool number = (before >= '0' && before <= '9') || before >= 0x80;
                        const auto begins = std::min(lines.find_last_of(" \n", at - 1) + 1, at);
                        const std::string both =
                            lines.substr(begins, lines.find_first_of(" \n", at + 1) - begins);
                        const bool room =
                            size_of(font, both.substr(0, at - begins) + " " + both.substr(at + 1 - begins))
                                .x <= width;
                        INFO(lines);
                        CHECK_FALSE((number && room));
                        broken += number && room;
                    }
                }
                if (broken > 3)
                    return;
            }
    }
}

TEST_CASE("a number in the sentence that is emptied is refused by the name of its field, and listed") {
    Operated page(example("small-sag"), phone);
    REQUIRE(page.find("said.now.tail_mm"));
    page.ask("said.now.tail_mm", "");
    CHECK(page.refused() ==
          std::vector<std::string>{"On it now, “Tail stands at”: empty; a number is needed"});
    page.ask("said.now.tail_mm", "0");
    CHECK(page.refused().empty());
}
