// Every view drawn without a window, at desktop and phone size, with what people bring: examples, an empty
// set-up, a refused one.
#include "shell/interface.h"

#include "engine/base/embedded.h"
#include "engine/say/answer.h"
#include "shell/text.h"
#include "tests/headless.h"
#include "tests/support.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>

using namespace counterpull;
using namespace counterpull::test;

namespace {

double luminance(ImU32 colour) {
    double sum = 0.0;
    const double weights[] = {0.2126, 0.7152, 0.0722};
    for (int i = 0; i < 3; ++i) {
        const double s = static_cast<double>((colour >> (8 * i)) & 0xFF) / 255.0;
        sum += weights[i] * (s <= 0.04045 ? s / 12.92 : std::pow((s + 0.055) / 1.055, 2.4));
    }
    return sum;
}

double contrast(ImU32 a, ImU32 b) {
    const double x = luminance(a) + 0.05, y = luminance(b) + 0.05;
    return std::max(x, y) / std::min(x, y);
}

} // namespace

TEST_CASE("every view is drawn in every language for every example, on a desk and on a phone") {
    std::vector<std::pair<Screen, std::string_view>> screens = {{wide, "en"}, {phone, "en"}, {tablet, "en"}};
    for (const Language& language : languages())
        for (const Screen& screen : {desktop, small_phone})
            screens.emplace_back(screen, language.code);
    for (const std::string& name : example_names())
        for (const auto& [screen, language] : screens) {
            INFO(name << " at " << screen.width << " in " << language);
            Headless page(example(name));
            page.interface.preferences().language = language;
            page.open_everything(screen);
            const Control* answer = page.find("answer");
            REQUIRE(answer);
            CHECK(page.interface.controls().overflowing() == std::vector<std::string>{});
            CHECK(answer->value == page.interface.answer());
            for (const Control& control : page.interface.controls().all()) {
                INFO(control.id);
                CHECK_FALSE(control.label.empty());
                CHECK(control.label.find("ui.") == std::string::npos);
                CHECK(control.low.x >= 0.0f);
                CHECK(control.high.x <= screen.width);
                if (screen.touch && control.role != Role::status)
                    CHECK(control.high.y - control.low.y >= 44.0f);
            }
        }
}

TEST_CASE("every control has an identity of its own") {
    Headless page(example("seven-strings-two-scales"));
    page.open_everything(desktop);
    std::vector<std::string> ids;
    for (const Control& control : page.interface.controls().all())
        ids.push_back(control.id);
    CHECK(ids.size() > 100);
    std::sort(ids.begin(), ids.end());
    CHECK(std::adjacent_find(ids.begin(), ids.end()) == ids.end());
}

TEST_CASE("an empty set-up is drawn with what is missing, not an answer") {
    for (const Screen& screen : {desktop, phone}) {
        Headless page(Setup{});
        page.open_everything(screen);
        CHECK(page.interface.answer() == english().text("ui.no_answer"));
    }
}

TEST_CASE("a value typed is solved at once, a refused one keeps the last good answer") {
    Headless page(example("lower-and-heavier"));
    page.open_everything(desktop);
    const std::string before = page.interface.answer();
    page.interface.controls().request("next.strings[0].gauge_in", ".060");
    page.draw(desktop);
    CHECK(page.interface.bench().setup().next.strings[0].gauge_in == Approx(0.060));
    const std::string now = page.interface.answer();
    CHECK(now != before);
    page.interface.controls().request("next.strings[0].gauge_in", "460");
    page.draw(desktop);
    CHECK(page.find("next.strings[0].gauge_in")->problem == "460 is outside 5 to 150");
    CHECK(page.interface.answer() == now);
    CHECK(page.interface.bench().outdated());
    page.interface.controls().request("next.strings[0].gauge_in", "heavy");
    page.draw(desktop);
    CHECK(page.find("next.strings[0].gauge_in")->value == "heavy"); // nothing typed is lost
    page.interface.controls().request("next.strings[0].gauge_in", "54");
    page.draw(desktop);
    CHECK(page.interface.answer() == before);
    CHECK_FALSE(page.interface.bench().outdated());
}

TEST_CASE("in German all is said in German, with its decimal comma, and read so") {
    Headless page(example("lower-and-heavier"));
    page.interface.set_device_language("de");
    page.open_everything(phone);
    const Setup before = page.interface.bench().setup();
    const Words german("de");
    CHECK(page.interface.answer() == german.say(answer_sentence(*report(before).report)));
    for (const Control& control : page.interface.controls().all()) {
        INFO(control.id << ": " << control.label << " " << control.value);
        for (const char* english_word : {" the ", "string", "spring", "usual", "turns"})
            CHECK((control.label + " " + control.value).find(english_word) == std::string::npos);
    }
    auto ask = [&](const char* id, const char* value) {
        page.interface.controls().request(id, value);
        page.draw(phone);
    };
    ask("now.tail_mm", "-0,5");
    CHECK(page.find("now.tail_mm")->value == "−0,5 mm");
    CHECK(page.interface.bench().setup().now.tail_mm == -0.5);
    ask("page.notes", "");
    ask("next.tuning[0]", "H1");
    CHECK(page.interface.bench().setup().next.tuning[0] == Pitch{'B', 0, 1});
    CHECK(page.find("next.tuning[0]")->value == "H1");
    ask("page.language", "English");
    CHECK(page.interface.answer() == english().say(answer_sentence(page.interface.bench().report())));
    CHECK(page.find("next.tuning[0]")->value == "B1");
}

TEST_CASE("in every language no English is left, and numbers and notes are read as it has them") {
    for (const Language& language : languages()) {
        Headless page(example("lower-and-heavier"));
        page.interface.set_device_language(language.code);
        page.open_everything(phone);
        INFO(language.code);
        if (language.code != "en")
            for (const Control& control : page.interface.controls().all()) {
                INFO(control.id << ": " << control.label << " " << control.value);
                for (const char* english_word : {" the ", " of ", "strings", "springs", "turns"})
                    CHECK((control.label + " " + control.value).find(english_word) == std::string::npos);
            }
        auto ask = [&](const char* id, const std::string& value) {
            page.interface.controls().request(id, value);
            page.draw(phone);
        };
        for (const char* typed : {"-0.5", "-0,5", "−0,5"}) {
            ask("now.tail_mm", "1");
            ask("now.tail_mm", typed);
            CHECK(page.interface.bench().setup().now.tail_mm == -0.5);
            CHECK(page.find("now.tail_mm")->value == (language.code == "en" ? "−0.5 mm" : "−0,5 mm"));
        }
        Words words(language.code);
        if (words.has_own_note_names())
            ask("page.notes", "");
        words.set_note_names(NoteNames::of_the_language);
        const Pitch low{'B', 0, 1};
        ask("next.tuning[0]", words.say(low));
        CHECK(page.interface.bench().setup().next.tuning[0] == low);
        CHECK(page.find("next.tuning[0]")->value == words.say(low));
    }
}

TEST_CASE("in inches and pounds the fields show and take them, and the set-up stays as it is") {
    Headless page(example("lower-and-heavier"));
    page.open_everything(phone);
    const Setup before = page.interface.bench().setup();
    page.interface.preferences().units = {LengthUnit::inch, ForceUnit::lbf};
    page.draw(phone);
    CHECK(page.interface.controls().overflowing() == std::vector<std::string>{});
    CHECK(page.find("now.tail_mm")->value.ends_with(" in"));
    CHECK(page.find("guitar.spring.rate_n_mm")->value.ends_with(" lbf/in"));
    CHECK(page.interface.answer().find(" mm") == std::string::npos);
    CHECK(page.interface.bench().setup() == before);
    page.interface.controls().request("now.tail_mm", "-1/16");
    page.draw(phone);
    CHECK(page.interface.bench().setup().now.tail_mm == Approx(-1.5875));
    page.interface.controls().request("now.tail_mm", "-2 mm");
    page.draw(phone);
    CHECK(page.interface.bench().setup().now.tail_mm == Approx(-2.0));
    page.interface.controls().request("now.tail_mm", "1");
    page.draw(phone);
    CHECK(page.find("now.tail_mm")->problem.starts_with("1 in is outside this bridge's travel"));
}

TEST_CASE("a number is dragged sideways a step for every few pixels, and a press still types") {
    Headless page(example("lower-and-heavier"));
    page.open_everything(desktop);
    const Control field = *page.find("now.tail_mm");
    const double before = page.interface.bench().setup().now.tail_mm;
    const float x = 0.5f * (field.low.x + field.high.x), y = 0.5f * (field.low.y + field.high.y);
    auto& io = ImGui::GetIO();
    auto button = [&](bool down) {
        io.AddMouseButtonEvent(0, down);
        page.draw(desktop, 2);
    };
    auto move = [&](float to_x) {
        io.AddMousePosEvent(to_x, y);
        page.draw(desktop, 2);
    };
    move(x);
    button(true);
    move(x + 35.0f);
    CHECK(page.interface.bench().setup().now.tail_mm == Approx(before + 3 * 0.5));
    move(x - 21.0f);
    CHECK(page.interface.bench().setup().now.tail_mm == Approx(before - 2 * 0.5));
    button(false);
    CHECK_FALSE(page.interface.unfinished()); // nothing is being typed
    move(x);
    button(true);
    button(false);
    io.AddInputCharactersUTF8("-2");
    page.draw(desktop, 4);
    CHECK(page.interface.bench().setup().now.tail_mm == Approx(-2.0));
}

TEST_CASE("every edit is undone and redone, a drag or what was typed in one go as one step") {
    Headless page(example("lower-and-heavier"));
    page.open_everything(desktop);
    Workbench& bench = page.interface.bench();
    auto operate = [&](const std::string& id, const std::string& value = "") {
        page.interface.controls().request(id, value);
        page.draw(desktop);
    };
    const Setup first = bench.setup();
    const std::string answer = page.interface.answer();
    CHECK_FALSE(bench.can_undo());
    operate("now.tail_mm+");
    operate("next.strings[0].gauge_in", "60");
    const Setup second = bench.setup();
    page.interface.set_typing("now.tail_mm"); // letter by letter
    operate("now.tail_mm", "-2");
    operate("now.tail_mm", "-2.");
    operate("now.tail_mm", "-2.5");
    page.interface.set_typing("");
    page.draw(desktop);
    const Setup third = bench.setup();
    operate("undo");
    CHECK(bench.setup() == second);
    operate("undo");
    operate("undo");
    CHECK(bench.setup() == first);
    CHECK(page.interface.answer() == answer);
    CHECK_FALSE(bench.can_undo());
    for (int i = 0; i < 3; ++i)
        operate("redo");
    CHECK(bench.setup() == third);
    CHECK_FALSE(bench.can_redo());
    bench.open(example("small-sag"));
    page.draw(desktop);
    operate("undo");
    CHECK(bench.setup() == third);
    operate("now.tail_mm+"); // a new edit ends what could be redone
    CHECK_FALSE(bench.can_redo());
}

TEST_CASE("what a reader chose is kept as text and read back, whatever stands there") {
    const Preferences chosen{Paper::dark, {LengthUnit::inch, ForceUnit::kgf}};
    CHECK(preferences_of(text_of(chosen)) == chosen);
    for (const char* text : {"", "{", "[]", "7", "{\"paper\": 3, \"length\": \"ell\"}"})
        CHECK(preferences_of(text) == Preferences{});
}

TEST_CASE("lines break between words, and inside one only where it is longer than a line") {
    Headless page(example("small-sag"));
    page.draw(phone);
    ImFont* font = ImGui::GetIO().Fonts->Fonts[0];
    const std::string text = "the tail stands at −5.4 mm, once in tune, and nowhere else";
    for (float width = 60.0f; width < 300.0f; width += 7.0f) {
        const std::string lines = wrapped(font, text, width);
        CHECK(size_of(font, lines).x <= width);
        CHECK(lines.find("−5.4 mm") != std::string::npos); // a number stays with its unit
        std::string again = lines;
        std::replace(again.begin(), again.end(), '\n', ' ');
        CHECK(again == text);
    }
    CHECK(size_of(font, wrapped(font, "Überbreitentitelohneleerzeichen", 50.0f)).x <= 50.0f);
    CHECK(wrapped(font, "one\n\ntwo", 200.0f) == "one\n\ntwo");
    CHECK(wrapped(font, "", 200.0f).empty());
}

TEST_CASE("the tuning sheet is gone through string by string") {
    Headless page(example("small-sag"));
    page.open_everything(phone);
    REQUIRE(page.find("pass.aim"));
    CHECK(page.find("pass.aim")->label == "string 6");
    CHECK(page.find("pass.aim")->value.starts_with("Eb2 −20 (D2 +80)")); // as a clip-on tuner names it
    page.interface.controls().request("pass.next", "");
    page.draw(phone, 2);
    CHECK(page.find("pass.aim")->label == "string 5");
    page.interface.controls().request("pass.back", "");
    page.draw(phone, 2);
    CHECK(page.find("pass.aim")->label == "string 6");
}

TEST_CASE("every kind of bridge, number of strings and set can be picked, and is answered") {
    for (const BridgePreset& bridge : presets().bridges)
        for (const std::size_t strings : {4u, 5u, 6u, 7u, 8u}) {
            INFO(bridge.name << ", " << strings);
            Workbench bench(example("lower-and-heavier"));
            bench.choose_bridge(bridge);
            bench.edit([&](Setup& setup) { change_string_count(setup, strings); });
            CHECK(strings_of(bench.setup()) == strings);
            CHECK_FALSE(bench.outdated());
            CHECK(bench.bridge_preset().number == bridge.number);
        }
}

TEST_CASE("what differs from the preset is marked with the usual value") {
    Headless page(example("lower-and-heavier"));
    page.open_everything(desktop);
    CHECK(page.find("guitar.bridge.block_depth_mm")->value == "38 mm");
    page.interface.controls().request("guitar.bridge.block_depth_mm", "40,5");
    page.draw(desktop);
    CHECK(page.interface.bench().setup().guitar.bridge.block_depth_mm == 40.5);
    CHECK(page.interface.bench().bridge_preset().bridge.block_depth_mm == 38.0);
}

TEST_CASE("text keeps its contrast on paper and sheet, by day and by night") {
    // WCAG 2.1, success criterion 1.4.3: 4.5 : 1.
    for (const Colours* c : {&light_colours(), &dark_colours()})
        for (const ImU32 ground : {c->paper, c->sheet}) {
            for (const ImU32 text : {c->ink, c->faint, c->accent, c->warning})
                CHECK(contrast(text, ground) >= 4.5);
            CHECK(contrast(c->on_accent, c->accent) >= 4.5);
        }
}
