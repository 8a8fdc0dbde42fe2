#include "engine/document/choices.h"
#include "tests/support.h"

using namespace counterpull;
using namespace counterpull::test;

namespace {

const BridgePreset& other_bridge() {
    REQUIRE(presets().bridges.size() > 1);
    return presets().bridges[1];
}

} // namespace

TEST_CASE("each kind of bridge put on is the nearest kind afterwards") {
    for (const BridgePreset& preset : presets().bridges)
        for (const std::size_t strings : {std::size_t{6}, std::size_t{7}, std::size_t{8}}) {
            INFO(preset.name << ", " << strings);
            Setup setup = light_set_level();
            change_string_count(setup, strings);
            put_bridge(setup, preset);
            CHECK(nearest_bridge(setup.guitar.bridge).number == preset.number);
        }
}

TEST_CASE("a bridge with one dimension measured is still of its kind") {
    Setup setup = light_set_level();
    put_bridge(setup, other_bridge());
    setup.guitar.bridge.block_depth_mm += 0.7;
    CHECK(nearest_bridge(setup.guitar.bridge).number == other_bridge().number);
}

TEST_CASE("another kind of bridge brings its dimensions and its aim, and keeps its own weight") {
    Setup setup = light_set_level();
    setup.guitar.bridge.mass_g = 321.0;
    setup.guitar.bridge.mass_setback_mm = 17.0;
    setup.guitar.basis = {{"bridge.block_depth_mm", Basis::measured}};
    const BridgePreset& preset = other_bridge();
    put_bridge(setup, preset);
    CHECK(setup.guitar.bridge.block_depth_mm == preset.bridge.block_depth_mm);
    CHECK(setup.guitar.bay.claw_depth_mm == preset.bay.claw_depth_mm);
    CHECK(setup.next.tail_mm == preset.usual_aim_mm);
    CHECK(setup.guitar.bridge.mass_g == 321.0);
    CHECK(setup.guitar.bridge.mass_setback_mm == 17.0);
    CHECK(setup.guitar.basis.empty()); // what was measured was the other bridge
}

TEST_CASE("a reading that the new bridge cannot give is replaced, another is kept") {
    const BridgePreset& preset = other_bridge();
    const auto& limits = preset.bridge.tail_limits_mm;
    for (const double impossible : {limits[0] - 1.0, limits[0], limits[1], limits[1] + 1.0}) {
        Setup setup = light_set_level();
        setup.now.tail_mm = impossible;
        put_bridge(setup, preset);
        INFO(impossible);
        CHECK(setup.now.tail_mm > limits[0]);
        CHECK(setup.now.tail_mm < limits[1]);
    }
    Setup setup = light_set_level();
    setup.now.tail_mm = 0.5 * (limits[0] + limits[1]) + 0.25;
    put_bridge(setup, preset);
    CHECK(setup.now.tail_mm == 0.5 * (limits[0] + limits[1]) + 0.25);
}

TEST_CASE("another number of strings brings a set, a tuning and dimensions, and drops the readings") {
    for (const std::size_t strings : {std::size_t{6}, std::size_t{7}, std::size_t{8}}) {
        INFO(strings);
        Setup setup = example("lower-and-heavier");
        setup.log.emplace_back();
        setup.now.offset_cents = {{1, 2, 3, 4, 5, 6}};
        change_string_count(setup, strings);
        CHECK(strings_of(setup) == strings);
        CHECK(setup.now.strings == setup.next.strings);
        CHECK(setup.now.tuning.size() == strings);
        CHECK(setup.next.tuning.size() == strings);
        CHECK(setup.now.offset_cents == PerString{});
        CHECK(setup.log.empty());
        Problems problems;
        check_setup(setup, problems);
        CHECK(problems.none());
    }
    const Setup before = example("lower-and-heavier");
    Setup setup = before;
    change_string_count(setup, 11); // there are no sets for so many
    CHECK(setup == before);
}

TEST_CASE("what a preset gave is found under its name, and what nothing gave is not") {
    for (const StringSetPreset& preset : presets().string_sets) {
        REQUIRE(matching_set(preset.strings));
        CHECK(matching_set(preset.strings)->strings == preset.strings);
    }
    for (const TuningPreset& preset : presets().tunings) {
        REQUIRE(matching_tuning(preset.notes));
        CHECK(matching_tuning(preset.notes)->notes == preset.notes);
    }
    for (const SpringPreset& preset : presets().springs) {
        REQUIRE(matching_spring(preset.spring));
        CHECK(matching_spring(preset.spring)->number == preset.number);
    }
    for (const ScrewPreset& preset : presets().screws) {
        REQUIRE(matching_screw(25.4 / preset.threads_per_inch)); // to two decimals
        CHECK(matching_screw(25.4 / preset.threads_per_inch)->number == preset.number);
    }
    for (const HeadstockPreset& preset : presets().headstocks) {
        const auto* found = matching_headstock(spread_over(preset.headstock_mm, 7), 7);
        REQUIRE(found);
        CHECK(found->number == preset.number);
    }
    CHECK_FALSE(matching_set(set_of("42w 32w 24w 16 11 8")));
    CHECK_FALSE(matching_tuning(notes_of("E2 A2 D3 G3 B3 F4")));
    CHECK_FALSE(matching_spring({2.37, 61.0, 5.0, 99.0}));
    CHECK_FALSE(matching_screw(1.6));
    CHECK_FALSE(matching_headstock({{41, 66, 91, 119, 146, 173}}, 6));
}

TEST_CASE("the standard spring is the one called so") {
    const SpringPreset* found = matching_spring(standard_spring());
    REQUIRE(found);
    CHECK(found->name == "standard");
}
