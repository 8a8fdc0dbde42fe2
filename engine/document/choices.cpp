#include "engine/document/choices.h"

#include "engine/document/document.h"
#include "engine/document/document_rules.h"
#include "engine/document/model.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

constexpr int standard_spring_number = 2; // presets/springs.json

// Fewer strings than a guitar's are a bass's, with the usual scale of either.
constexpr std::size_t fewest_of_a_guitar = 6;
constexpr double guitar_scale_mm = 647.7, bass_scale_mm = 863.6;

// Screws are given by threads per inch, their pitch in two decimals.
constexpr double same_pitch_mm = 0.006;

// A reading stays this far from the end of what a bridge can do.
constexpr double off_the_stop_mm = 0.5;

// Turns of thread that a document may say are left.
constexpr double most_thread = 40.0;

// Another kind counts for more than all dimensions together.
constexpr int another_kind = 10;

int differences(const BridgeSetup& a, const BridgePreset& preset) {
    const BridgeSetup& b = preset.bridge;
    const std::size_t setbacks = a.saddle_setback_mm.values.size();
    return (a.saddle_height_mm != b.saddle_height_mm) + (a.anchor_mm != b.anchor_mm) +
           (a.block_depth_mm != b.block_depth_mm) + (a.block_setback_mm != b.block_setback_mm) +
           (a.tail_mm != b.tail_mm) + (a.tail_limits_mm != b.tail_limits_mm) +
           (setbacks < 2 || a.saddle_setback_mm != spread_over(b.saddle_setback_mm, setbacks)) +
           (a.kind && a.kind != b.kind ? another_kind : 0);
}

// What the names "now" and "next" in an entry mean in a set-up, whatever the entry carries itself.
OwnStrings meant_by(const Reading& entry, const Setup& setup) {
    const bool next = entry.tuning == Which::next;
    return {entry.strings == Which::next ? setup.next.strings : setup.now.strings,
            next ? setup.next.tuning : setup.now.tuning,
            next ? setup.next.offset_cents : setup.now.offset_cents};
}

bool is_accepted(const Setup& setup) {
    Problems problems;
    check_setup(setup, problems);
    return problems.none();
}

// The guitar as "now" says it stands, as a reading of it; nothing where that is no reading in tune.
std::optional<Reading> reading_of_now(const Setup& setup) {
    if (claw_from_spring_lengths(setup))
        return std::nullopt;
    Reading entry;
    entry.own = {setup.now.strings, setup.now.tuning, setup.now.offset_cents};
    entry.springs = setup.now.springs;
    entry.tail_mm = setup.now.tail_mm;
    return entry;
}

// "Now" of a second job is the last reading of the one before.
bool is_in_the_log(const Reading& now, const Setup& setup) {
    return std::any_of(setup.log.begin(), setup.log.end(), [&](const Reading& entry) {
        return entry.kind == now.kind && entry.tail_mm == now.tail_mm && entry.turns == now.turns &&
               springs_moved(entry.springs, now.springs) == 0;
    });
}

// What the first entry was read after is "now" no more: it goes before it as a reading, or the strings came
// up from slack.
void keep_beginning(std::optional<Reading> was, Setup& setup) {
    Reading& first = setup.log.front();
    if (!was) {
        first.from_slack |= first.kind == ReadingKind::after_turn || first.kind == ReadingKind::after_pass;
    } else if (setup.log.size() < most_readings) {
        if (was->own == meant_by(*was, setup))
            was->own.reset();
        setup.log.push_back(std::move(*was));
        for (std::size_t i = setup.log.size() - 1; i > 0; --i)
            std::swap(setup.log[i], setup.log[i - 1]);
    }
}

// What was read, and a job begun, are of a guitar that is no more.
void forget_readings(Setup& setup) {
    setup.log.clear();
    setup.bench.reset();
}

template <class List, class Same>
auto find_in(const List& list, Same&& same) {
    const auto found = std::find_if(list.begin(), list.end(), same);
    return found == list.end() ? nullptr : &*found;
}

} // namespace

std::size_t strings_of(const Setup& setup) {
    return setup.next.strings.size();
}

void keep_readings_true(const Setup& before, Setup& after) {
    // A step done at the bench changes neither.
    if (after.bench && !after.bench->done.empty()) {
        const auto by_now = static_cast<int>(after.bench->done.size());
        if (after.next.strings != before.next.strings)
            after.bench->strings_since = by_now;
        if (after.next.tuning != before.next.tuning || after.next.offset_cents != before.next.offset_cents)
            after.bench->tuning_since = by_now;
    }
    for (std::size_t e = 0; e < after.log.size(); ++e) {
        Reading& entry = after.log[e];
        OwnStrings meant = meant_by(entry, after);
        if (entry.own == meant)
            entry.own.reset();
        if (entry.own || e >= before.log.size() || before.log[e] != entry)
            continue;
        OwnStrings was = meant_by(entry, before);
        if (was != meant && is_accepted(before))
            entry.own = std::move(was);
    }
}

void begin_next_job(Setup& setup) {
    const auto last = std::find_if(setup.log.rbegin(), setup.log.rend(), [](const Reading& entry) {
        return entry.kind == ReadingKind::in_tune && entry.tail_mm;
    });
    if (last == setup.log.rend())
        return;
    const Setup before = setup;
    const std::optional<Reading> was = reading_of_now(before);
    const bool known = was && is_in_the_log(*was, before);
    const std::array<double, 2> turned = last->turns;
    NowSetup now;
    now.tuning = setup.next.tuning;
    now.offset_cents = setup.next.offset_cents;
    now.strings = setup.next.strings;
    now.springs = last->springs;
    now.tail_mm = *last->tail_mm;
    setup.log.erase(last.base(), setup.log.end());
    setup.now = std::move(now);
    setup.next.springs.reset();
    setup.bench.reset();
    keep_readings_true(before, setup);
    if (!known)
        keep_beginning(was, setup);
    for (Reading& entry : setup.log)
        for (std::size_t screw = 0; screw < 2; ++screw)
            entry.turns[screw] -= turned[screw];
    BaySetup& bay = setup.guitar.bay;
    const double mean = 0.5 * (turned[0] + turned[1]);
    bay.turns_in_left = std::clamp(bay.turns_in_left - mean, 0.0, most_thread);
    bay.turns_out_left = std::clamp(bay.turns_out_left + mean, 0.0, most_thread);
}

void change_string_count(Setup& setup, std::size_t strings) {
    const auto* set =
        find_in(presets().string_sets, [&](const auto& preset) { return preset.strings.size() == strings; });
    const auto* tuning =
        find_in(presets().tunings, [&](const auto& preset) { return preset.notes.size() == strings; });
    if (!set || !tuning)
        return;
    const bool bass = strings < fewest_of_a_guitar;
    if (bass != (strings_of(setup) < fewest_of_a_guitar))
        setup.guitar.scale_mm.values = {bass ? bass_scale_mm : guitar_scale_mm};
    setup.now.strings = setup.next.strings = set->strings;
    setup.now.tuning = setup.next.tuning = tuning->notes;
    setup.now.offset_cents = setup.next.offset_cents = PerString{};
    GuitarSetup& guitar = setup.guitar;
    for (PerString* values : {&guitar.scale_mm, &guitar.headstock_mm, &guitar.bridge.saddle_height_mm,
                              &guitar.bridge.saddle_setback_mm, &guitar.bridge.anchor_mm})
        *values = spread_over(*values, strings);
    forget_readings(setup);
}

Setup usual_setup(const BridgePreset& bridge) {
    constexpr int usual_set = 6, usual_tuning = 1; // presets/string_sets.json, tunings.json
    auto numbered = [](const auto& list, int number) {
        return find_in(list, [&](const auto& preset) { return preset.number == number; });
    };
    Setup setup;
    setup.next.strings = numbered(presets().string_sets, usual_set)->strings;
    setup.next.tuning = numbered(presets().tunings, usual_tuning)->notes;
    setup.guitar.scale_mm.values = {guitar_scale_mm};
    setup.guitar.headstock_mm = presets().headstocks.front().headstock_mm;
    setup.guitar.bay = bridge.bay;
    setup.guitar.spring = standard_spring();
    put_bridge(setup, bridge);
    setup.now.strings = setup.next.strings;
    setup.now.tuning = setup.next.tuning;
    setup.now.tail_mm = setup.next.tail_mm;
    setup.now.springs = evenly_placed(setup.guitar.bay, bridge.springs_usual);
    return setup;
}

void put_springs(Setup& setup, Arrangement springs) {
    NowSetup& now = setup.now;
    if (springs == now.springs)
        return;
    const std::size_t count = springs.size();
    if (now.spring_mm && !now.spring_mm->empty()) {
        std::vector<double> lengths_mm;
        for (const PlacedSpring& spring : springs) {
            const auto stays = std::find_if(now.springs.begin(), now.springs.end(), [&](const auto& before) {
                return before.hook == spring.hook && before.hole == spring.hole;
            });
            const auto place = static_cast<std::size_t>(stays - now.springs.begin());
            lengths_mm.push_back(place < now.spring_mm->size() ? (*now.spring_mm)[place]
                                                               : now.spring_mm->front());
        }
        now.spring_mm = std::move(lengths_mm);
    }
    now.springs = std::move(springs);
    forget_readings(setup);
    if (setup.guitar.springs_owned && *setup.guitar.springs_owned < static_cast<int>(count))
        setup.guitar.springs_owned = static_cast<int>(count);
}

void put_bridge(Setup& setup, const BridgePreset& preset) {
    BridgeSetup bridge = preset.bridge;
    bridge.saddle_setback_mm = spread_over(bridge.saddle_setback_mm, strings_of(setup));
    bridge.mass_g = setup.guitar.bridge.mass_g;
    bridge.mass_setback_mm = setup.guitar.bridge.mass_setback_mm;
    if (setup.guitar.bridge != bridge)
        forget_readings(setup);
    setup.guitar.bridge = std::move(bridge);
    setup.guitar.bay.claw_depth_mm = preset.bay.claw_depth_mm;
    setup.guitar.basis.clear();
    // Knife edges go with a nut that clamps (common practice).
    if (!setup.guitar.nut_locked)
        setup.guitar.nut_clamps =
            preset.bridge.kind == Pivot::knife_edge ? std::optional(true) : std::nullopt;
    setup.next.tail_mm = preset.usual_aim_mm;
    const auto& limits = setup.guitar.bridge.tail_limits_mm;
    if (setup.now.tail_mm > limits[0] && setup.now.tail_mm < limits[1])
        return;
    setup.now.tail_mm = std::max(preset.usual_aim_mm, limits[0] + off_the_stop_mm);
    setup.now.tail_sides_mm.reset(); // of which it was the mean
}

const BridgePreset& nearest_bridge(const BridgeSetup& bridge) {
    const auto& bridges = presets().bridges;
    const auto distance = [&](const BridgePreset& preset) {
        return 2 * differences(bridge, preset) + preset.retired;
    };
    return *std::min_element(
        bridges.begin(), bridges.end(),
        [&](const BridgePreset& a, const BridgePreset& b) { return distance(a) < distance(b); });
}

std::vector<const BridgePreset*> offered_bridges(const BridgePreset& on) {
    std::vector<const BridgePreset*> offered;
    for (const BridgePreset& preset : presets().bridges)
        if (!preset.retired || preset.number == on.number)
            offered.push_back(&preset);
    return offered;
}

const StringSetPreset* matching_set(const std::vector<StringSetup>& strings) {
    return find_in(presets().string_sets, [&](const auto& preset) { return preset.strings == strings; });
}

const TuningPreset* matching_tuning(const std::vector<Pitch>& notes) {
    return find_in(presets().tunings, [&](const auto& preset) { return preset.notes == notes; });
}

const SpringPreset* matching_spring(const SpringSetup& spring) {
    return find_in(presets().springs, [&](const auto& preset) { return preset.spring == spring; });
}

const ScrewPreset* matching_screw(double screw_pitch_mm) {
    return find_in(presets().screws, [&](const ScrewPreset& preset) {
        return std::abs(preset.screw_pitch_mm - screw_pitch_mm) < same_pitch_mm;
    });
}

const HeadstockPreset* matching_headstock(const PerString& headstock_mm, std::size_t strings) {
    return find_in(presets().headstocks, [&](const HeadstockPreset& preset) {
        return spread_over(preset.headstock_mm, strings) == headstock_mm;
    });
}

const SpringSetup& standard_spring() {
    return find_in(presets().springs,
                   [](const SpringPreset& preset) { return preset.number == standard_spring_number; })
        ->spring;
}

} // namespace counterpull
