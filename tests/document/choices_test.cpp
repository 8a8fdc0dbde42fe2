#include "engine/document/choices.h"
#include "tests/bench_support.h"

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
        for (const std::size_t strings : {4u, 5u, 6u, 7u, 8u}) {
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

TEST_CASE("a retired kind of bridge is offered only where it is on") {
    auto numbers = [](const BridgePreset& on) {
        std::vector<int> all;
        for (const BridgePreset* preset : offered_bridges(on))
            all.push_back(preset->number);
        return all;
    };
    CHECK(numbers(other_bridge()) == std::vector<int>{2, 3, 4, 5});
    const BridgePreset& first_edition = nearest_bridge(example("lower-and-heavier").guitar.bridge);
    CHECK(first_edition.retired);
    CHECK(numbers(first_edition) == std::vector<int>{1, 2, 3, 4, 5});
    // Measured anew it is as near to the one that is offered.
    Setup setup = example("lower-and-heavier");
    setup.guitar.bridge.saddle_setback_mm = {{14, 13, 12, 11.5, 10, 9}};
    CHECK(nearest_bridge(setup.guitar.bridge).number == 4);
}

TEST_CASE("a bridge is of the kind that it is said to be, whatever it measures") {
    Setup setup = example("lower-and-heavier");
    setup.guitar.bridge.kind = Pivot::screw_plate;
    CHECK(nearest_bridge(setup.guitar.bridge).bridge.kind == Pivot::screw_plate);
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
    CHECK(setup.guitar.bridge.kind == Pivot::two_posts);
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

TEST_CASE("a spring that stays keeps its length, and the same springs put on keep what was read") {
    Setup setup = example("strings-are-off");
    setup.now.springs = {{0, 0, {}}, {2, 2, {}}, {4, 4, {}}};
    setup.now.spring_mm = {70.0, 72.0, 74.0};
    setup.log.emplace_back();
    setup.bench.emplace();
    put_springs(setup, setup.now.springs);
    CHECK(setup.log.size() == 1);
    CHECK(setup.bench);
    put_springs(setup, {{0, 0, {}}, {1, 1, {}}, {4, 4, {}}});
    CHECK(*setup.now.spring_mm == std::vector{70.0, 70.0, 74.0});
    CHECK(setup.log.empty());
    CHECK_FALSE(setup.bench);
    put_springs(setup, {{1, 1, {}}, {4, 4, {}}});
    CHECK(*setup.now.spring_mm == std::vector{70.0, 74.0});
    put_springs(setup, {{0, 1, {}}, {1, 0, {}}, {4, 4, {}}}); // elsewhere hung in
    CHECK(*setup.now.spring_mm == std::vector{70.0, 70.0, 74.0});
}

TEST_CASE("another bridge drops what was read with the one before, the same one does not") {
    Setup setup = light_set_level();
    put_bridge(setup, other_bridge());
    setup.log.emplace_back();
    setup.log.back().tail_mm = setup.guitar.bridge.tail_limits_mm[0];
    setup.bench.emplace();
    put_bridge(setup, other_bridge());
    CHECK(setup.log.size() == 1);
    CHECK(setup.bench);
    put_bridge(setup, presets().bridges.back());
    CHECK(setup.log.empty());
    CHECK_FALSE(setup.bench);
}

TEST_CASE("another number of strings brings a set, a tuning and dimensions, and drops the readings") {
    for (const std::size_t strings : {4u, 5u, 6u, 7u, 8u}) {
        INFO(strings);
        Setup setup = example("lower-and-heavier");
        setup.log.emplace_back();
        setup.bench.emplace();
        setup.now.offset_cents = {{1, 2, 3, 4, 5, 6}};
        change_string_count(setup, strings);
        CHECK(strings_of(setup) == strings);
        CHECK(setup.now.strings == setup.next.strings);
        CHECK(setup.guitar.scale_mm.at(0) == (strings < 6 ? 863.6 : 647.7));
        CHECK(setup.now.tuning.size() == strings);
        CHECK(setup.next.tuning.size() == strings);
        CHECK(setup.now.offset_cents == PerString{});
        CHECK(setup.log.empty());
        CHECK_FALSE(setup.bench);
        Problems problems;
        check_setup(setup, problems);
        CHECK(problems.none());
    }
    const Setup before = example("lower-and-heavier");
    Setup setup = before;
    change_string_count(setup, 11); // there are no sets for so many
    CHECK(setup == before);
}

TEST_CASE("a reading stays one of the strings and the tuning wanted when it was taken") {
    const Setup before = example("three-readings-in");
    auto kept_by = [&](auto&& change) {
        Setup after = before;
        change(after);
        keep_readings_true(before, after);
        return after;
    };
    const OwnStrings wanted{before.next.strings, before.next.tuning, before.next.offset_cents};
    for (const Setup& after : {kept_by([](Setup& s) { s.next.tuning[0] = *parse_pitch("B1"); }),
                               kept_by([](Setup& s) { s.next.strings[0].gauge_in = 0.056; }),
                               kept_by([](Setup& s) { s.next.offset_cents.values = {-5}; })}) {
        REQUIRE(after.log.size() == before.log.size());
        for (std::size_t e = 0; e < after.log.size(); ++e) {
            REQUIRE(before.log[e].strings == Which::next);
            CHECK(after.log[e].own == wanted);
            CHECK(fitting_of(after, after.log[e]).strings == before.next.strings);
            CHECK(fitting_of(after, after.log[e]).tuning == before.next.tuning);
        }
        Problems problems;
        check_setup(after, problems);
        CHECK(problems.none());
    }
    // What they do not refer to may change.
    CHECK(kept_by([](Setup& s) { s.next.tail_mm = 1.0; }).log == before.log);
    CHECK(kept_by([](Setup& s) { s.now.tuning[0] = *parse_pitch("D2"); }).log == before.log);
    CHECK(kept_by([](Setup& s) { s.log.pop_back(); }).log.size() == before.log.size() - 1);
}

TEST_CASE("a reading of what was on the guitar stays one when that is described anew") {
    Setup before = example("three-readings-in");
    before.log.resize(1);
    before.log[0].strings = before.log[0].tuning = Which::now;
    Setup after = before;
    after.now.strings[5].gauge_in = 0.0095;
    keep_readings_true(before, after);
    CHECK(after.log[0].own == OwnStrings{before.now.strings, before.now.tuning, before.now.offset_cents});
    // One that was taken on the new strings in the old tuning keeps both.
    before.log[0].strings = Which::next;
    after = before;
    after.now.tuning[0] = *parse_pitch("D2");
    keep_readings_true(before, after);
    CHECK(after.log[0].own == OwnStrings{before.next.strings, before.now.tuning, before.now.offset_cents});
}

TEST_CASE("wanting again what was wanted when a reading was taken makes it a reading of that again") {
    const Setup first = example("three-readings-in");
    Setup second = first, third;
    second.next.tuning[0] = *parse_pitch("B1");
    keep_readings_true(first, second);
    REQUIRE(second.log[0].own);
    third = second; // and on to yet another: what was read then does not follow
    third.next.tuning[0] = *parse_pitch("A1");
    keep_readings_true(second, third);
    CHECK(third.log == second.log);
    Setup back = third;
    back.next.tuning = first.next.tuning;
    keep_readings_true(third, back);
    CHECK(back == first);
}

TEST_CASE("a reading in a set-up that was refused belongs to what that is mended into") {
    Setup before = example("three-readings-in");
    before.next.strings[0].gauge_in = 0.5; // a slip
    Setup after = before;
    after.next.strings[0].gauge_in = 0.05;
    keep_readings_true(before, after);
    CHECK(after == example("three-readings-in"));
}

TEST_CASE("a job goes on from where the wanted strings or their tuning were changed in its midst") {
    Setup before = example("lower-and-heavier");
    before.bench.emplace();
    before.bench->done.resize(2);
    Setup after = before;
    after.next.strings[0].gauge_in = 0.060;
    keep_readings_true(before, after);
    CHECK(after.bench->strings_since == 2);
    CHECK(after.bench->tuning_since == 0);
    after = before;
    after.next.offset_cents.values = {-10.0};
    keep_readings_true(before, after);
    CHECK(after.bench->strings_since == 0);
    CHECK(after.bench->tuning_since == 2);
    before.bench->done.clear(); // nothing is done that could be undone by it
    after = before;
    after.next.tuning = notes_of("D2 G2 C3 F3 A3 D4");
    keep_readings_true(before, after);
    CHECK(after.bench == before.bench);
}

TEST_CASE("the next job begins with what the last one left on the guitar") {
    Setup setup = example("three-readings-in");
    setup.bench.emplace();
    setup.next.springs = setup.now.springs;
    Reading last = setup.log.back();
    last.kind = ReadingKind::in_tune;
    last.tail_mm = 0.2;
    last.turns = {-1.5, -2.5};
    last.springs = {{1, 1, {}}, {3, 3, {}}};
    setup.log.push_back(last);
    const Setup before = setup;
    begin_next_job(setup);
    CHECK(setup.title == before.title);
    CHECK(setup.now.strings == before.next.strings);
    CHECK(setup.now.tuning == before.next.tuning);
    CHECK(setup.now.offset_cents == before.next.offset_cents);
    CHECK(setup.now.springs == last.springs);
    CHECK(setup.now.tail_mm == 0.2);
    CHECK(setup.now.in_tune);
    // The readings stay those that they were, their turns counted from here, after what was "now".
    REQUIRE(setup.log.size() == before.log.size() + 1);
    CHECK(setup.log[0].kind == ReadingKind::in_tune);
    CHECK(setup.log[0].own == OwnStrings{before.now.strings, before.now.tuning, before.now.offset_cents});
    CHECK(setup.log[0].springs == before.now.springs);
    CHECK(setup.log[0].tail_mm == before.now.tail_mm);
    CHECK(setup.log[0].turns == std::array{1.5, 2.5});
    for (std::size_t e = 0; e < before.log.size(); ++e) {
        const Reading& kept = setup.log[e + 1];
        CHECK(kept.turns[0] == Approx(before.log[e].turns[0] + 1.5));
        CHECK(kept.turns[1] == Approx(before.log[e].turns[1] + 2.5));
        CHECK(kept.tail_mm == before.log[e].tail_mm);
        if (before.log[e].strings == Which::now)
            CHECK(kept.own->strings == before.now.strings);
    }
    CHECK_FALSE(setup.bench);
    CHECK_FALSE(setup.next.springs);
    CHECK(setup.guitar.bay.turns_in_left == Approx(before.guitar.bay.turns_in_left + 2.0));
    CHECK(setup.guitar.bay.turns_out_left == Approx(before.guitar.bay.turns_out_left - 2.0));
    const Report told = answered(setup);
    CHECK(std::abs(told.solution.more_turns()) < 0.5); // level but for the 0.2 mm

    Setup again = setup; // nothing is read meanwhile: all that it could say is there
    begin_next_job(again);
    CHECK(again == setup);

    Setup unread = example("small-sag");
    begin_next_job(unread);
    CHECK(unread == example("small-sag"));
}

TEST_CASE("a job that was finished is finished too when the next one begins") {
    int turned_first = 0;
    for (const std::string& name : example_names())
        for (const Way way : {plain, wedge}) {
            Setup setup;
            if (kinds_until_finished(by_way(example(name), way), &setup).back() != StepKind::finished)
                continue;
            INFO(name << (way.wedge ? ", wedge" : ", plain"));
            const double left = answered(setup).solution.more_turns();
            turned_first += setup.log.front().kind == ReadingKind::after_turn;
            begin_next_job(setup);
            // What the readings say is the same, counted from elsewhere.
            CHECK(answered(setup).solution.more_turns() == Approx(left).margin(0.03));
        }
    CHECK(turned_first > 0);
}

TEST_CASE("a first reading of strings that were off stays one of strings that came up from slack") {
    Setup setup = until(by_way(example("strings-are-off"), plain), StepKind::finished);
    REQUIRE(setup.log.front().kind == ReadingKind::after_pass);
    const std::size_t readings = setup.log.size();
    begin_next_job(setup);
    REQUIRE(setup.log.size() == readings);
    CHECK(setup.log.front().from_slack);
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
        const double pitch_mm =
            preset.threads_per_inch > 0.0 ? 25.4 / preset.threads_per_inch : preset.screw_pitch_mm;
        REQUIRE(matching_screw(pitch_mm)); // to two decimals
        CHECK(matching_screw(pitch_mm)->number == preset.number);
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
