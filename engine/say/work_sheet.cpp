#include "engine/say/work_sheet.h"

#include "engine/base/format.h"
#include "engine/base/units.h"
#include "engine/say/answer.h"
#include "engine/say/names.h"
#include "engine/say/string_search_text.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

// Corrections are told for this part of a turn: no hand makes much less.
constexpr double told_turn = 0.125;
// Turns from here on are told as more than half a turn.
constexpr double more_than_half = 0.5625;
// A tail off by this much is to be corrected.
constexpr double told_tail_mm = 0.5;

Amount mm(double value) {
    return signed_millimetres(value, 1);
}
Amount decimal(double turns) {
    return number(std::abs(turns), 2);
}

// Too little to count, in one go, or by halves.
const char* tightened(double turns) {
    return turns < least_turn       ? "sheet.tighten_touch"
           : turns < more_than_half ? "sheet.tighten_once"
                                    : "sheet.tighten";
}
const char* loosened(double turns) {
    return turns < least_turn       ? "sheet.loosen_touch"
           : turns < more_than_half ? "sheet.loosen_once"
                                    : "sheet.loosen";
}

// The newest reading of the tail with the strings as they were to be left.
const Reading* newest_tail(const Setup& setup) {
    for (std::size_t i = setup.log.size(); i-- > 0;)
        if (const Reading& reading = setup.log[i];
            reading.tail_mm && reading.kind != ReadingKind::bend && reading.kind != ReadingKind::drop)
            return &reading;
    return nullptr;
}

// The sentences of a step, by its kind.
class Sentences {
  public:
    Sentences(const Report& report, const std::vector<Step>& steps, bool on_paper = true)
        : on_paper_(on_paper), setup_(report.setup()), report_(report), best_(report.solution.advised()),
          steps_(steps) {}

    SheetStep of(const Step& step) {
        said_ = {};
        write(step);
        if (&step == &steps_.back())
            caution("caution.repairer");
        return std::move(said_);
    }

    bool has(StepKind kind) const {
        return std::any_of(steps_.begin(), steps_.end(), [&](const Step& s) { return s.kind == kind; });
    }

  private:
    void say(Phrase phrase) { said_.text.push_back(std::move(phrase)); }
    void caution(const char* key) { said_.cautions.push_back({key}); }
    // Where the tuner decides. On its back, weight and all, where the player reads it so.
    void caution_held() {
        if (setup_.guitar.held == Held::playing)
            caution("caution.held");
    }
    void blank_tail() { said_.blank = Phrase("sheet.blank_tail"); }

    void write(const Step& step) {
        switch (step.kind) {
        case StepKind::note:
            return note(step);
        case StepKind::test:
            return test(step.test);
        case StepKind::open_the_nut:
            say("sheet.open_nut");
            if (step.forced)
                caution("caution.nut");
            return;
        case StepKind::slacken:
            say("sheet.slacken_all");
            caution("caution.eyes");
            caution("caution.jump");
            return;
        case StepKind::springs:
            return springs(step);
        case StepKind::turn:
            return turn(step);
        case StepKind::turn_until:
            return step.turns_per_cent > 0.0 ? ease(step) : turn_until(step);
        case StepKind::strings:
            return step.replaced > 0 ? say(Phrase("sheet.replace").with("string", step.replaced))
                                     : say("sheet.strings");
        case StepKind::wedge_in:
            say(Phrase("sheet.wedge_in").with("tail", mm(step.tail_mm)));
            return caution("caution.finish");
        case StepKind::wedge_out:
            return wedge_out(step);
        case StepKind::tune:
            return tune(step);
        case StepKind::read:
            return read(step);
        case StepKind::wait:
            say(step.new_strings ? "sheet.wait_new" : "sheet.wait");
            return blank_tail();
        case StepKind::close_the_nut:
            return say("sheet.close_nut");
        case StepKind::check:
            return check(step);
        case StepKind::finished:
            return say(Phrase("sheet.finished").with("tail", mm(step.tail_mm)));
        case StepKind::cannot:
            return say(answer_sentence(report_));
        }
    }

    void note(const Step& step) {
        const Reading* last = newest_tail(setup_);
        const bool off = !setup_.now.in_tune && setup_.log.empty();
        say(Phrase(last  ? "sheet.note_again"
                   : off ? "sheet.note_off"
                         : "sheet.note")
                .with("tail", mm(last ? *last->tail_mm : setup_.now.tail_mm))
                .with("hooks", hooks_of(fitted_springs(setup_))));
        for (const Warning& warning : report_.warnings)
            if (warning.kind == WarningKind::readings_pull_apart)
                say(sentence_of(warning));
        if (setup_.log.empty()) {
            say("sheet.look");
            if (sides_differ_mm(setup_) != 0.0 && setup_.guitar.bridge.kind != Pivot::screw_plate)
                say("sheet.posts");
        }
        if (!has(StepKind::turn) && !has(StepKind::turn_until))
            say("sheet.leave_claw");
        if (!step.asks.empty())
            blank_tail();
    }

    void test(const TestReading& test) {
        const NotesOfTest notes = notes_of_test(test, setup_);
        say(Phrase(test.kind == ReadingKind::drop ? "sheet.test_drop" : "sheet.test_bend")
                .with("string", test.string)
                .with("from", notes.from)
                .with("to", notes.to));
        caution_held();
    }

    void springs(const Step& step) {
        if (!step.off.empty())
            say(Phrase("sheet.springs_off").with("hooks", hooks_of(step.off)));
        if (!step.on.empty())
            say(Phrase("sheet.springs_on")
                    .with("hooks", hooks_of(step.on))
                    .with("holes", holes_of(step.on))
                    .with("all", hooks_of(best_.springs)));
        caution("caution.spring");
        caution("caution.finish");
    }

    void turn(const Step& step) {
        const double turns = step.turns[0];
        say(Phrase(turns > 0.0 ? tightened(turns) : loosened(-turns))
                .with("turns", Turns{turns})
                .with("decimal", decimal(turns)));
        if (step.surplus_turns > 0.0) {
            const double told = turns - step.surplus_turns;
            say(Phrase(std::abs(told) < least_turn ? "sheet.surplus_alone"
                       : told > 0.0                ? "sheet.surplus_tighter"
                                                   : "sheet.surplus_looser")
                    .with("turns", Turns{told})
                    .with("surplus", Turns{step.surplus_turns}));
        }
        if (step.stuck > 0)
            caution("caution.stuck");
        caution("caution.driver");
        caution("caution.strip");
    }

    void turn_until(const Step& step) {
        caution("caution.strings_up");
        turn(step);
        const std::size_t place = setup_.next.tuning.size() - static_cast<std::size_t>(step.string);
        const ShownNote shown = shown_note(setup_.next.tuning[place], step.cents);
        say(Phrase("sheet.watch")
                .with("string", step.string)
                .with("note", shown.note)
                .with("cents", signed_number(shown.cents, 0)));
        for (const Asked& asked : step.asks)
            say(Phrase("sheet.before_retuning").with("tail", mm(asked.expected.value_or(0.0))));
        caution_held();
    }

    void wedge_out(const Step& step) {
        const Asked& cents = step.asks[0];
        say(Phrase("sheet.wedge_out")
                .with("string", cents.string)
                .with("cents", signed_number(*cents.expected, 0))
                .with("tail", mm(*step.asks[1].expected)));
        caution_held();
        said_.blank = Phrase("sheet.blank_cents").with("string", cents.string);
    }

    // By the string that shows it best, until it is back at pitch, or where what was read says.
    void ease(const Step& step) {
        const bool tighter = step.turns[0] > 0.0;
        say(Phrase(tighter ? "sheet.ease_tighter" : "sheet.ease")
                .with("string", step.string)
                .with("to", signed_number(step.cents, 0))
                .with("turns", Turns{told_turn})
                .with("cents", number(told_turn / step.turns_per_cent, 0))
                .with("expected", Turns{std::max(std::abs(step.turns[0]), least_turn)}));
    }

    // What the tuner shows for each string: "D2 +40", "C#2 +1 (C2 +101)".
    List aims(const Step& step) const {
        List list;
        for (std::size_t i = 0; i < step.aims.size(); ++i) {
            Parts& aim = list.things.emplace_back(shown_by_tuner(setup_.next.tuning[i], step.aims[i].cents));
            for (Part& part : beside_shown(setup_.next.tuning[i], step.aims[i].cents))
                aim.push_back(std::move(part));
        }
        return list;
    }

    void tune(const Step& step) {
        const char* key = step.how == TuneHow::rough   ? "sheet.tune_roughly"
                          : step.how == TuneHow::plain ? "sheet.tune"
                          : step.wedged                ? "sheet.tune_once"
                          : step.pass == 1             ? "sheet.tune_aims_first"
                          : step.pass == 2             ? "sheet.tune_aims_then"
                                                       : "sheet.tune_aims";
        say(Phrase(key).with("notes", notes_of(setup_.next.tuning)).with("aims", aims(step)));
        if (step.wedged && step.how == TuneHow::aimed)
            caution("caution.wedge_loose");
    }

    void look(const Step& step) {
        const Asked& cents = step.asks[0];
        if (cents.expected)
            say(Phrase("sheet.look_expected")
                    .with("string", cents.string)
                    .with("cents", signed_number(*cents.expected, 0)));
        else
            say(Phrase("sheet.look_open").with("string", cents.string));
        caution_held();
        said_.blank = Phrase("sheet.blank_cents").with("string", cents.string);
    }

    void read(const Step& step) {
        if (step.look)
            return look(step);
        if (setup_.next.rest == RestWanted::on_the_body)
            return say("sheet.read_on_body");
        const double spread_mm = mm_from_metres(ninety_percent * best_.tail_sigma_m);
        say(Phrase(step.wedged           ? "sheet.read_tail_wedged"
                   : best_.measure_first ? "sheet.read_tail_anywhere"
                                         : "sheet.read_tail")
                .with("tail", mm(step.tail_mm))
                .with("spread", millimetres(spread_mm, 1)));
        if (!on_paper_)
            return blank_tail();
        const double moved_mm = mm_from_metres(std::abs(best_.per_turn_m)) * told_turn;
        say(Phrase(0.5 * moved_mm > told_tail_mm ? "sheet.correct_coarse" : "sheet.correct")
                .with("turns", Turns{told_turn})
                .with("move", millimetres(moved_mm, 1)));
        blank_tail();
    }

    void check(const Step& step) {
        if (step.pull_change_n == 0.0)
            return say("sheet.intonation");
        const double share = step.pull_change_n / *report_.now.total_tension_n;
        say(Phrase("sheet.neck")
                .with("pull", signed_newtons(step.pull_change_n, 0))
                .with("percent", signed_number(100.0 * share, 0)));
    }

    bool on_paper_; // else the bench says itself what follows from a reading
    const Setup& setup_;
    const Report& report_;
    const Advice& best_;
    const std::vector<Step>& steps_;
    SheetStep said_;
};

void lay_out(const Report& report, const Sentences& sentences, std::vector<Phrase>& at_hand) {
    const Setup& setup = report.setup();
    const int to_buy = springs_needed(report.solution.advised().springs) - springs_owned(setup);
    if (to_buy > 0)
        at_hand.push_back(Phrase("sheet.buy_springs").with("count", to_buy));
    if (sentences.has(StepKind::cannot))
        return;
    if (sentences.has(StepKind::strings) && setup.now.strings != setup.next.strings)
        at_hand.push_back(Phrase("sheet.buy_strings").with("gauges", gauges_in_words(setup.next.strings)));
    if (sentences.has(StepKind::wedge_in))
        at_hand.push_back({"sheet.hand_wedge"});
    if (sentences.has(StepKind::springs))
        at_hand.push_back({"sheet.hand_springs"});
    at_hand.push_back({"sheet.hand_tools"});
}

std::vector<Phrase> way_back(const Report& report) {
    const Setup& setup = report.setup();
    const Advice& best = report.solution.advised();
    std::vector<Phrase> back;
    // What has been turned is known; of a job not begun only what is told.
    if (!setup.log.empty()) {
        const auto& turned = setup.log.back().turns;
        back.push_back(Phrase("sheet.back_turned")
                           .with("bass", signed_number(turned[0], 2))
                           .with("treble", signed_number(turned[1], 2)));
    } else if (std::abs(*best.turns) >= least_turn) {
        back.push_back(Phrase(*best.turns > 0.0 ? "sheet.back_loosen" : "sheet.back_tighten")
                           .with("turns", Turns{*best.turns})
                           .with("decimal", decimal(*best.turns)));
    }
    if (springs_moved(setup.now.springs, best.springs) > 0)
        back.push_back(Phrase("sheet.back_springs")
                           .with("hooks", hooks_of(setup.now.springs))
                           .with("holes", holes_of(setup.now.springs)));
    if (!setup.now.tuning.empty())
        back.push_back(Phrase("sheet.back_tuning")
                           .with("notes", notes_of(setup.now.tuning))
                           .with("tail", mm(setup.now.tail_mm)));
    return back;
}

} // namespace

SheetStep sentences_of(const Report& report, const std::vector<Step>& to_come, std::size_t which) {
    return Sentences(report, to_come, false).of(to_come[which]);
}

WorkSheet work_sheet(const Report& report, Way way) {
    const std::vector<Step> all = steps(report, way);
    Sentences sentences(report, all);
    WorkSheet sheet;
    if (report.next || report.solution.advised().only_springs_missing())
        lay_out(report, sentences, sheet.at_hand);
    if (!report.next)
        return sheet;
    for (const Step& step : all)
        sheet.steps.push_back(sentences.of(step));
    sheet.back = way_back(report);
    return sheet;
}

} // namespace counterpull
