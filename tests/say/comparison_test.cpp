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
    setup.now.tail_mm = 10.0;
    const Report told = *report(setup).report;
    REQUIRE(told.next);
    REQUIRE(told.solution.more_turns() > 0.0);
    const std::string why = why_of(setup);
    INFO(why);
    CHECK(why.find("10.0 mm too high") != std::string::npos);
}

TEST_CASE("a spring more for strings that pull less says what is against those that are on") {
    // Two springs float, but so softly that setting them takes long.
    Setup setup = usual_setup(presets().bridges.back());
    setup.now.springs = {{1, 1, {}}, {3, 3, {}}};
    setup.guitar.bay.turns_out_left = 14.0;
    setup.next.tuning = presets().tunings[1].notes;
    Report told = *report(setup).report;
    REQUIRE(told.solution.advised().springs.size() == 3);
    CHECK(why_of(setup).find("and yet another spring is advised: on the 2 that are on it, it would take "
                             "more work") != std::string::npos);
    auto& all = told.solution.advice;
    const auto as_it_is = std::find_if(all.begin(), all.end(), [](const Advice& a) { return a.moved == 0; });
    REQUIRE(as_it_is != all.end());
    // Where they alone must be measured first, that is; where they do not fit at all, that.
    REQUIRE(as_it_is->fits());
    all.front().measure_first = false;
    as_it_is->measure_first = true;
    CHECK(why_so(told)->key == "why.spring_more");
    CHECK(english().say(*why_so(told)).find("on the 2 that are on it, anywhere between its stops") !=
          std::string::npos);
    setup.guitar.spring.longest_mm = as_it_is->springs_after.front().length_mm - 1.0;
    const Report over = *report(setup).report;
    REQUIRE(over.next);
    REQUIRE(over.solution.advised().springs.size() > 2);
    CHECK(why_of(setup).find("a spring is stretched to") != std::string::npos);
}
