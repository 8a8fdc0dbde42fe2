#include "engine/belief/belief.h"
#include "engine/document/document_reader.h"
#include "engine/document/link_walk.h"
#include "engine/document/member.h"
#include "tests/support.h"

#include <algorithm>
#include <functional>
#include <set>

using namespace counterpull;
using namespace counterpull::test;

namespace {

// A struct with a field that came with the second version of links.
struct Lamp {
    double bright = 2.0;
    double warm = 7.0;
    bool operator==(const Lamp&) const = default;
};
struct Room {
    std::vector<Lamp> lamps;
};
constexpr Field lamp_fields[] = {
    {.key = "bright", .member = member<&Lamp::bright>, .range = {0, 9}},
    {.key = "warm",
     .member = member<&Lamp::warm>,
     .range = {0, 9},
     .left_out = [](const void*) { return true; },
     .since = 'B'},
};

} // namespace

namespace counterpull {
template <>
const Group& group_of<Lamp>() {
    static constexpr Group group = listed_group_with<Lamp>(lamp_fields);
    return group;
}
} // namespace counterpull

namespace {

constexpr Field room_fields[] = {{.key = "lamps", .member = member<&Room::lamps>}};
constexpr Group room_group = group_with<Room>(room_fields);

// Writes down what is carried, and gives it back.
struct Notes : Carrier {
    std::vector<double> numbers;
    double number(double value, double) override {
        numbers.push_back(value);
        return value;
    }
    void text(std::string&) override {}
    void path(std::string&) override {}
    void fail() override { FAIL("no value"); }
    bool failed() const override { return false; }
};

using Each = std::function<void(const Group&, const Field&, void* object, const Json& json)>;

// Every field of every object in a document, with the same object as JSON.
void each_field(const Group& group, void* object, const Json& json, const Each& use) {
    for (const Field& field : group.fields) {
        use(group, field, object, json);
        const Json* inside = value_at(json, field.key);
        if (!inside || !field.member.group)
            continue;
        const Group& inner = field.member.group();
        void* value = field.value_in(object);
        if (field.member.kind == Kind::object)
            each_field(inner, value, *inside, use);
        else
            for (std::size_t i = 0; i < inside->size(); ++i)
                each_field(inner, inner.at(value, i), (*inside)[i], use);
    }
}

// One in which nothing is as it is when left out.
Setup nothing_left_out() {
    Setup all = example("three-readings-in");
    all.title = "all";
    all.a4_hz = 442;
    all.guitar.nut_locked = true;
    all.guitar.held = Held::on_its_back;
    all.guitar.bridge.mass_g = 100;
    all.guitar.bridge.mass_setback_mm = 5;
    all.guitar.other_springs = {{2, all.guitar.spring}};
    all.guitar.basis = {{"spring.rate_n_mm", Basis::guess}};
    all.now.in_tune = false;
    all.now.spring_mm = {71, 71, 71};
    all.now.offset_cents.values = all.next.offset_cents.values = {2.0};
    all.next.tail_mm = 1.0;
    all.next.rest = RestWanted::on_the_body;
    all.next.strings[0].core = CoreShape::hex;
    all.next.strings[0].wrap = Wrap::nickel;
    all.log[0].own = {all.now.strings, all.now.tuning, {{3.0}}};
    all.bench.emplace();
    all.bench->way = BenchWay::plain;
    all.bench->test = true;
    all.bench->strings_since = all.bench->tuning_since = 1;
    all.log[0].counted = false;
    all.log[0].from_slack = true;
    all.bench->done = {{StepKind::turn, {}, {{0.5, 0.5}}, {}, {}, {}, {}, {}, 1}};
    return all;
}

} // namespace

TEST_CASE("a path that names no field finds none") {
    const Group& guitar = group_of<GuitarSetup>();
    REQUIRE(find_field(guitar, "bridge.block_depth_mm"));
    CHECK(find_field(guitar, "bridge.block_depth_mm")->range.high == 80.0);
    for (const char* path : {"", ".", "bridge.", ".bridge", "bridge.block_depth", "bridge.bridge",
                             "block_depth_mm", "spring.rate_n_mm.x", "other_springs.count", "now.tail_mm"}) {
        INFO(path);
        CHECK(find_field(guitar, path) == nullptr);
    }
    GuitarSetup setup = example("lower-and-heavier").guitar;
    REQUIRE(number_at(setup, "spring.rate_n_mm"));
    CHECK(number_at(setup, "spring.rate_n_mm") == &setup.spring.rate_n_mm);
    CHECK(number_at(setup, "scale_mm") == nullptr); // one for each string
    CHECK(number_at(setup, "bridge") == nullptr);
    CHECK(number_at(setup, "spring.rate") == nullptr);
}

TEST_CASE("every number of a document is held to the range of its own row") {
    const Json document = Json::parse(example_text("lower-and-heavier"));
    Setup setup = example("lower-and-heavier");
    int numbers = 0;
    each_field(group_of<Setup>(), &setup, document,
               [&](const Group&, const Field& field, void* object, const Json&) {
                   if (field.member.kind != Kind::number || !field.value_in(object))
                       return;
                   double& value = *static_cast<double*>(field.value_in(object));
                   for (const double end : {field.range.low, field.range.high}) {
                       const double kept = value;
                       value = end;
                       Problems inside, outside;
                       check_setup(setup, inside); // other rules may refuse it, its range does not
                       value = end + (end == field.range.low ? -0.01 : 0.01);
                       check_setup(setup, outside);
                       value = kept;
                       auto out_of_range = [&](const Problems& problems) {
                           return std::count_if(problems.told.begin(), problems.told.end(),
                                                [&](const Problem& problem) {
                                                    return problem.why.key == "refused.range" &&
                                                           problem.path.ends_with(field.key);
                                                });
                       };
                       INFO(field.key);
                       CHECK(out_of_range(inside) == 0);
                       CHECK(out_of_range(outside) == 1);
                       ++numbers;
                   }
               });
    CHECK(numbers > 50);
}

TEST_CASE("what is left out when written is just what is there when it is read without") {
    std::vector<Setup> setups = {nothing_left_out()};
    for (const std::string& name : example_names())
        setups.push_back(example(name));
    setups.back().title.clear();
    setups.back().log.resize(1);
    setups.back().log[0].own = {setups.back().now.strings, setups.back().now.tuning, {}};
    setups.back().bench.emplace().done.resize(1);
    setups[1].bench.emplace();
    std::set<const Field*> all, left_out, given;
    for (Setup& setup : setups) {
        const std::string text = write_setup(setup);
        CHECK(read_setup(text).setup == setup);
        auto look = [&](const Group& group, const Field& field, void* object, const Json& json) {
            if (!field.left_out)
                return;
            INFO(field.key << " in " << json.dump());
            const bool usual = same_value(field, field.value_in(object), field.value_in(group.usual()));
            const bool written = value_at(json, field.key) != nullptr;
            CHECK(written == (!usual || !field.left_out(object)));
            all.insert(&field);
            (written ? given : left_out).insert(&field);
        };
        each_field(group_of<Setup>(), &setup, Json::parse(text), look);
    }
    CHECK(all.size() >= 21);
    CHECK(left_out == all); // each was seen both ways
    CHECK(given == all);
}

TEST_CASE("a basis may be given for every measure of the guitar, and for nothing else") {
    auto refused = [](const std::string& path) {
        Setup setup = example("lower-and-heavier");
        setup.guitar.basis = {{path, Basis::measured}};
        Problems problems;
        check_setup(setup, problems);
        return !problems.none();
    };
    for (const char* path : {"scale_mm",
                             "headstock_mm",
                             "bridge.saddle_height_mm",
                             "bridge.saddle_setback_mm",
                             "bridge.anchor_mm",
                             "bridge.block_depth_mm",
                             "bridge.block_setback_mm",
                             "bridge.tail_mm",
                             "bridge.tail_limits_mm",
                             "bridge.mass_g",
                             "bridge.mass_setback_mm",
                             "bridge.return_cents",
                             "bay.hole_mm",
                             "bay.hook_mm",
                             "bay.claw_depth_mm",
                             "bay.screw_span_mm",
                             "bay.screw_pitch_mm",
                             "bay.turns_in_left",
                             "bay.turns_out_left",
                             "spring.rate_n_mm",
                             "spring.free_length_mm",
                             "spring.initial_tension_n",
                             "spring.longest_mm"}) {
        INFO(path);
        CHECK_FALSE(refused(path));
    }
    for (const char* path : {"springs_owned", "nut_locked", "nut_clamps", "held", "bridge", "bridge.kind",
                             "other_springs", "other_springs.count", "basis", "guitar.scale_mm", ""}) {
        INFO(path);
        CHECK(refused(path));
    }
}

TEST_CASE("every unknown that stands for a field has its row, with a spread either way") {
    CHECK(path_of(Unknown::spring_rate) == "spring.rate_n_mm");
    CHECK(path_of(Unknown::initial_tension) == "spring.initial_tension_n");
    CHECK(path_of(Unknown::saddle_height) == "bridge.saddle_height_mm");
    CHECK(path_of(Unknown::saddle_setback) == "bridge.saddle_setback_mm");
    CHECK(path_of(Unknown::block_depth) == "bridge.block_depth_mm");
    CHECK(path_of(Unknown::block_setback) == "bridge.block_setback_mm");
    CHECK(path_of(Unknown::screw_pitch) == "bay.screw_pitch_mm");
    CHECK(path_of(Unknown::dead_length) == "bridge.anchor_mm");
    CHECK(path_of(Unknown::core).empty());
    CHECK(path_of(Unknown::weights).empty());
    CHECK(uncertain_fields().size() == 10); // the headstock moves with the anchor
    for (const UncertainField& known : uncertain_fields()) {
        INFO(known.path);
        CHECK(find_field(group_of<GuitarSetup>(), known.path) == known.field);
        CHECK(takes_basis(*known.field));
        CHECK(known.field->prior.measured.share + known.field->prior.measured.absolute > 0.0);
    }
}

TEST_CASE("a field that came later is in no link of an earlier version, which opens with its default") {
    CHECK(newest_version(room_group) == 'B');
    Room room{{{1.0, 7.0}, {3.0, 7.0}}};
    CHECK(version_needed(room_group, &room) == 'A'); // it says nothing that an old link could not
    room.lamps[1].warm = 5.0;
    CHECK(version_needed(room_group, &room) == 'B');
    Notes old, now;
    walk_link(room_group, &room, nullptr, 'A', old);
    CHECK(old.numbers == std::vector<double>{2, 1, 3}); // how many, then each
    walk_link(room_group, &room, nullptr, 'B', now);
    CHECK(now.numbers == std::vector<double>{2, 1, 7, 3, 5});
    CHECK(newest_version(group_of<Setup>()) == 'B');
}

TEST_CASE("the unit of a field is its key's suffix") {
    const Group& guitar = group_of<GuitarSetup>();
    CHECK(unit_of(*find_field(guitar, "spring.rate_n_mm")) == "N/mm");
    CHECK(unit_of(*find_field(guitar, "spring.initial_tension_n")) == "N");
    CHECK(unit_of(*find_field(guitar, "bridge.tail_mm")) == "mm");
    CHECK(unit_of(*find_field(guitar, "bridge.mass_g")) == "g");
    CHECK(unit_of(*find_field(guitar, "bay.turns_in_left")).empty());
}
