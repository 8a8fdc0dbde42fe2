// The first minute on the page: whose guitar it is, one's own, the set-up as a sentence, and what is picked
// over the page.
#include "shell/sheet_over_page.h"
#include "tests/headless.h"
#include "tests/support.h"

#include <algorithm>
#include <cmath>

using namespace counterpull;
using namespace counterpull::test;

namespace {

struct Page : Headless {
    using Headless::Headless;
    const Screen* screen = &phone;

    void operate(const std::string& id, const std::string& value = "") {
        interface.controls().request(id, value);
        draw(*screen);
    }
    // A finger or a mouse on the middle of a control.
    void touch(const std::string& id) {
        const Control* there = find(id);
        REQUIRE(there);
        touch_at(0.5f * (there->low.x + there->high.x), 0.5f * (there->low.y + there->high.y));
    }
    void touch_at(float x, float y) {
        auto& io = ImGui::GetIO();
        io.AddMousePosEvent(x, y);
        draw(*screen, 2);
        io.AddMouseButtonEvent(0, true);
        draw(*screen, 2);
        io.AddMouseButtonEvent(0, false);
        draw(*screen, 3);
    }
    std::vector<std::string> options() {
        std::vector<std::string> all;
        for (const Control& control : interface.controls().all())
            if (control.role == Role::option)
                all.push_back(control.label);
        return all;
    }
    const Setup& setup() { return interface.bench().setup(); }
};

} // namespace

TEST_CASE("the example says that it is one, and a guitar of one's own keeps nothing of it") {
    for (const Screen* screen : {&phone, &desktop}) {
        Page page(example_setup());
        page.screen = screen;
        page.draw(*screen);
        REQUIRE(page.find("whose"));
        CHECK(page.find("whose")->value.find(example_setup().title) != std::string::npos);
        CHECK(page.find("whose")->high.y < 0.2f * screen->height); // above the answer, or beside it
        CHECK_FALSE(page.find("title"));
        page.operate("whose.own");
        CHECK(page.interface.take_wish() == "own");
        page.interface.begin_own();
        page.draw(*screen);
        CHECK_FALSE(page.find("whose"));
        CHECK(page.setup().title.empty());
        CHECK(page.setup().log.empty());
        CHECK(page.setup().now.strings == page.setup().next.strings);
        CHECK_FALSE(page.interface.bench().can_undo());
        CHECK(page.interface.answer() == english().text("answer.same.leave"));
        page.operate("title", "Red one");
        CHECK(page.setup().title == "Red one");
        CHECK(page.find("title")->value == "Red one");
    }
}

TEST_CASE("what came by a link asks whose it is, until it is said to be one's own") {
    Page page(example("small-sag"));
    page.interface.set_whose(Whose::linked);
    page.draw(phone);
    REQUIRE(page.find("whose"));
    page.operate("whose.mine");
    CHECK(page.interface.take_wish() == "mine");
    CHECK_FALSE(page.find("whose"));
    CHECK(page.setup() == example("small-sag"));
}

TEST_CASE("an example that was changed can be kept as one's own, without its name") {
    Page page(example_setup());
    page.draw(phone);
    CHECK_FALSE(page.find("whose.mine"));
    page.operate("said.now.tail_mm", "-2");
    page.operate("whose.mine");
    CHECK(page.setup().title.empty());
    CHECK(page.setup().now.tail_mm == -2.0);
    CHECK_FALSE(page.find("whose"));
}

TEST_CASE("on a phone the whole set-up is on the first screen, and every part of it changes it") {
    for (const Screen& screen : {phone, Screen{390, 844, 3, true, false, true, 0, 0, 0, 0}}) {
        Page page(example_setup());
        page.screen = &screen;
        page.draw(screen);
        for (const char* id :
             {"said.now.strings", "said.now.tuning", "said.now.springs", "said.guitar.springs_owned",
              "said.now.tail_mm", "said.next.strings", "said.next.tuning", "said.next.tail_mm",
              "said.guitar.bridge", "said.guitar.scale_mm"}) {
            INFO(id);
            REQUIRE(page.find(id));
            CHECK(page.find(id)->high.y < screen.height - 70.0f); // above what is under the thumb
            CHECK(page.find(id)->high.y - page.find(id)->low.y >= 44.0f);
        }
        page.operate("said.now.strings", "9–42");
        CHECK(page.setup().now.strings.back().gauge_in == 0.009);
        page.operate("said.next.tuning", "drop C");
        CHECK(page.setup().next.tuning.front() == Pitch{'C', 0, 2});
        page.operate("said.next.tail_mm", "1,5");
        CHECK(page.setup().next.tail_mm == 1.5);
        page.operate("said.guitar.springs_owned", "4");
        CHECK(page.setup().guitar.springs_owned == 4);
        page.operate("said.now.tail_mm", "low");
        CHECK(page.find("said.now.tail_mm")->problem == "low is not a number");
        CHECK(page.setup().now.tail_mm == -1.0);
    }
}

TEST_CASE("a list opens over the page at what is chosen, and is narrowed by typing") {
    Page page(example_setup());
    page.draw(phone);
    page.touch("said.next.strings");
    REQUIRE(page.find("list.sought"));
    CHECK(page.options().size() > 20);
    const Control* current = nullptr;
    for (const Control& control : page.interface.controls().all())
        if (control.role == Role::option && control.value == "chosen")
            current = &control;
    REQUIRE(current);
    CHECK(current->label == "12–54");
    CHECK(current->low.y > page.find("list.sought")->high.y);
    CHECK(current->high.y <= phone.height);
    page.operate("list.sought", "42-9");
    CHECK(page.options() == std::vector<std::string>{"9–42"});
    page.touch("said.next.strings/2");
    CHECK(page.setup().next.strings.back().gauge_in == 0.009);
    CHECK(page.options().empty());
    // A touch beside it only closes it, whatever lies there.
    page.touch("said.now.strings");
    const Setup before = page.setup();
    page.touch_at(200.0f, 30.0f);
    CHECK(page.options().empty());
    CHECK(page.setup() == before);
}

TEST_CASE("what is typed finds a set or a tuning as players say it") {
    for (const char* typed : {"10-46", "10–46", "46-10", "1046", "10 46", ""})
        CHECK(is_sought("10–46", typed));
    for (const char* typed : {"9-42", "10-47", "x"})
        CHECK_FALSE(is_sought("10–46", typed));
    CHECK(is_sought("drop C sharp", "DROP c"));
    CHECK_FALSE(is_sought("C standard", "drop c"));
}

TEST_CASE("a list on a desk is gone through with arrows, taken with Enter and left with Escape") {
    Page page(example_setup());
    page.screen = &desktop;
    page.draw(desktop);
    auto press = [&](ImGuiKey key) {
        ImGui::GetIO().AddKeyEvent(key, true);
        page.draw(desktop, 2);
        ImGui::GetIO().AddKeyEvent(key, false);
        page.draw(desktop, 2);
    };
    page.touch("guitar.scale_mm");
    CHECK(page.options().size() == 13);
    page.draw(desktop, 10);
    CHECK_FALSE(page.interface.unfinished()); // nothing is drawn any more until something happens
    press(ImGuiKey_DownArrow);
    press(ImGuiKey_Enter);
    CHECK(page.options().empty());
    CHECK(page.find("guitar.scale_mm")->value == "26.25 in (666.75 mm)");
    page.touch("guitar.scale_mm");
    press(ImGuiKey_Escape);
    CHECK(page.options().empty());
    CHECK(page.find("guitar.scale_mm")->value == "26.25 in (666.75 mm)");
}

TEST_CASE("springs are put on and taken off by touching their hooks") {
    Page page(example_setup());
    page.draw(phone);
    page.touch("said.now.springs");
    REQUIRE(page.find("now.springs.hook[1]"));
    CHECK(page.find("now.springs.hook[0]")->value == "on");
    CHECK(page.find("now.springs.hook[1]")->value == "off");
    page.touch("now.springs.hook[1]");
    CHECK(page.setup().now.springs == Arrangement{{0, 0, {}}, {1, 1, {}}, {2, 2, {}}, {4, 4, {}}});
    for (const int hook : {0, 1, 2, 4})
        page.touch("now.springs.hook[" + std::to_string(hook) + "]");
    CHECK(page.setup().now.springs == Arrangement{{4, 4, {}}}); // the last one stays
    page.operate("over.close");
    CHECK_FALSE(page.find("now.springs.hook[0]"));
    CHECK(page.find("said.now.springs")->label.starts_with("one spring"));
}

TEST_CASE("undo and redo stand where they stood, whether or not there is a step to take") {
    Page page(example_setup());
    page.draw(phone);
    const Control undo = *page.find("undo");
    CHECK_FALSE(undo.enabled);
    CHECK(undo.low.y > 0.9f * phone.height); // under the thumb
    const float sentence = page.find("said.now.strings")->low.y;
    page.operate("said.next.tuning", "D standard");
    CHECK(page.find("undo")->enabled);
    CHECK(page.find("undo")->low.y == undo.low.y);
    page.operate("undo");
    CHECK(page.setup() == example_setup());
    CHECK(page.find("said.now.strings")->low.y == sentence);
}

TEST_CASE("on a desk the answer stays in sight however far the rest is scrolled") {
    Page page(example_setup());
    page.screen = &desktop;
    page.open_everything(desktop);
    const float before = page.find("answer")->low.y;
    page.interface.show("log.add");
    page.draw(desktop, 6);
    CHECK(page.find("log.add")->high.y <= desktop.height);
    CHECK(page.find("answer")->low.y == before);
}

TEST_CASE("words of the trade are explained where they are first in sight, by pointing or by a touch") {
    for (const Screen* screen : {&phone, &desktop}) {
        Page page(example_setup());
        page.screen = screen;
        page.open_everything(*screen);
        page.interface.show("answer");
        page.draw(*screen);
        const Control* claw = page.find("term.claw");
        REQUIRE(claw);
        CHECK(claw->value.starts_with("claw: the plate with hooks"));
        const auto all = page.interface.controls().all();
        CHECK(std::count_if(all.begin(), all.end(), [](const Control& c) { return c.id == "term.claw"; }) ==
              1);
        auto drawn_over = [] { return ImGui::GetForegroundDrawList()->VtxBuffer.Size; };
        CHECK(drawn_over() == 0);
        const float x = 0.5f * (claw->low.x + claw->high.x), y = 0.5f * (claw->low.y + claw->high.y);
        if (screen->touch)
            page.touch_at(x, y);
        else
            ImGui::GetIO().AddMousePosEvent(x, y);
        page.draw(*screen);
        CHECK(drawn_over() > 0);
        page.touch_at(x, y + 200.0f);
        CHECK(drawn_over() == 0);
    }
}
