#include "engine/advice/report.h"
#include "engine/base/units.h"
#include "engine/document/presets.h"
#include "tests/support.h"

#include <nlohmann/json.hpp>

#include <cmath>
#include <set>

using namespace counterpull;
using namespace counterpull::test;
using nlohmann::json;

namespace {

const std::vector<std::string> files = {"bridges", "gauges",  "headstocks",  "scales",
                                        "screws",  "springs", "string_sets", "tunings"};

template <class List>
const auto& named(const List& list, const std::string& name) {
    for (const auto& preset : list)
        if (preset.name == name)
            return preset;
    throw std::runtime_error("no preset " + name);
}

} // namespace

TEST_CASE("every preset file says where its values come from, and numbers its items once") {
    for (const std::string& name : files) {
        INFO(name);
        const json file = json::parse(read_file("presets/" + name + ".json"));
        CHECK(file.at("format") == "counterpull-presets/1");
        CHECK(file.at("version").is_number_integer());
        const std::string provenance = file.at("provenance");
        CHECK((provenance.find("common practice") != std::string::npos ||
               provenance.find("from memory") != std::string::npos));
        std::set<int> numbers;
        std::set<std::string> names;
        for (const json& item : file.at("items")) {
            CHECK(numbers.insert(item.at("number").get<int>()).second);
            CHECK(names.insert(item.at("name").get<std::string>()).second);
            CHECK(item.at("number").get<int>() > 0);
        }
        CHECK(!numbers.empty());
    }
}

TEST_CASE("every preset is loaded") {
    const Presets& all = presets();
    auto count = [](const std::string& name) {
        return json::parse(read_file("presets/" + name + ".json"))["items"].size();
    };
    CHECK(all.string_sets.size() == count("string_sets"));
    CHECK(all.tunings.size() == count("tunings"));
    CHECK(all.bridges.size() == count("bridges"));
    CHECK(all.springs.size() == count("springs"));
    CHECK(all.screws.size() == count("screws"));
    CHECK(all.headstocks.size() == count("headstocks"));
    CHECK(all.scales.size() == count("scales"));
}

TEST_CASE("each kind of bridge offered floats stably on three standard springs and moves 2 to 6 mm a turn") {
    // presets.md: a light and a usual set in E standard, at the usual aim; common practice.
    const Presets& all = presets();
    for (const BridgePreset& bridge : all.bridges) {
        if (bridge.retired)
            continue;
        REQUIRE(bridge.bridge.kind);
        for (const char* set : {"9–42", "10–46"}) {
            INFO(bridge.name << ", " << set);
            Setup setup = light_set_level();
            setup.guitar.bridge = bridge.bridge;
            setup.guitar.bay = bridge.bay;
            setup.guitar.spring = named(all.springs, "standard").spring;
            setup.now.strings = setup.next.strings = named(all.string_sets, set).strings;
            setup.now.tail_mm = setup.next.tail_mm = bridge.usual_aim_mm;
            const Report report = answered(setup);
            REQUIRE(report.untouched.outcome == RestKind::floats);
            REQUIRE(report.untouched.per_turn_mm);
            CHECK(*report.untouched.per_turn_mm < -2.0);
            CHECK(*report.untouched.per_turn_mm > -6.0);
            CHECK(report.warnings.empty());
            for (const SpringState& spring : report.now.springs) {
                CHECK(spring.length_mm > setup.guitar.spring.free_length_mm);
                CHECK(spring.length_mm < setup.guitar.spring.longest_mm);
            }
        }
    }
}

TEST_CASE("a quarter turn moves the recessed kind by 0.6 to 1.2 mm") {
    // Common practice: what a repairer expects of 9–42 and of 10–46 in E on three standard springs.
    for (const char* set : {"9–42", "10–46"}) {
        INFO(set);
        const BridgePreset& bridge = named(presets().bridges, "recessed double-locking knife edge");
        CHECK_FALSE(bridge.retired);
        Setup setup = light_set_level();
        setup.guitar.bridge = bridge.bridge;
        setup.guitar.bay = bridge.bay;
        setup.guitar.spring = named(presets().springs, "standard").spring;
        setup.now.strings = setup.next.strings = named(presets().string_sets, set).strings;
        const Report report = answered(setup);
        REQUIRE(report.untouched.per_turn_mm);
        CHECK(-0.25 * *report.untouched.per_turn_mm >= 0.6);
        CHECK(-0.25 * *report.untouched.per_turn_mm <= 1.2);
    }
}

TEST_CASE("a preset once released keeps its number and its values") {
    // As released first; links are made of them.
    const Presets& all = presets();
    REQUIRE(all.bridges.size() >= 3);
    CHECK(all.bridges[0].number == 1);
    CHECK(all.bridges[0].retired);
    CHECK(all.bridges[0].bridge.saddle_setback_mm == PerString{{16, 15, 14, 13.5, 12, 11}});
    CHECK(all.bridges[0].bridge.saddle_height_mm == PerString{{8.5}});
    CHECK(all.bridges[0].bridge.block_depth_mm == 38.0);
    CHECK(all.bridges[1].bridge.saddle_setback_mm == PerString{{13, 12, 11, 11.5, 10, 9}});
    CHECK(all.bridges[2].usual_aim_mm == 2.5);
    CHECK(all.springs[1].spring == SpringSetup{2.4, 60, 6, 100});
    CHECK(all.screws[1].screw_pitch_mm == 1.69);
    CHECK(all.tunings[30].notes == notes_of("Eb1 Bb1 Eb2 Ab2 Db3 Gb3 Bb3 Eb4"));
    CHECK(all.scales[11].longest_mm == 685.8);
}

TEST_CASE("springs pull as what they are wound of says") {
    // k = G d^4 / (8 D^3 N), a helical spring of round wire (any handbook of machine elements); G of music
    // wire 79.3 GPa, ASTM A228, from memory. Rates are given to a tenth.
    const double g_n_mm2 = 79300;
    const json file = json::parse(read_file("presets/springs.json"));
    int told = 0;
    for (const json& item : file["items"]) {
        if (!item.contains("wound_of"))
            continue;
        INFO(item["name"]);
        const json& wound = item["wound_of"];
        const double wire = wound["wire_mm"], coil = wound["mean_coil_mm"], coils = wound["coils"];
        const double rate = item["spring"]["rate_n_mm"];
        CHECK(rate == Approx(g_n_mm2 * std::pow(wire, 4) / (8 * std::pow(coil, 3) * coils)).margin(0.05));
        ++told;
    }
    CHECK(told == 2);
}

TEST_CASE("string sets run from thick to thin and can be built and tuned") {
    for (const StringSetPreset& set : presets().string_sets) {
        INFO(set.name);
        CHECK(set.strings.size() >= 4);
        CHECK(set.strings.size() <= 8);
        for (std::size_t i = 1; i < set.strings.size(); ++i) {
            CHECK(set.strings[i].gauge_in < set.strings[i - 1].gauge_in);
            CHECK((set.strings[i - 1].wound || !set.strings[i].wound)); // no wound string above a plain one
        }
        Setup setup = light_set_level();
        for (PerString* values : {&setup.guitar.headstock_mm, &setup.guitar.bridge.saddle_setback_mm})
            *values = spread_over(*values, set.strings.size());
        setup.now.strings = setup.next.strings = set.strings;
        for (const TuningPreset& tuning : presets().tunings)
            if (tuning.notes.size() == set.strings.size()) {
                setup.now.tuning = setup.next.tuning = tuning.notes;
                Problems problems;
                check_setup(setup, problems);
                CHECK(problems.none());
                break;
            }
    }
}

TEST_CASE("tunings rise from string to string") {
    for (const TuningPreset& tuning : presets().tunings) {
        INFO(tuning.name);
        for (std::size_t i = 1; i < tuning.notes.size(); ++i)
            CHECK(key_number(tuning.notes[i]) > key_number(tuning.notes[i - 1]));
    }
    CHECK(named(presets().tunings, "drop C").notes == notes_of("C2 G2 C3 F3 A3 D4"));
}

TEST_CASE("screws have the standard's threads") {
    // ANSI/ASME B18.6.1, wood screws, from memory.
    CHECK(named(presets().screws, "No. 6").threads_per_inch == 18);
    CHECK(named(presets().screws, "No. 8").threads_per_inch == 15);
    CHECK(named(presets().screws, "No. 10").threads_per_inch == 13);
    for (const ScrewPreset& screw : presets().screws)
        if (screw.threads_per_inch > 0.0)
            CHECK(screw.screw_pitch_mm == Approx(25.4 / screw.threads_per_inch).margin(0.005));
}

TEST_CASE("metric screws are told by their pitch") {
    CHECK(named(presets().screws, "metric 4 mm").screw_pitch_mm == 1.8);
    CHECK(named(presets().screws, "metric 4.5 mm").screw_pitch_mm == 2.0);
}

TEST_CASE("gauges sold singly are in order") {
    const json file = json::parse(read_file("presets/gauges.json"));
    std::size_t count = 0;
    for (const json& item : file["items"]) {
        const auto gauges = item["gauges_in"].get<std::vector<double>>();
        CHECK(std::is_sorted(gauges.begin(), gauges.end()));
        count += gauges.size();
    }
    CHECK(count >= 55);
}

TEST_CASE("values for six strings spread over seven keep their ends") {
    const PerString seven = spread_over(PerString{{16, 15, 14, 13.5, 12, 11}}, 7);
    REQUIRE(seven.values.size() == 7);
    CHECK(seven.values.front() == 16);
    CHECK(seven.values.back() == 11);
    CHECK(std::is_sorted(seven.values.rbegin(), seven.values.rend()));
    CHECK(spread_over(PerString{{8.5}}, 8).common());
}
