// The page without a window, used: springs taken from the list, readings entered, what is seen and set of a
// guitar.
#include "engine/say/answer.h"
#include "tests/headless.h"
#include "tests/support.h"

using namespace counterpull;
using namespace counterpull::test;

TEST_CASE("readings are added, entered and taken away again, and the answer follows") {
    Headless page(example("small-sag"));
    page.open_everything(desktop);
    const std::string before = page.interface.answer();
    auto ask = [&](const std::string& id, const std::string& value) {
        page.interface.controls().request(id, value);
        page.draw(desktop);
        page.draw(desktop);
    };
    ask("log.add", "in tune");
    REQUIRE(page.find("log[0].tail_mm"));
    CHECK(page.find("log[0].tail_mm")->value == "–"); // nothing is taken as read
    CHECK(page.interface.bench().setup().log.empty());
    CHECK(page.interface.answer() == before);
    ask("log[0].tail_mm", "-0.9");
    REQUIRE(page.interface.bench().setup().log.size() == 1);
    CHECK(page.interface.bench().setup().log[0].tail_mm == -0.9);
    CHECK(page.interface.answer() != before);
    CHECK(page.interface.answer().starts_with("Now "));
    CHECK(page.interface.bench().spread_history().size() == 2);
    ask("log[0].turns[0]", "-1/8");
    CHECK(page.interface.bench().setup().log[0].turns[1] == -0.125);
    ask("log[0].remove", "");
    CHECK(page.interface.bench().setup().log.empty());
    CHECK(page.interface.answer() == before);
    ask("log.add", "each string tuned once by the tuning sheet");
    ask("log[0].cents[0]", "4");
    REQUIRE(page.interface.bench().setup().log.size() == 1);
    REQUIRE(page.interface.bench().setup().log[0].aim_cents);
    CHECK((*page.interface.bench().setup().log[0].cents)[0] == 4.0);
    CHECK_FALSE(page.interface.bench().outdated());
}

TEST_CASE("a reading stays one of what was wanted when it was taken, until that is wanted again") {
    Headless page(example("small-sag"));
    page.open_everything(desktop);
    auto ask = [&](const std::string& id, const std::string& value) {
        page.interface.controls().request(id, value);
        page.draw(desktop);
        page.draw(desktop);
    };
    ask("log.add", "in tune");
    ask("log[0].tail_mm", "-0.9");
    const Setup before = page.interface.bench().setup();
    REQUIRE(before.log.size() == 1);
    ask("next.tuning", "drop D");
    const Setup& after = page.interface.bench().setup();
    REQUIRE(after.next.tuning != before.next.tuning);
    REQUIRE(after.log.size() == 1);
    CHECK(after.log[0].own == OwnStrings{before.next.strings, before.next.tuning, before.next.offset_cents});
    CHECK(after.log[0].tail_mm == -0.9);
    CHECK_FALSE(page.interface.bench().outdated());
    REQUIRE(matching_tuning(before.next.tuning));
    ask("next.tuning", matching_tuning(before.next.tuning)->name);
    CHECK(page.interface.bench().setup() == before);
}

TEST_CASE("springs are taken from the list, marked, and given back") {
    for (const Screen& screen : {desktop, phone}) {
        Headless page(example("small-sag"));
        page.open_everything(screen);
        const Setup before = page.interface.bench().setup();
        const std::string answer = page.interface.answer();
        const std::string four = "choice 0-0 1-1 3-3 4-4";
        auto press = [&](const std::string& id) {
            page.interface.controls().request(id, "");
            page.draw(screen);
        };
        REQUIRE(page.find(four));
        CHECK(page.find(four)->role == Role::button);
        CHECK(page.find(four)->label == "Take this: 4 on hooks 1, 2, 4 and 5");
        REQUIRE(page.find(four + " said"));
        CHECK(page.find(four + " said")->value.find("turns, looser (") != std::string::npos);
        CHECK_FALSE(page.find("next.springs"));
        press(four);
        REQUIRE(page.interface.bench().setup().next.springs);
        CHECK(page.interface.bench().report().carried_out.placed ==
              *page.interface.bench().setup().next.springs);
        CHECK(page.interface.answer().starts_with("Add a spring, then loosen each claw screw"));
        REQUIRE(page.find(four)); // under the same name, for whoever has the focus on it
        CHECK(page.find(four)->label == "As recommended");
        CHECK(page.find(four + " said")->value.find("chosen by you; 2") != std::string::npos);
        REQUIRE(page.find("next.springs"));
        CHECK(page.controls_are_high_enough(screen));
        press(four);
        CHECK(page.interface.bench().setup() == before);
        CHECK(page.interface.answer() == answer);
        press(four);
        press("next.springs");
        CHECK(page.interface.bench().setup() == before);
        press("undo");
        CHECK(page.interface.bench().setup().next.springs);
    }
}

TEST_CASE("springs taken that cannot be are told so, and given back") {
    Setup setup = example("small-sag");
    setup.next.springs = {{0, 0, {}}, {0, 1, {}}}; // one hook twice
    Headless page(setup);
    page.open_everything(phone);
    CHECK(page.interface.bench().outdated());
    REQUIRE(page.find("next.springs"));
    page.interface.controls().request("next.springs", "");
    page.draw(phone);
    CHECK_FALSE(page.interface.bench().outdated());
    setup.next.springs = {{2, 2, {}}}; // one for all: the thread is too short
    page.interface.bench().open(setup);
    page.open_everything(phone);
    CHECK(page.interface.answer().starts_with("It does not work on the springs you chose: "));
    REQUIRE(page.find("choice 2-2"));
    page.interface.controls().request("choice 2-2", "");
    page.draw(phone);
    CHECK(page.interface.answer() == english().say(answer_sentence(*report(example("small-sag")).report)));
}

TEST_CASE("a reading far from what was expected is questioned beside it, at once") {
    Headless page(example("small-sag"));
    page.open_everything(phone);
    auto ask = [&](const std::string& id, const std::string& value) {
        page.interface.controls().request(id, value);
        page.draw(phone);
        page.draw(phone);
    };
    ask("log.add", "in tune");
    CHECK_FALSE(page.find("log[0].warning[0]"));
    ask("log[0].tail_mm", "9");
    REQUIRE(page.find("log[0].warning[0]"));
    CHECK(page.find("log[0].warning[0]")->value.find("you read +9.0 mm") != std::string::npos);
    ask("log[0].tail_mm", "0");
    CHECK_FALSE(page.find("log[0].warning[0]"));
}

TEST_CASE("springs at hand, what the bridge turns on, its friction and the nut's clamps are seen and set") {
    Headless page(example("small-sag"));
    page.open_everything(desktop);
    auto ask = [&](const std::string& id, const std::string& value) {
        page.interface.controls().request(id, value);
        page.draw(desktop);
        page.draw(desktop);
    };
    const GuitarSetup& guitar = page.interface.bench().setup().guitar;
    ask("guitar.springs_owned", "4");
    CHECK(guitar.springs_owned == 4);
    const std::string cents = page.find("guitar.bridge.return_cents")->value;
    ask("guitar.bridge.kind", "a row of screws");
    CHECK(guitar.bridge.kind == Pivot::screw_plate);
    CHECK(page.find("guitar.bridge.return_cents")->value == "10 cents"); // what is usual of those
    CHECK_FALSE(guitar.bridge.return_cents);
    ask("guitar.bridge.return_cents", "4");
    CHECK(guitar.bridge.return_cents == 4.0);
    ask("guitar.bridge.return_cents", "10");
    CHECK_FALSE(guitar.bridge.return_cents);
    ask("guitar.nut_clamps", "");
    const bool clamps = nut_has_clamps(guitar);
    CHECK(page.find("guitar.nut_clamps")->value == (clamps ? "on" : "off"));
    CHECK((page.find("guitar.nut_locked") != nullptr) == clamps);
    ask("guitar.nut_clamps", "");
    CHECK(nut_has_clamps(guitar) == !clamps);
    CHECK_FALSE(page.interface.bench().outdated());
}

TEST_CASE("other springs or another bridge say what they took, until something is read anew") {
    Headless page(example("three-readings-in"));
    page.open_everything(phone);
    auto ask = [&](const std::string& id, const std::string& value) {
        page.interface.controls().request(id, value);
        page.draw(phone, 2);
    };
    const Setup before = page.interface.bench().setup();
    const std::string springs = std::to_string(before.now.springs.size());
    ask("now.springs", springs); // as many as there are, where they are
    REQUIRE(page.interface.bench().setup() == before);
    CHECK_FALSE(page.find("now.springs.gone"));
    ask("now.springs.hook[1]", "");
    ask("now.springs.hook[1]", "");
    CHECK(page.interface.bench().setup().log.empty());
    REQUIRE(page.find("now.springs.gone"));
    CHECK(page.find("now.springs.gone")->value.starts_with(std::to_string(before.log.size()) + " readings"));
    CHECK_FALSE(page.find("guitar.gone"));
    ask("log.add", "in tune");
    ask("log[0].tail_mm", "0");
    CHECK_FALSE(page.find("now.springs.gone"));
    page.interface.bench().open(before);
    page.draw(phone);
    ask("strings.count", "7");
    CHECK(page.find("guitar.gone"));
    ask("undo", "");
    CHECK(page.interface.bench().setup() == before);
    CHECK_FALSE(page.find("guitar.gone"));
    ask("guitar.bridge", presets().bridges.back().name);
    CHECK(page.interface.bench().setup().log.empty());
    CHECK(page.find("guitar.gone"));
}
