#include "engine/advice/alternatives.h"
#include "engine/advice/arrangements.h"
#include "engine/document/presets.h"
#include "engine/say/answer.h"
#include "tests/support.h"

#include <algorithm>

using namespace counterpull;
using namespace counterpull::test;

namespace {

// Three springs, a bay with no room for more, hardly any thread, and a heavy set to come.
Setup hopeless() {
    Setup setup = example("cannot-float");
    setup.guitar.springs_owned = 2;
    for (PlacedSpring& placed : setup.now.springs)
        placed.spring.reset();
    setup.guitar.springs_owned = 3;
    setup.guitar.bay.hook_mm = {-20, 0, 20};
    setup.guitar.bay.hole_mm = {-20, 0, 20};
    setup.now.springs = {{0, 0, {}}, {1, 1, {}}, {2, 2, {}}};
    setup.guitar.bay.turns_in_left = 1;
    return setup;
}

} // namespace

TEST_CASE("where nothing fits the nearest that works is named, and it does work") {
    const Setup setup = hopeless();
    const Report report = answered(setup);
    REQUIRE_FALSE(report.solution.advice[0].fits());
    REQUIRE_FALSE(report.instead.empty());
    for (const Alternative& alternative : report.instead) {
        Setup other = setup;
        if (alternative.change == Change::strings)
            for (const StringSetPreset& preset : presets().string_sets)
                if (preset.name == alternative.preset && preset.strings.size() == other.next.strings.size())
                    other.next.strings = preset.strings;
        if (alternative.change == Change::tuning)
            for (double& cents : other.next.offset_cents.values)
                cents += 100.0 * alternative.semitones;
        const auto works = first_that_fits(Belief(other), report.now.claw, {alternative.springs});
        REQUIRE(works);
        CHECK(*works->turns == Approx(alternative.turns));
        CHECK(works->settable());
        if (alternative.change == Change::tuning) // and one semitone nearer does not
            for (double& cents : other.next.offset_cents.values)
                cents -= alternative.semitones > 0 ? 100.0 : -100.0;
        if (alternative.change == Change::tuning && std::abs(alternative.semitones) > 1) {
            bool nearer = false;
            for (const Arrangement& springs : straight_arrangements(other))
                nearer = nearer || first_that_fits(Belief(other), report.now.claw, {springs}).has_value();
            CHECK_FALSE(nearer);
        }
    }
    const std::vector<Phrase> details = answer_details(report);
    CHECK(std::any_of(details.begin(), details.end(),
                      [](const Phrase& p) { return p.key.starts_with("instead."); }));
}

TEST_CASE("where something fits nothing else is proposed") {
    CHECK(answered(example("small-sag")).instead.empty());
}

TEST_CASE("of the kinds of spring that would work, the one with the least to turn is named") {
    Setup setup = example("strings-are-off");
    setup.guitar.spring.rate_n_mm = 0.3; // far too weak
    setup.next.strings = set_of("42w 32w 24w 16 11 9");
    setup.now.spring_mm = {70.0, 70.0, 70.0};
    const Report report = answered(setup);
    const auto named = std::find_if(report.instead.begin(), report.instead.end(),
                                    [](const Alternative& a) { return a.change == Change::springs; });
    REQUIRE(named != report.instead.end());
    int kinds = 0;
    double least = 1e9;
    for (const SpringPreset& preset : presets().springs) {
        std::vector<Arrangement> all;
        for (int count = 1; count <= static_cast<int>(setup.guitar.bay.hook_mm.size()); ++count) {
            all.push_back(evenly_placed(setup.guitar.bay, count));
            for (PlacedSpring& placed : all.back())
                placed.spring = preset.spring;
        }
        if (preset.spring == setup.guitar.spring)
            continue;
        if (const auto works = first_that_fits(Belief(setup), report.now.claw, all)) {
            ++kinds;
            least = std::min(least, std::abs(*works->turns));
        }
    }
    REQUIRE(kinds >= 3);
    CHECK(std::abs(named->turns) == Approx(least));
}
