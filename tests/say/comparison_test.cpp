#include "engine/say/comparison.h"

#include "engine/document/choices.h"
#include "engine/say/words.h"
#include "tests/support.h"

#include <algorithm>

using namespace counterpull;
using namespace counterpull::test;

namespace {

std::string why_of(const Setup& setup) {
    const auto why = why_so(*report(setup).report);
    return why ? english().say(*why) : "";
}

std::string row(const Report& report, std::string_view name) {
    for (const Compared& compared : before_and_after(report))
        if (compared.name == name)
            return english().say(compared.now) + " -> " + english().say(compared.after);
    return "";
}

} // namespace

TEST_CASE("before and after stand beside each other, by the report's own figures") {
    const Report told = *report(example("lower-and-heavier")).report;
    CHECK(row(told, "text.tail") == "−1.0 mm -> 0.0 mm");
    CHECK(row(told, "text.pull") == english().say(newtons(*told.now.total_tension_n, 0)) + " -> " +
                                        english().say(newtons(*told.next->total_tension_n, 0)));
    CHECK(row(told, "compared.springs") ==
          std::to_string(told.now.placed.size()) + " -> " + std::to_string(told.next->placed.size()));
    CHECK(row(told, "compared.screws").starts_with("as they are -> "));
    CHECK_FALSE(row(told, "compared.arm").empty());
}

TEST_CASE("nothing surprises where the screws follow the strings' pull") {
    Setup setup = usual_setup(presets().bridges.back());
    CHECK(why_of(setup).empty());
    setup.next.tuning = presets().tunings[1].notes; // a semitone down
    CHECK(why_of(setup).empty());
}

TEST_CASE("screws that are tightened for strings that pull less are explained by the tail") {
    Setup setup = usual_setup(presets().bridges.back());
    setup.next.tuning = presets().tunings[1].notes; // a semitone down
    setup.now.tail_mm = 6.0;
    const Report told = *report(setup).report;
    REQUIRE(told.next);
    REQUIRE(told.solution.more_turns() > 0.0);
    const std::string why = why_of(setup);
    INFO(why);
    CHECK(why.find("6.0 mm too high") != std::string::npos);
}

TEST_CASE("a spring more for strings that pull less says what is wrong with those that are on") {
    // Screws nearly out: what the strings give back can only be taken up where another spring changes the
    // claw's place.
    Setup setup = usual_setup(presets().bridges.back());
    setup.now.springs = {{2, 2, {}}};
    setup.now.tail_mm = -1.0;
    setup.next.tuning = presets().tunings[1].notes;
    const Report told = *report(setup).report;
    if (told.solution.advised().springs.size() <= 1) {
        WARN(english().say(why_so(told).value_or(Phrase{"why.more_work"})));
    }
    REQUIRE(told.solution.advised().springs.size() > 1);
    const std::string why = why_of(setup);
    INFO(why);
    CHECK(why.find("and yet a second spring is advised: on the one that is on it,") != std::string::npos);
}
