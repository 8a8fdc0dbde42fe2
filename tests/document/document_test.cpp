#include "engine/say/refusal.h"
#include "tests/reference/random_setup.h"
#include "tests/support.h"

#include <nlohmann/json.hpp>

using namespace counterpull;
using namespace counterpull::test;
using nlohmann::json;

namespace {

// The example with one value replaced (JSON pointer; "" as value removes the key).
std::string changed(const std::string& pointer, const json& value,
                    const std::string& name = "lower-and-heavier") {
    json document = json::parse(example_text(name));
    document[json::json_pointer(pointer)] = value;
    return document.dump();
}

std::string without(const std::string& parent, const std::string& key) {
    json document = json::parse(example_text("lower-and-heavier"));
    document[json::json_pointer(parent)].erase(key);
    return document.dump();
}

void refused_with(const std::string& text, const std::string& message) {
    const auto messages = refusals(text);
    INFO(message);
    INFO((messages.empty() ? std::string("not refused") : messages.front()));
    CHECK(std::find(messages.begin(), messages.end(), message) != messages.end());
}

} // namespace

TEST_CASE("every example is read, and written out reads the same") {
    for (const std::string& name : example_names()) {
        INFO(name);
        const Setup setup = example(name);
        const SetupRead again = read_setup(write_setup(setup));
        REQUIRE(again.setup);
        CHECK(*again.setup == setup);
    }
}

TEST_CASE("set-ups with everything in them survive writing and reading") {
    for (std::uint64_t seed = 0; seed < 200; ++seed) {
        INFO(seed);
        const SetupRead read = read_setup(reference::random_setup(seed).dump());
        if (!read.setup)
            FAIL(first_message(read.problems, english()));
        const SetupRead again = read_setup(write_setup(*read.setup));
        REQUIRE(again.setup);
        CHECK(*again.setup == *read.setup);
    }
    Setup all = example("three-readings-in");
    all.a4_hz = 442;
    all.guitar.held = Held::on_its_back;
    all.guitar.basis = {{"bridge.saddle_height_mm", Basis::measured}, {"spring.rate_n_mm", Basis::guess}};
    all.guitar.springs_owned = 4;
    all.now.tail_sides_mm = {{-1.2, -0.8}};
    all.now.offset_cents.values = {0, 0, -5, 0, 0, 2};
    all.next.rest = RestWanted::on_the_body;
    all.next.strings[0].core_in = 0.018;
    all.next.strings[0].core = CoreShape::hex;
    all.next.strings[0].wrap = Wrap::nickel;
    all.next.strings[1].unit_weight_g_m = 4.9;
    all.now.springs[1].spring = SpringSetup{3.0, 60, 6, 100};
    all.guitar.nut_clamps = true;
    all.guitar.bridge.kind = Pivot::screw_plate;
    all.guitar.bridge.return_cents = 8.0;
    all.next.springs = {{0, 0, {}}, {1, 2, SpringSetup{3.0, 60, 6, 100}}};
    all.log[1].own = {all.now.strings, all.now.tuning, {{0, 0, -5, 0, 0, 2}}};
    all.log[1].counted = false;
    all.log[1].from_slack = true;
    all.bench.emplace();
    all.bench->test = true;
    all.bench->before = {{0.5, 0.75}, all.now.springs, true};
    all.bench->strings_since = 1;
    all.bench->tuning_since = 2;
    all.bench->done = {{StepKind::test, {}, {}, {}, {}, {}, {}, {}, 1},
                       {StepKind::springs, {}, {}, all.now.springs, {{}}, Mishap::spring_off, {}, 2, 0},
                       {StepKind::tune, TuneHow::rough, {}, {}, {}, {}, {}, {}, 0},
                       {StepKind::turn_until, {}, {{0.5, 0.25}}, {}, {}, Mishap::string_broke, 1, {}, 2}};
    const SetupRead again = read_setup(write_setup(all));
    REQUIRE(again.setup);
    CHECK(*again.setup == all);
}

TEST_CASE("what is left out has the contract's default") {
    const Setup setup = example("lower-and-heavier");
    CHECK(setup.a4_hz == 440.0);
    CHECK_FALSE(setup.guitar.nut_locked);
    CHECK(setup.guitar.held == Held::playing);
    CHECK(setup.guitar.bridge.mass_g == 0.0);
    CHECK(setup.now.in_tune);
    CHECK_FALSE(setup.now.spring_mm);
    CHECK(setup.next.rest == RestWanted::floating);
    CHECK(setup.next.offset_cents.at(3) == 0.0);
    Setup no_count = setup;
    no_count.guitar.springs_owned.reset();
    CHECK(springs_owned(no_count) == 5);
    no_count.now.springs.resize(6);
    CHECK(springs_owned(no_count) == 6);
}

TEST_CASE("what is not said of friction, clamps, chosen springs and the bench has the contract's default") {
    Setup setup = example("lower-and-heavier");
    CHECK_FALSE(setup.next.springs);
    CHECK_FALSE(setup.bench);
    CHECK(return_cents(setup.guitar) == 6.0);
    setup.guitar.bridge.kind = Pivot::knife_edge;
    CHECK(return_cents(setup.guitar) == 3.0);
    setup.guitar.bridge.kind = Pivot::two_posts;
    CHECK(return_cents(setup.guitar) == 6.0);
    setup.guitar.bridge.kind = Pivot::screw_plate;
    CHECK(return_cents(setup.guitar) == 10.0);
    setup.guitar.bridge.return_cents = 0.0; // measured: it comes back to the cent
    CHECK(return_cents(setup.guitar) == 0.0);
    CHECK_FALSE(nut_has_clamps(setup.guitar));
    setup.guitar.nut_locked = true;
    CHECK(nut_has_clamps(setup.guitar));
    setup.guitar.nut_clamps = false;
    CHECK_FALSE(nut_has_clamps(setup.guitar));
    setup.guitar = example("lower-and-heavier").guitar;
    setup.guitar.nut_clamps = true; // open while the work is done
    CHECK(nut_has_clamps(setup.guitar));
    for (const char* place : {"/guitar/bridge/kind", "/guitar/bridge/return_cents", "/guitar/nut_clamps",
                              "/next/springs", "/bench"})
        CHECK(read_setup(changed(place, nullptr)).setup == example("lower-and-heavier"));
    CHECK(read_setup(changed("/log/0/own", nullptr, "three-readings-in")).setup ==
          example("three-readings-in"));
}

TEST_CASE("a slip is refused at its place with what is expected") {
    refused_with(changed("/next/strings/2/gauge_in", 0.46),
                 "next.strings[2].gauge_in: 0.46 is outside 0.005 to 0.150");
    refused_with(changed("/guitar/scale_mm", 25.5), "guitar.scale_mm: 25.5 is outside 300 to 1000");
    refused_with(changed("/guitar/scale_mm", "25.5"),
                 "guitar.scale_mm: \"25.5\" is neither a number nor a list with one number per string");
    refused_with(changed("/guitar/headstock_mm", {40, 65, 90}), "guitar.headstock_mm: 3 given, 6 expected");
    refused_with(changed("/guitar/headstock_mm", {40}),
                 "guitar.headstock_mm: a list of 1; expected a number, or a list with one number per string");
    refused_with(changed("/next/tuning/1", "H2"),
                 "next.tuning[1]: \"H2\" is not a pitch; expected a name such as E2, "
                 "Bb1 or F#3, from B0 to C8");
    refused_with(changed("/now/springs/1/hook", 9),
                 "now.springs[1].hook: 9 is not there; they are counted from 0 at the bass side to 4");
    refused_with(changed("/now/springs/1/hook", 0), "now.springs[1].hook: 0 is taken by another spring");
    refused_with(changed("/now/springs/1/hook", 1.5), "now.springs[1].hook: 1.5 is not a whole number");
    refused_with(
        changed("/next/strings/0/core_in", 0.06),
        "next.strings[0].core_in: a core of 0.06 is as thick as its string of 0.054; it must be thinner");
    refused_with(changed("/next/strings/5/core_in", 0.006),
                 "next.strings[5].core_in: only a wound string has a core");
    refused_with(changed("/guitar/held", "upright"),
                 "guitar.held: \"upright\" is not one of \"playing\", \"on its back\"");
    refused_with(changed("/guitar/basis", {{"bridge.saddle", "usual"}}),
                 "guitar.basis.bridge.saddle: not a number of the guitar; expected a path such as "
                 "bridge.saddle_height_mm");
    refused_with(changed("/guitar/springs_owned", 2),
                 "guitar.springs_owned: 2 owned, but 3 are fitted; count those in");
    refused_with(changed("/now/tail_sides_mm", {-2.0, 2.0}),
                 "now.tail_mm: -1 is not the mean of the two sides, 0");
    refused_with(changed("/title", std::string(81, 'x')), "title: longer than 80 characters");
    refused_with(without("/guitar", "scale_mm"), "guitar.scale_mm: missing; it has to be given");
    refused_with(changed("/guitar/spring/longest_mm", 55),
                 "guitar.spring.longest_mm: 55 is not above the free length of 60");
}

TEST_CASE("a slip in what a job carries is refused at its place with what is expected") {
    refused_with(changed("/guitar/bridge/kind", "floating"),
                 "guitar.bridge.kind: \"floating\" is not one of \"knife edge\", \"two posts\", "
                 "\"screw plate\"");
    refused_with(changed("/guitar/bridge/return_cents", 90),
                 "guitar.bridge.return_cents: 90 is outside 0 to 60");
    refused_with(changed("/guitar/nut_clamps", 1), "guitar.nut_clamps: 1 is neither true nor false");
    refused_with(changed("/next/springs", json::array()), "next.springs: 0 given, 1 to 6 expected");
    refused_with(changed("/next/springs", {{{"hook", 0}, {"hole", 0}}, {{"hook", 0}, {"hole", 1}}}),
                 "next.springs[1].hook: 0 is taken by another spring");
    refused_with(changed("/next/springs", {{{"hook", 5}, {"hole", 0}}}),
                 "next.springs[0].hook: 5 is not there; they are counted from 0 at the bass side to 4");
    json own = {{"strings", json::parse(example_text("three-readings-in"))["now"]["strings"]},
                {"tuning", {"E2", "A2", "D3", "G3", "B3", "E4"}}};
    auto with_own = [&] { return changed("/log/1/own", own, "three-readings-in"); };
    CHECK(read_setup(with_own()).setup);
    own["offset_cents"] = {1, 2};
    refused_with(with_own(), "log[1].own.offset_cents: 2 given, 6 expected");
    own["offset_cents"] = 0;
    own["strings"].erase(0);
    refused_with(with_own(), "log[1].own.strings: 5 given, 6 expected");
    own.erase("strings");
    refused_with(with_own(), "log[1].own.strings: missing; it has to be given");
    auto with_step = [](json step) {
        return changed("/bench", {{"way", "wedge"}, {"test", true}, {"done", {std::move(step)}}});
    };
    CHECK(read_setup(with_step({{"do", "wedge out"}})).setup);
    refused_with(
        with_step({{"do", "drink tea"}}),
        "bench.done[0].do: \"drink tea\" is not one of \"note\", \"test\", \"open the nut\", \"close "
        "the nut\", \"slacken\", \"springs\", \"turn\", \"turn until\", \"strings\", \"wedge in\", "
        "\"wedge out\", \"tune\", \"read\", \"wait\", \"check\", \"finished\", \"cannot\"");
    refused_with(with_step({{"do", "turn"}, {"turned", {2, 50}}}),
                 "bench.done[0].turned[1]: 50 is outside -40 to 40");
    refused_with(with_step({{"do", "tune"}, {"happened", "string broke"}, {"string", 7}}),
                 "bench.done[0].string: 7 is not a string; 1 is the highest, 6 the lowest");
    refused_with(with_step({{"do", "springs"}, {"off", {{{"hook", 9}, {"hole", 0}}}}}),
                 "bench.done[0].off[0].hook: 9 is not there; they are counted from 0 at the bass side to 4");
    refused_with(changed("/bench", {{"way", "quick"}, {"test", true}}),
                 "bench.way: \"quick\" is not one of \"wedge\", \"plain\"");
    refused_with(changed("/bench", json::object()), "bench.test: missing; it has to be given");
    CHECK(read_setup(changed("/bench", {{"way", "plain"}, {"test", false}})).setup);
    refused_with(
        changed("/bench",
                {{"way", "wedge"}, {"test", true}, {"done", std::vector<json>(201, {{"do", "tune"}})}}),
        "bench.done: 201 given, 0 to 200 expected");
}

TEST_CASE("a pitch too low for the strings that a reading was taken on is refused at its place") {
    Setup setup = example("three-readings-in");
    setup.guitar.scale_mm.values = {300};
    setup.log[0].own = {setup.next.strings, setup.next.tuning, {}};
    setup.log[0].own->strings[0] = {};
    setup.log[0].own->strings[0].gauge_in = 0.15;
    setup.log[0].own->tuning[0] = *parse_pitch("B0");
    const ReportResult result = report(setup);
    REQUIRE_FALSE(result.report);
    CHECK(result.problems.told[0].path == "log[0].own.tuning[0]");
}

TEST_CASE("unknown and doubled keys are refused") {
    const auto unknown = refusals(changed("/next/tial_mm", 0));
    REQUIRE(unknown.size() == 1);
    CHECK(unknown[0] ==
          "next.tial_mm: not a key that belongs here; known: offset_cents, rest, springs, strings, "
          "tail_mm, tuning");
    const auto empty = refusals(changed("/next/", 0)); // a key of no letters is one too
    REQUIRE(empty.size() == 1);
    CHECK(empty[0].starts_with("next.: not a key that belongs here"));
    std::string text = example_text("lower-and-heavier");
    text.replace(text.find("\"anchor_mm\""), 0, "\"anchor_mm\": 9, ");
    refused_with(text, "guitar.bridge.anchor_mm: given twice; each key may stand once");
}

TEST_CASE("a doubled key is told at its place, deep in lists and among many others") {
    std::string text = example_text("three-readings-in");
    const std::size_t last = text.rfind("\"reading\"");
    text.insert(last, "\"reading\": \"in tune\", ");
    refused_with(text, "log[2].reading: given twice; each key may stand once");
    std::string many = "{";
    for (int i = 0; i < 100; ++i)
        many += "\"k" + std::to_string(i) + "\": [], ";
    CHECK(refusals(many + "\"k3\": 1, \"k99\": 1, \"k100\": 1}") ==
          std::vector<std::string>{"k3: given twice; each key may stand once",
                                   "k99: given twice; each key may stand once"});
}

TEST_CASE("in tune and resting on a stop does not say where the claw is") {
    const auto messages = refusals(changed("/now/tail_mm", -6));
    REQUIRE(messages.size() == 1);
    CHECK(messages[0].find("describe the guitar as it last floated") != std::string::npos);
    // With spring lengths it does.
    json document = json::parse(changed("/now/tail_mm", -6));
    document["now"]["spring_mm"] = {74, 74, 74};
    CHECK(read_setup(document.dump()).setup);
}

TEST_CASE("with the strings off, spring lengths are asked for and strings are not") {
    json document = json::parse(example_text("strings-are-off"));
    CHECK(read_setup(document.dump()).setup);
    document["now"].erase("spring_mm");
    refused_with(document.dump(),
                 "now.spring_mm: missing; with the strings off, the length of each spring (hook to hook) "
                 "says where the claw is");
    document["now"]["spring_mm"] = {71, 71};
    refused_with(document.dump(), "now.spring_mm: 2 given, 3 expected");
}

TEST_CASE("of many problems the first twenty are told and the others counted") {
    json document = json::parse(example_text("lower-and-heavier"));
    for (int i = 0; i < 30; ++i)
        document["guitar"]["extra" + std::to_string(i)] = 1;
    const SetupRead read = read_setup(document.dump());
    CHECK(read.problems.told.size() == 20);
    CHECK(read.problems.count == 30);
    CHECK(first_message(read.problems, english()).ends_with("(and 29 more)"));
}

TEST_CASE("a missing part is told once, not once per field in it") {
    CHECK(refusals(without("/guitar", "bridge")) ==
          std::vector<std::string>{"guitar.bridge: missing; it has to be given"});
    CHECK(refusals(without("/next", "strings")) ==
          std::vector<std::string>{"next.strings: missing; it has to be given"});
}

TEST_CASE("readings are checked like the rest") {
    const std::string name = "three-readings-in";
    refused_with(changed("/log/1/string", 7, name),
                 "log[1].string: 7 is not a string; 1 is the highest, 6 the lowest");
    refused_with(changed("/log/1/cents", {1, 2}, name), "log[1].cents: 2 given, 6 expected");
    refused_with(changed("/log/0/tail_mm", 30, name),
                 "log[0].tail_mm: 30 is outside this bridge's travel, -6 to 18");
    refused_with(changed("/log/0/reading", "guess", name),
                 "log[0].reading: \"guess\" is not one of \"in tune\", \"after turn\", \"after pass\", "
                 "\"bend\", \"drop\", "
                 "\"wedge out\"");
}
