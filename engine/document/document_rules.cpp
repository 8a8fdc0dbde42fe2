#include "engine/document/document_rules.h"

#include "engine/base/units.h"
#include "engine/document/fields.h"
#include "engine/mechanics/bridge.h"
#include "engine/mechanics/guitar_string.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

constexpr std::size_t fewest_strings = 4;
constexpr std::size_t most_in_a_row = 24; // hooks, holes
constexpr std::size_t most_steps = 200;   // done at the bench
// The mean of two sides may differ from tail_mm by what rounding to a tenth makes.
constexpr double mean_slack_mm = 0.0501;
// The stops may lie at most at this share of the tail distance (about 64°).
constexpr double most_tilt = 0.9;

struct Rules {
    const Setup& setup;
    Problems& problems;
    std::size_t strings = setup.next.strings.size();

    void refuse(const Path& path, Phrase why) { problems.add_new(path, std::move(why)); }

    void count(const Path& path, std::size_t found, std::size_t expected) {
        if (found != expected)
            refuse(path, Phrase("refused.count").with("found", found).with("expected", expected));
    }
    void count_between(const Path& path, std::size_t found, std::size_t low, std::size_t high) {
        if (found < low || found > high)
            refuse(path,
                   Phrase("refused.count_between").with("found", found).with("low", low).with("high", high));
    }
    void per_string(const Path& path, const PerString& value) {
        if (!value.common())
            count(path, value.values.size(), strings);
    }

    void string_counts() {
        count_between("next.strings", strings, fewest_strings, most_strings);
        if (strings < fewest_strings || strings > most_strings)
            return; // what the other counts should be is not known
        count("next.tuning", setup.next.tuning.size(), strings);
        per_string("next.offset_cents", setup.next.offset_cents);
        if (setup.now.in_tune || !setup.now.strings.empty())
            count("now.strings", setup.now.strings.size(), strings);
        if (setup.now.in_tune || !setup.now.tuning.empty())
            count("now.tuning", setup.now.tuning.size(), strings);
        per_string("now.offset_cents", setup.now.offset_cents);
        const BridgeSetup& bridge = setup.guitar.bridge;
        per_string("guitar.scale_mm", setup.guitar.scale_mm);
        per_string("guitar.headstock_mm", setup.guitar.headstock_mm);
        per_string("guitar.bridge.saddle_height_mm", bridge.saddle_height_mm);
        per_string("guitar.bridge.saddle_setback_mm", bridge.saddle_setback_mm);
        per_string("guitar.bridge.anchor_mm", bridge.anchor_mm);
    }

    void build_of(const Path& path, const StringSetup& string) {
        if (!string.wound && string.core_in)
            return refuse(Path(path, "core_in"), {"refused.core_of_plain"});
        if (!string.wound)
            return;
        if (string.core_in && *string.core_in >= string.gauge_in)
            return refuse(Path(path, "core_in"),
                          Phrase("refused.core_too_thick")
                              .with("found", number(*string.core_in, shortest_digits))
                              .with("gauge", number(string.gauge_in, shortest_digits)));
        const double usual_in = estimated_core_m(metres_from_inches(string.gauge_in)) / metres_per_inch;
        if (!string.core_in && usual_in >= string.gauge_in)
            refuse(Path(path, "gauge_in"), Phrase("refused.too_thin_to_be_wound")
                                               .with("found", number(string.gauge_in, shortest_digits)));
    }
    void strings_can_be_built(const Path& path, const std::vector<StringSetup>& all) {
        for (std::size_t i = 0; i < all.size(); ++i)
            build_of(Path(path, i), all[i]);
    }

    void in_a_row(const Path& path, const std::vector<double>& across_mm) {
        count_between(path, across_mm.size(), 1, most_in_a_row);
        if (!problems.none() && problems.touch(path.text()))
            return; // their order says nothing
        for (std::size_t i = 1; i < across_mm.size(); ++i)
            if (across_mm[i] <= across_mm[i - 1])
                refuse(Path(path, i), {"refused.not_ascending"});
    }
    void spring_can_be(const Path& path, const SpringSetup& spring) {
        if (spring.longest_mm <= spring.free_length_mm)
            refuse(Path(path, "longest_mm"), Phrase("refused.longest_too_short")
                                                 .with("found", document_mm(spring.longest_mm))
                                                 .with("free", document_mm(spring.free_length_mm)));
    }
    // A hook or a hole by its number.
    void is_in_the_bay(const Path& path, int number, std::size_t count_there) {
        if (number < 0 || static_cast<std::size_t>(number) >= count_there)
            refuse(path, Phrase("refused.no_such_place")
                             .with("found", number)
                             .with("last", count_there > 0 ? count_there - 1 : 0));
    }
    void springs(const Path& path, const std::vector<PlacedSpring>& placed, std::size_t fewest = 1) {
        count_between(path, placed.size(), fewest, most_springs);
        for (std::size_t i = 0; i < placed.size(); ++i) {
            const Path here(path, i);
            is_in_the_bay(Path(here, "hook"), placed[i].hook, setup.guitar.bay.hook_mm.size());
            is_in_the_bay(Path(here, "hole"), placed[i].hole, setup.guitar.bay.hole_mm.size());
            if (placed[i].spring)
                spring_can_be(Path(here, "spring"), *placed[i].spring);
            for (std::size_t j = 0; j < i; ++j) {
                if (placed[j].hook == placed[i].hook)
                    refuse(Path(here, "hook"), Phrase("refused.place_taken").with("found", placed[i].hook));
                if (placed[j].hole == placed[i].hole)
                    refuse(Path(here, "hole"), Phrase("refused.place_taken").with("found", placed[i].hole));
            }
        }
    }

    void springs_are_there() {
        const auto fitted = std::count_if(setup.now.springs.begin(), setup.now.springs.end(),
                                          [](const PlacedSpring& placed) { return !placed.spring; });
        if (setup.guitar.springs_owned && *setup.guitar.springs_owned < fitted)
            refuse("guitar.springs_owned", Phrase("refused.owned_fewer_than_fitted")
                                               .with("found", *setup.guitar.springs_owned)
                                               .with("fitted", fitted));
    }

    bool travel_is_known() const {
        const char* path = "guitar.bridge.tail_limits_mm";
        return !problems.touch(path) && !problems.covers(path);
    }
    void travel() {
        if (!travel_is_known() || problems.covers("guitar.bridge.tail_mm"))
            return;
        const BridgeSetup& bridge = setup.guitar.bridge;
        const char* path = "guitar.bridge.tail_limits_mm";
        if (bridge.tail_limits_mm[0] >= bridge.tail_limits_mm[1])
            refuse(path, {"refused.limits_swapped"});
        for (std::size_t i = 0; i < 2; ++i)
            if (std::abs(bridge.tail_limits_mm[i]) > most_tilt * bridge.tail_mm)
                refuse(Path(path, i), Phrase("refused.limit_beyond_tail")
                                          .with("found", document_mm(bridge.tail_limits_mm[i]))
                                          .with("most", document_mm(most_tilt * bridge.tail_mm)));
    }
    void within_travel(const Path& path, double tail_mm) {
        if (!travel_is_known())
            return;
        const auto& limits = setup.guitar.bridge.tail_limits_mm;
        if (!(tail_mm >= limits[0] && tail_mm <= limits[1]))
            refuse(path, Phrase("refused.outside_travel")
                             .with("found", document_mm(tail_mm))
                             .with("low", document_mm(limits[0]))
                             .with("high", document_mm(limits[1])));
    }

    void now_says_where_the_claw_is() {
        const NowSetup& now = setup.now;
        const auto& limits = setup.guitar.bridge.tail_limits_mm;
        within_travel("now.tail_mm", now.tail_mm);
        if (now.tail_sides_mm) {
            const double mean = 0.5 * ((*now.tail_sides_mm)[0] + (*now.tail_sides_mm)[1]);
            if (std::abs(mean - now.tail_mm) > mean_slack_mm)
                refuse("now.tail_mm", Phrase("refused.not_the_mean")
                                          .with("found", document_mm(now.tail_mm))
                                          .with("mean", document_mm(mean)));
        }
        if (now.spring_mm)
            count("now.spring_mm", now.spring_mm->size(), now.springs.size());
        else if (!now.in_tune)
            refuse("now.spring_mm", {"refused.spring_length_needed"});
        else if (travel_is_known() && (now.tail_mm <= limits[0] || now.tail_mm >= limits[1]))
            refuse("now.tail_mm", Phrase("refused.at_stop").with("found", document_mm(now.tail_mm)));
    }

    // A string by its player's number.
    void is_a_string(const Path& path, int number) {
        if (number < 1 || static_cast<std::size_t>(number) > strings)
            refuse(path, Phrase("refused.no_such_string").with("found", number).with("strings", strings));
    }
    void own_strings(const Path& path, const OwnStrings& own) {
        count(Path(path, "strings"), own.strings.size(), strings);
        count(Path(path, "tuning"), own.tuning.size(), strings);
        per_string(Path(path, "offset_cents"), own.offset_cents);
        strings_can_be_built(Path(path, "strings"), own.strings);
    }
    void reading(const Path& path, const Reading& entry) {
        springs(Path(path, "springs"), entry.springs);
        if (entry.tail_mm)
            within_travel(Path(path, "tail_mm"), *entry.tail_mm);
        if (entry.cents)
            count(Path(path, "cents"), entry.cents->size(), strings);
        if (entry.aim_cents)
            count(Path(path, "aim_cents"), entry.aim_cents->size(), strings);
        if (entry.kind == ReadingKind::bend || entry.kind == ReadingKind::drop)
            is_a_string(Path(path, "string"), entry.string);
        if (entry.own)
            return own_strings(Path(path, "own"), *entry.own);
        if (entry.strings == Which::now && setup.now.strings.empty())
            refuse(Path(path, "strings"), {"refused.now_not_given"});
        if (entry.tuning == Which::now && setup.now.tuning.empty())
            refuse(Path(path, "tuning"), {"refused.now_not_given"});
    }

    void basis() {
        for (const auto& [path, value] : setup.guitar.basis)
            if (const Field* field = find_field(group_of<GuitarSetup>(), path);
                !field || !takes_basis(*field))
                refuse(Path("guitar.basis", path), {"refused.no_such_path"});
    }

    void step(const Path& path, const StepDone& done) {
        if (done.off)
            springs(Path(path, "off"), *done.off, 0);
        if (done.on)
            springs(Path(path, "on"), *done.on, 0);
        if (done.string)
            is_a_string(Path(path, "string"), *done.string);
        if (done.hook)
            is_in_the_bay(Path(path, "hook"), *done.hook, setup.guitar.bay.hook_mm.size());
    }

    void check() {
        string_counts();
        basis();
        strings_can_be_built("now.strings", setup.now.strings);
        strings_can_be_built("next.strings", setup.next.strings);
        in_a_row("guitar.bay.hole_mm", setup.guitar.bay.hole_mm);
        in_a_row("guitar.bay.hook_mm", setup.guitar.bay.hook_mm);
        spring_can_be("guitar.spring", setup.guitar.spring);
        const auto& others = setup.guitar.other_springs;
        count_between("guitar.other_springs", others.size(), 0, most_springs);
        for (std::size_t i = 0; i < others.size() && i < most_springs; ++i)
            spring_can_be(Path(Path("guitar.other_springs", i), "spring"), others[i].spring);
        springs("now.springs", setup.now.springs);
        springs_are_there();
        if (setup.next.springs)
            springs("next.springs", *setup.next.springs);
        travel();
        now_says_where_the_claw_is();
        within_travel("next.tail_mm", setup.next.tail_mm);
        count_between("log", setup.log.size(), 0, most_readings);
        for (std::size_t i = 0; i < setup.log.size() && i < most_readings; ++i)
            reading(Path("log", i), setup.log[i]);
        if (!setup.bench)
            return;
        const Path bench("bench");
        const auto& done = setup.bench->done;
        count_between(Path(bench, "done"), done.size(), 0, most_steps);
        if (setup.bench->before)
            springs(Path(Path(bench, "before"), "springs"), setup.bench->before->springs, 0);
        for (std::size_t i = 0; i < done.size() && i < most_steps; ++i)
            step(Path(Path(bench, "done"), i), done[i]);
    }
};

} // namespace

void check_rules(const Setup& setup, Problems& problems) {
    Rules{setup, problems}.check();
}

} // namespace counterpull
