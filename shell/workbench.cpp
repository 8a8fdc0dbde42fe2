#include "shell/workbench.h"
#include "engine/belief/spread_history.h"
#include "engine/say/whatif_topics.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

// How many of a bridge's own dimensions differ from a preset's.
int differences(const Setup& setup, const BridgePreset& preset) {
    const BridgeSetup& a = setup.guitar.bridge;
    const BridgeSetup& b = preset.bridge;
    return (a.saddle_height_mm != b.saddle_height_mm) + (a.anchor_mm != b.anchor_mm) +
           (a.block_depth_mm != b.block_depth_mm) + (a.block_setback_mm != b.block_setback_mm) +
           (a.tail_mm != b.tail_mm) + (a.tail_limits_mm != b.tail_limits_mm);
}

template <class List, class Same>
auto find_in(const List& list, Same&& same) {
    const auto found = std::find_if(list.begin(), list.end(), same);
    return found == list.end() ? nullptr : &*found;
}

template <class Preset, class Count>
const Preset* first_with(const std::vector<Preset>& list, std::size_t strings, Count&& count) {
    return find_in(list, [&](const Preset& preset) { return count(preset) == strings; });
}

} // namespace

Workbench::Workbench(Setup setup) {
    put(std::move(setup));
}

void Workbench::open(Setup setup) {
    begin_step();
    if (setup != setup_)
        remember(setup_);
    begin_step();
    put(std::move(setup));
}

void Workbench::begin(Setup setup) {
    undone_to_.clear();
    redone_to_.clear();
    begin_step();
    put(std::move(setup));
}

void Workbench::remember(Setup before) {
    if (step_begun_)
        return;
    step_begun_ = true;
    redone_to_.clear();
    if (undone_to_.size() == most_steps)
        undone_to_.erase(undone_to_.begin());
    undone_to_.push_back(std::move(before));
}

void Workbench::go(std::vector<Setup>& from, std::vector<Setup>& to) {
    if (from.empty())
        return;
    to.push_back(setup_);
    Setup there = std::move(from.back());
    from.pop_back();
    begin_step();
    put(std::move(there));
}

void Workbench::put(Setup setup) {
    setup_ = std::move(setup);
    drafts_.clear();
    const auto& bridges = presets().bridges;
    const auto nearest =
        std::min_element(bridges.begin(), bridges.end(), [&](const BridgePreset& a, const BridgePreset& b) {
            return differences(setup_, a) < differences(setup_, b);
        });
    bridge_preset_ = nearest->number;
    solve();
}

void Workbench::solve() {
    ++revision_;
    ReportResult result = counterpull::report(setup_);
    problems_ = std::move(result.problems);
    if (!result.report)
        return;
    report_ = std::move(result.report);
    ask_test_reading(setup_, *report_);
    answered_ = setup_;
    sets_.clear();
    history_.reset();
    effects_.reset();
}

const std::vector<FoundSet>& Workbench::sets_that_need_no_turns(Feel feel) {
    const auto known = sets_.find(feel);
    if (known != sets_.end())
        return known->second;
    SearchOptions options;
    options.feel = feel;
    return sets_[feel] = strings_to_buy(answered_, options).sets;
}

const Workbench::Effects& Workbench::effects() {
    if (!effects_) {
        WhatIf answer = whatif(answered_, *report_);
        std::vector<Topic> topics = whatif_topics(answered_, *report_, answer);
        effects_ = {std::move(answer), std::move(topics)};
    }
    return *effects_;
}

const std::vector<double>& Workbench::spread_history() {
    if (!history_)
        history_ = counterpull::spread_history(calibrate(answered_), report_->advice.front().turns_per);
    return *history_;
}

void Workbench::draft(const std::string& path, const std::string& text, Phrase why) {
    ++revision_;
    drafts_.insert_or_assign(path, Draft{text, std::move(why)});
}

void Workbench::drop_draft(const std::string& path) {
    if (drafts_.erase(path) > 0)
        ++revision_;
}

const std::string* Workbench::draft_at(const std::string& path) const {
    const auto found = drafts_.find(path);
    return found == drafts_.end() ? nullptr : &found->second.text;
}

const Phrase* Workbench::problem_at(const std::string& path) const {
    if (const auto found = drafts_.find(path); found != drafts_.end())
        return &found->second.why;
    for (const Problem& problem : problems_.told)
        if (problem.path == path)
            return &problem.why;
    return nullptr;
}

const BridgePreset& Workbench::bridge_preset() const {
    const auto& bridges = presets().bridges;
    const BridgePreset* found =
        find_in(bridges, [&](const BridgePreset& preset) { return preset.number == bridge_preset_; });
    return found ? *found : bridges.front();
}

void Workbench::choose_bridge(const BridgePreset& preset) {
    bridge_preset_ = preset.number;
    drafts_.clear();
    edit([&](Setup& setup) {
        BridgeSetup bridge = preset.bridge;
        bridge.saddle_setback_mm = spread_over(bridge.saddle_setback_mm, strings_of(setup));
        // The weight belongs to this bridge, not to its kind.
        bridge.mass_g = setup.guitar.bridge.mass_g;
        bridge.mass_setback_mm = setup.guitar.bridge.mass_setback_mm;
        setup.guitar.bridge = std::move(bridge);
        setup.guitar.bay.claw_depth_mm = preset.bay.claw_depth_mm;
        setup.guitar.basis.clear();
        setup.next.tail_mm = preset.usual_aim_mm;
        const auto& limits = setup.guitar.bridge.tail_limits_mm;
        // A reading that this bridge cannot give would be refused; as found, it floats at its usual aim.
        if (setup.now.tail_mm <= limits[0] || setup.now.tail_mm >= limits[1])
            setup.now.tail_mm = std::max(preset.usual_aim_mm, limits[0] + 0.5);
    });
}

std::size_t strings_of(const Setup& setup) {
    return setup.next.strings.size();
}

void change_string_count(Setup& setup, std::size_t strings) {
    const Presets& all = presets();
    const auto* set = first_with(all.string_sets, strings, [](const auto& p) { return p.strings.size(); });
    const auto* tuning = first_with(all.tunings, strings, [](const auto& p) { return p.notes.size(); });
    if (!set || !tuning)
        return;
    setup.now.strings = setup.next.strings = set->strings;
    setup.now.tuning = setup.next.tuning = tuning->notes;
    setup.now.offset_cents = setup.next.offset_cents = PerString{};
    GuitarSetup& guitar = setup.guitar;
    for (PerString* values : {&guitar.scale_mm, &guitar.headstock_mm, &guitar.bridge.saddle_height_mm,
                              &guitar.bridge.saddle_setback_mm, &guitar.bridge.anchor_mm})
        *values = spread_over(*values, strings);
    setup.log.clear();
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
        return std::abs(preset.screw_pitch_mm - screw_pitch_mm) < 0.006; // two decimals
    });
}

const HeadstockPreset* matching_headstock(const PerString& headstock_mm, std::size_t strings) {
    return find_in(presets().headstocks, [&](const HeadstockPreset& preset) {
        return spread_over(preset.headstock_mm, strings) == headstock_mm;
    });
}

} // namespace counterpull
