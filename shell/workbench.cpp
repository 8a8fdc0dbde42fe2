#include "shell/workbench.h"
#include "engine/belief/spread_history.h"
#include "engine/say/whatif_topics.h"

#include <utility>

namespace counterpull {

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

void Workbench::finish_edit() {
    tails_set_ = {};
    keep_readings_true(before_, setup_);
    // What was typed into a string or a reading that is gone is gone too.
    if (strings_of(setup_) != strings_of(before_) || setup_.log.size() < before_.log.size())
        drafts_.clear();
    note_gone();
    if (setup_ != before_)
        remember(std::move(before_));
    solve_anew();
}

void Workbench::note_gone() {
    if (!setup_.log.empty() || setup_.bench) {
        gone_ = {};
        return;
    }
    const bool by_springs = setup_.now.springs != before_.now.springs;
    if (!by_springs && setup_.guitar.bridge == before_.guitar.bridge &&
        strings_of(setup_) == strings_of(before_))
        return; // taken away by hand
    const bool job = before_.bench && !before_.bench->done.empty();
    if (before_.log.empty() && !job)
        return;
    gone_ = {before_.log.size(), job, by_springs};
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
    tails_set_ = {};
    gone_ = {};
    ++opening_;
    bridge_preset_ = &nearest_bridge(setup_.guitar.bridge);
    solve_anew();
}

void Workbench::solve_anew() {
    ++revision_;
    ++edition_;
    unsolved_ = true;
    sets_.clear();
    history_.reset();
    test_reading_.reset();
    effects_.reset();
}

const Workbench::Answer& Workbench::solved() const {
    if (!std::exchange(unsolved_, false))
        return answer_;
    ReportResult result = counterpull::report(setup_);
    answer_.problems = std::move(result.problems);
    if (result.report)
        answer_.report = std::move(result.report);
    return answer_;
}

const std::vector<FoundSet>& Workbench::sets_that_need_no_turns(Feel feel) {
    const auto known = sets_.find(feel);
    if (known != sets_.end())
        return known->second;
    SearchOptions options;
    options.feel = feel;
    return sets_[feel] = strings_to_buy(report().solution, options);
}

const Workbench::Effects& Workbench::effects() {
    if (!effects_) {
        WhatIf answer = whatif(report().solution);
        std::vector<Topic> topics = whatif_topics(report(), answer);
        effects_ = {std::move(answer), std::move(topics)};
    }
    return *effects_;
}

const std::vector<double>& Workbench::spread_history() {
    if (!history_) {
        const Solution& solution = report().solution;
        history_ = solution.advised().turns
                       ? counterpull::spread_history(solution.calibration, solution.advised().turns_per)
                       : std::vector<double>();
    }
    return *history_;
}

const std::optional<TestReading>& Workbench::test_reading() {
    if (!test_reading_)
        test_reading_ = best_test_reading(report().solution);
    return *test_reading_;
}

void Workbench::draft(const std::string& path, const std::string& text, Phrase why) {
    ++revision_;
    drafts_.insert_or_assign(path, Draft{text, std::move(why)});
}

void Workbench::drop_draft(std::string_view path) {
    const auto found = drafts_.find(path);
    if (found == drafts_.end())
        return;
    drafts_.erase(found);
    ++revision_;
}

void Workbench::drop_drafts_of(std::string_view begin) {
    if (std::erase_if(drafts_, [&](const auto& draft) { return draft.first.starts_with(begin); }) > 0)
        ++revision_;
}

bool Workbench::has_drafts_of(std::string_view begin) const {
    const auto first = drafts_.lower_bound(begin);
    return first != drafts_.end() && first->first.starts_with(begin);
}

const std::string* Workbench::draft_at(std::string_view path) const {
    const auto found = drafts_.find(path);
    return found == drafts_.end() ? nullptr : &found->second.text;
}

const Phrase* Workbench::problem_at(std::string_view path) const {
    if (const auto found = drafts_.find(path); found != drafts_.end())
        return &found->second.why;
    for (const Problem& problem : problems().told)
        if (problem.path == path)
            return &problem.why;
    return nullptr;
}

std::vector<Problem> Workbench::refused() const {
    std::vector<Problem> all;
    for (const auto& [path, draft] : drafts_)
        all.push_back({path, draft.why});
    for (const Problem& problem : problems().told)
        if (!drafts_.contains(problem.path))
            all.push_back(problem);
    return all;
}

void Workbench::choose_bridge(const BridgePreset& preset) {
    bridge_preset_ = &preset;
    drafts_.clear();
    const double now_mm = setup_.now.tail_mm, next_mm = setup_.next.tail_mm;
    edit([&](Setup& setup) { put_bridge(setup, preset); });
    if (setup_.now.tail_mm != now_mm)
        tails_set_.now_mm = setup_.now.tail_mm;
    if (setup_.next.tail_mm != next_mm)
        tails_set_.next_mm = setup_.next.tail_mm;
}

} // namespace counterpull
