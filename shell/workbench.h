// What the page works on: the set-up as edited, the last good answer, and what is refused.
#pragma once

#include "engine/advice/report.h"
#include "engine/advice/string_search.h"
#include "engine/document/choices.h"
#include "engine/say/whatif_topics.h"
#include "engine/whatif/whatif.h"

#include <map>
#include <optional>
#include <string>

namespace counterpull {

class Workbench {
  public:
    explicit Workbench(Setup setup);

    const Setup& setup() const { return setup_; }
    // The last answer there was, and the set-up that it answers. Outdated while anything is refused.
    const Report& report() const { return *solved().report; }
    const Setup& answered() const { return has_answer() ? report().setup() : setup_; }
    bool outdated() const { return !drafts_.empty() || !solved().problems.none(); }
    bool has_answer() const { return solved().report.has_value(); }
    // Grows with every change of the set-up or of what is refused.
    long revision() const { return revision_; }

    // Grows with every change of the set-up alone.
    long edition() const { return edition_; }
    // Grows with every set-up that is put in place of another: opened, begun, or gone back to.
    long opening() const { return opening_; }
    // What is shown beside the set-up is not what it was.
    void look_again() { ++revision_; }

    // For the last answer; searched once for each feel asked for.
    const std::vector<FoundSet>& sets_that_need_no_turns(Feel feel);

    // What else changes by the last answer, in topics; worked out when first asked for.
    struct Effects {
        WhatIf answer;
        std::vector<Topic> topics;
    };
    const Effects& effects();

    // 1 σ of the advised turns before any reading and after each, by the last answer; empty where there are
    // no turns. Worked out when first asked for.
    const std::vector<double>& spread_history();
    // The test reading worth taking before the first turn, likewise.
    const std::optional<TestReading>& test_reading();

    // Every change of the set-up goes through here: `change(Setup&)`, then it is solved anew.
    template <class Change>
    void edit(Change&& change) {
        before_ = setup_;
        change(setup_);
        finish_edit();
    }
    void open(Setup setup); // an edit too
    // Another set-up altogether: there is nothing to undo to.
    void begin(Setup setup);

    // Back and forward through the edits. What is edited between two calls of begin_step (while a button is
    // held, a number dragged or typed) is one step.
    void begin_step() { step_begun_ = false; }
    bool can_undo() const { return !undone_to_.empty(); }
    bool can_redo() const { return !redone_to_.empty(); }
    void undo() { go(undone_to_, redone_to_); }
    // What undo leads to; nothing where there is nothing to undo.
    const Setup* undone_to() const { return undone_to_.empty() ? nullptr : &undone_to_.back(); }
    void redo() { go(redone_to_, undone_to_); }

    // A text typed at a path that is no value (yet): kept at its field, with the reason.
    void draft(const std::string& path, const std::string& text, Phrase why);
    void drop_draft(std::string_view path);
    void drop_drafts_of(std::string_view begin); // of every path that begins so
    bool has_drafts_of(std::string_view begin) const;
    // The text standing at a path, if it is a draft.
    const std::string* draft_at(std::string_view path) const;
    // Why the value at a path is refused, or nothing.
    const Phrase* problem_at(std::string_view path) const;
    const Problems& problems() const { return solved().problems; }
    // All that keeps the set-up from being answered: drafts, and the problems at other paths.
    std::vector<Problem> refused() const;

    // The bridge preset chosen last, or the one nearest to the set-up when it was opened.
    const BridgePreset& bridge_preset() const { return *bridge_preset_; }
    // Drafts go with the bridge that they were typed for. `preset` is one of presets().
    void choose_bridge(const BridgePreset& preset);
    // What that has set of the tail besides, until the next edit; nothing where it is as it was.
    struct TailsSet {
        std::optional<double> now_mm{}, next_mm{};
    };
    const TailsSet& tails_set() const { return tails_set_; }
    // What went with what was on the guitar before, until something is read or begun anew or another set-up
    // is put in place.
    struct Gone {
        std::size_t readings = 0;
        bool job = false, by_springs = false; // else by the bridge or the number of strings
        bool any() const { return readings > 0 || job; }
    };
    const Gone& gone() const { return gone_; }

  private:
    struct Draft {
        std::string text;
        Phrase why;
    };
    static constexpr std::size_t most_steps = 200;
    // The last good answer, and why the set-up of now has none.
    struct Answer {
        std::optional<Report> report;
        Problems problems;
    };
    // Worked out when first asked for: a set-up that is put on the page and replaced at once costs nothing.
    const Answer& solved() const;
    void solve_anew();
    void put(Setup setup);
    void remember(Setup before);
    void finish_edit(); // since `before_`
    void note_gone();   // likewise
    void go(std::vector<Setup>& from, std::vector<Setup>& to);

    Setup setup_, before_;
    mutable Answer answer_;
    mutable bool unsolved_ = true;
    std::map<std::string, Draft, std::less<>> drafts_;
    const BridgePreset* bridge_preset_ = nullptr;
    long revision_ = 0, edition_ = 0, opening_ = 0;
    TailsSet tails_set_;
    Gone gone_;
    std::vector<Setup> undone_to_, redone_to_;
    bool step_begun_ = false;
    std::map<Feel, std::vector<FoundSet>> sets_;
    std::optional<std::vector<double>> history_;
    std::optional<std::optional<TestReading>> test_reading_;
    std::optional<Effects> effects_;
};

} // namespace counterpull
