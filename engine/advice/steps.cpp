#include "engine/advice/steps.h"

#include "engine/base/format.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

int players_number(std::size_t strings, std::size_t place) {
    return static_cast<int>(strings - place);
}

// What is in `these` and not in `in`.
Arrangement without(const Arrangement& these, const Arrangement& in) {
    Arrangement left;
    for (const PlacedSpring& spring : these)
        if (std::find(in.begin(), in.end(), spring) == in.end())
            left.push_back(spring);
    return left;
}

class Walk {
  public:
    Walk(const Report& report, Way way)
        : setup_(report.setup()), report_(report), best_(report.solution.advised()),
          new_strings_(!is_under_way(setup_) &&
                       (setup_.now.strings != setup_.next.strings || !setup_.now.in_tune)),
          wedge_(way.wedge && report.wedge ? &*report.wedge : nullptr), test_(way.test),
          more_((wedge_ ? wedge_->turns : *best_.turns) - report.solution.turns_made()) {}

    std::vector<Step> all() {
        note();
        test();
        open_nut();
        slacken();
        springs();
        turn();
        if (new_strings_)
            step(StepKind::strings);
        if (wedge_)
            wedge();
        else
            tune();
        read();
        settle();
        return std::move(steps_);
    }

  private:
    Step& step(StepKind kind) {
        steps_.push_back({});
        steps_.back().kind = kind;
        return steps_.back();
    }
    // A small turn is made with the strings in tune, an eye on the tuner.
    bool stays_up() const {
        return !wedge_ && report_.tuning && report_.tuning->watch && std::abs(more_) <= few_turns;
    }
    bool turns() const { return std::abs(more_) >= least_turn; }
    bool slackens() const { return new_strings_ || best_.moved > 0 || (turns() && !stays_up()); }
    std::size_t strings() const { return setup_.next.strings.size(); }
    static Asked tail(bool needed, std::optional<double> expected = {}) {
        return {AskedField::tail_mm, needed, 0, expected};
    }

    void note() { step(StepKind::note).asks = {tail(false)}; }

    void test() {
        const auto best = test_ ? best_test_reading(report_.solution) : std::nullopt;
        if (!best)
            return;
        Step& s = step(StepKind::test);
        s.test = *best;
        s.reading = best->kind;
        for (std::size_t i = 0; i < strings(); ++i)
            if (const int string = players_number(strings(), i); string != best->string)
                s.asks.push_back({AskedField::cents, true, string, {}});
    }

    void open_nut() {
        const bool forced = setup_.guitar.nut_locked && (slackens() || needs_an_open_nut(setup_));
        if (nut_has_clamps(setup_.guitar) && (forced || !setup_.guitar.nut_locked)) {
            step(StepKind::open_the_nut).forced = forced;
            nut_open_ = true;
        }
    }

    void slacken() {
        if (!slackens())
            return;
        Step& s = step(StepKind::slacken);
        if (!new_strings_ && best_.moved == 0)
            s.by_cents.assign(strings(), slacken_cents);
    }

    void springs() {
        if (best_.moved == 0)
            return;
        Step& s = step(StepKind::springs);
        s.off = without(fitted_springs(setup_), best_.springs);
        s.on = without(best_.springs, fitted_springs(setup_));
    }

    void turn() {
        if (!turns())
            return;
        Step& s = step(stays_up() ? StepKind::turn_until : StepKind::turn);
        s.turns = {more_, more_};
        if (wedge_)
            s.surplus_turns = wedge_->surplus_turns;
        if (stays_up()) {
            s.string = players_number(strings(), static_cast<std::size_t>(*report_.tuning->watch));
            s.cents = report_.tuning->watch_cents;
        }
        if (stays_up() && report_.before_retuning_tail_mm) {
            s.reading = ReadingKind::after_turn;
            s.asks = {tail(false, report_.before_retuning_tail_mm)};
        }
    }

    void tune(const std::vector<double>& cents, TuneHow how) {
        Step& s = step(StepKind::tune);
        s.how = how;
        for (std::size_t i = 0; i < strings(); ++i) {
            const double aim = cents.empty() ? 0.0 : cents[i];
            s.aims.push_back({players_number(strings(), i), aim,
                              *report_.carried_out.strings[i].pitch_hz * std::exp2(aim / 1200.0)});
        }
    }

    void wedge() {
        Step& in = step(StepKind::wedge_in);
        in.side = wedge_->side;
        in.tail_mm = setup_.next.tail_mm;
        if (new_strings_)
            tune({}, TuneHow::rough);
        tune({}, TuneHow::aimed);
        const auto place = static_cast<std::size_t>(wedge_->read_string);
        const int string = players_number(strings(), place);
        Step& out = step(StepKind::wedge_out);
        out.reading = ReadingKind::wedge_out;
        out.asks = {{AskedField::cents, true, string, wedge_->cents[place]}, tail(false, wedge_->tail_mm)};
        Step& ease = step(StepKind::turn_until);
        ease.turns = {-wedge_->surplus_turns, -wedge_->surplus_turns};
        ease.string = string;
        ease.turns_per_cent = wedge_->turns_to_ease_per_cent;
    }

    void tune() {
        const auto& sheet = report_.tuning;
        if (!sheet)
            return tune({}, TuneHow::plain);
        if (sheet->start == SheetStart::brought_up_roughly)
            tune({}, TuneHow::rough);
        if (!sheet->why_gentler)
            return tune(sheet->aim_cents, TuneHow::aimed);
        for (const std::vector<double>& pass : sheet->gentler_cents)
            tune(pass, TuneHow::aimed);
    }

    void read() {
        Step& s = step(StepKind::read);
        s.tail_mm = report_.carried_out.tail_mm;
        s.reading = ReadingKind::in_tune;
        s.asks = {tail(true, s.tail_mm)};
    }

    void settle() {
        Step& wait = step(StepKind::wait);
        wait.new_strings = new_strings_;
        wait.reading = ReadingKind::in_tune;
        wait.asks = {tail(false)};
        if (nut_open_)
            step(StepKind::close_the_nut);
        const auto before = report_.now.total_tension_n, after = report_.carried_out.total_tension_n;
        const double change_n = before && after ? *after - *before : 0.0;
        const bool big = change_n != 0.0 && std::abs(change_n / *before) > big_pull_change;
        if (!big && !new_strings_)
            return;
        Step& check = step(StepKind::check);
        check.new_strings = new_strings_;
        check.pull_change_n = big ? change_n : 0.0;
    }

    const Setup& setup_;
    const Report& report_;
    const Advice& best_;
    bool new_strings_;
    const WedgeWay* wedge_;
    bool test_;
    double more_; // turns still to be made, with the wedge's surplus
    bool nut_open_ = false;
    std::vector<Step> steps_;
};

} // namespace

Way usual_way(const Report& report, std::optional<bool> wedge) {
    const Advice& advised = report.solution.advised();
    if (wedge.value_or(advised.work.way.wedge) && report.wedge)
        return {true, false};
    return {false, advised.test_pays};
}

std::vector<Step> steps(const Report& report, Way way) {
    if (!report.next) {
        std::vector<Step> none(1);
        none.front().kind = StepKind::cannot;
        return none;
    }
    return Walk(report, way).all();
}

} // namespace counterpull
