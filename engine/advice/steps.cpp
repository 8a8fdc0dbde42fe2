#include "engine/advice/steps.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

// However a job goes, it has no more steps than this.
constexpr int most_steps_to_come = 60;

int players_number(std::size_t strings, std::size_t place) {
    return static_cast<int>(strings - place);
}

Arrangement without(const Arrangement& these, const Arrangement& in) {
    Arrangement left;
    for (const PlacedSpring& spring : these)
        if (std::find(in.begin(), in.end(), spring) == in.end())
            left.push_back(spring);
    return left;
}

Step step_of(StepKind kind) {
    Step step;
    step.kind = kind;
    return step;
}

Asked tail(bool needed, std::optional<double> expected = {}) {
    return {AskedField::tail_mm, needed, 0, expected};
}

// The step that is due: the first thing that is not yet as it has to be.
class Due : Outstanding {
  public:
    Due(const Report& report, const AtBench& at, Way way) : Outstanding(report, at, way), test_(way.test) {}

    Step step() const {
        if (is_level())
            return settle();
        if (!report_.next)
            return step_of(StepKind::cannot);
        if (!at_.noted)
            return note();
        if (const auto test = test_due())
            return *test;
        if (nut_has_clamps(setup_.guitar) && !at_.nut_open && (nut_is_forced() || !setup_.guitar.nut_locked))
            return open_nut();
        if (at_.wedged && !springs_differ())
            return on_the_wedge();
        const bool only_the_broken_one = at_.broken > 0 && !springs_differ() && !turns_due();
        if ((at_.slacken_first && !only_the_broken_one) || at_.wedged || (!at_.slack && comes_down()))
            return step_of(StepKind::slacken);
        if (springs_differ())
            return springs();
        if (turns_due() && !reads_again())
            return stays_up() ? turn_until() : turn();
        if (new_strings() || at_.broken > 0)
            return strings_on();
        if (wedge_)
            return wedge_in();
        return tuning();
    }

  private:
    std::size_t strings() const { return setup_.next.strings.size(); }

    Step note() const {
        Step s = step_of(StepKind::note);
        // Else "now" stood before the first turn: a reading on the way would not correct it.
        if (is_last(ReadingKind::in_tune))
            s.reading = ReadingKind::in_tune;
        // Of readings that contradict each other one is taken again before a screw is turned.
        if (s.reading || setup_.log.empty())
            s.asks = {tail(s.reading && report_.solution.calibration.contradicted())};
        return s;
    }

    std::optional<Step> test_due() const {
        if (!test_ || at_.tested || at_.visits > 0 || at_.slack || last())
            return std::nullopt;
        const auto best = best_test_reading(report_.solution);
        if (!best)
            return std::nullopt;
        Step s = step_of(StepKind::test);
        s.test = *best;
        s.reading = best->kind;
        for (std::size_t i = 0; i < strings(); ++i)
            if (const int string = players_number(strings(), i); string != best->string)
                s.asks.push_back({AskedField::cents, true, string, {}});
        return s;
    }

    Step open_nut() const {
        Step s = step_of(StepKind::open_the_nut);
        s.forced = nut_is_forced();
        return s;
    }

    Step springs() const {
        Step s = step_of(StepKind::springs);
        s.off = without(at_.springs, best_.springs);
        s.on = without(best_.springs, at_.springs);
        return s;
    }

    Step turn() const {
        Step s = step_of(StepKind::turn);
        s.turns = {more(), more()};
        s.stuck = at_.stuck;
        if (wedge_ && !at_.wedge_pulled)
            s.surplus_turns = wedge_->surplus_turns + at_.wedge_extra;
        return s;
    }

    Step turn_until() const {
        Step s = step_of(StepKind::turn_until);
        s.turns = {more(), more()};
        s.reading = ReadingKind::after_turn;
        if (!is_watched()) {
            s.string = players_number(strings(), static_cast<std::size_t>(report_.wedge->read_string));
            s.turns_per_cent = report_.wedge->turns_to_ease_per_cent;
            return s;
        }
        s.string = players_number(strings(), static_cast<std::size_t>(*report_.tuning->watch));
        s.cents = report_.tuning->watch_cents;
        if (at_.freed && report_.wedge)
            s.turns_per_cent = report_.wedge->turns_to_ease_per_cent;
        else if (report_.before_retuning_tail_mm)
            s.asks = {tail(false, report_.before_retuning_tail_mm)};
        return s;
    }

    Step strings_on() const {
        Step s = step_of(StepKind::strings);
        s.replaced = new_strings() ? 0 : at_.broken;
        return s;
    }

    Step tune(const std::vector<double>& cents, TuneHow how) const {
        Step s = step_of(StepKind::tune);
        s.how = how;
        s.wedged = at_.wedged;
        for (std::size_t i = 0; i < strings(); ++i) {
            const double aim = cents.empty() ? 0.0 : cents[i];
            s.aims.push_back({players_number(strings(), i), aim,
                              *report_.carried_out.strings[i].pitch_hz * std::exp2(aim / 1200.0)});
        }
        return s;
    }

    Step wedge_in() const {
        Step s = step_of(StepKind::wedge_in);
        s.tail_mm = setup_.next.tail_mm;
        return s;
    }

    Step on_the_wedge() const {
        if (new_strings() || at_.broken > 0)
            return strings_on();
        if (at_.slack)
            return tune({}, TuneHow::rough);
        if (at_.aimed == 0 || !wedge_)
            return tune({}, TuneHow::aimed);
        const auto place = static_cast<std::size_t>(wedge_->read_string);
        const double more_of_it = 1.0 + at_.wedge_extra / wedge_->surplus_turns;
        Step out = step_of(StepKind::wedge_out);
        out.reading = ReadingKind::wedge_out;
        out.asks = {
            {AskedField::cents, true, players_number(strings(), place), more_of_it * wedge_->cents[place]},
            tail(true, setup_.next.tail_mm + more_of_it * (wedge_->tail_mm - setup_.next.tail_mm))};
        return out;
    }

    Step tuning() const {
        if (at_.read) // but out of tune, or to be read again
            return all_in_tune() ? read() : tune({}, TuneHow::plain);
        if (at_.slack)
            return tune({}, TuneHow::rough);
        const auto taken = static_cast<std::size_t>(at_.aimed);
        if (!at_.plain && taken < aims_to_take()) {
            const bool gentler = report_.tuning->why_gentler.has_value();
            Step s = tune(gentler ? report_.tuning->gentler_cents[taken] : report_.tuning->aim_cents,
                          TuneHow::aimed);
            s.pass = gentler ? at_.aimed + 1 : 0;
            return s;
        }
        if (looks())
            return look();
        return at_.plain ? read() : tune({}, TuneHow::plain);
    }

    Step look() const {
        Step s = step_of(StepKind::read);
        s.look = true;
        s.reading = at_.rough ? ReadingKind::after_pass : ReadingKind::after_turn; // rough: once at least
        s.tail_mm = setup_.next.tail_mm;
        Asked lowest{AskedField::cents, true, players_number(strings(), 0), {}};
        if (at_.aimed > 0)
            lowest.expected = 0.0;
        s.asks = {lowest, tail(true)};
        return s;
    }

    Step read() const {
        Step s = step_of(StepKind::read);
        s.tail_mm = report_.carried_out.tail_mm;
        s.wedged = at_.wedge_pulled;
        s.reading = ReadingKind::in_tune;
        s.asks = {tail(true, s.tail_mm)};
        return s;
    }

    bool had_new_strings() const { return setup_.now.strings != setup_.next.strings || !setup_.now.in_tune; }
    Step settle() const {
        if (!at_.waited) {
            Step wait = step_of(StepKind::wait);
            wait.new_strings = had_new_strings();
            wait.reading = ReadingKind::in_tune;
            wait.asks = {tail(false)};
            return wait;
        }
        if (!at_.tuned_again)
            return tune({}, TuneHow::plain);
        if (at_.nut_open && !at_.nut_closed)
            return step_of(StepKind::close_the_nut);
        const auto before = report_.now.total_tension_n, after = report_.carried_out.total_tension_n;
        const double change_n = before && after ? *after - *before : 0.0;
        const bool big = change_n != 0.0 && std::abs(change_n / *before) > big_pull_change;
        if (!at_.checked && (big || had_new_strings())) {
            Step check = step_of(StepKind::check);
            check.new_strings = had_new_strings();
            check.pull_change_n = big ? change_n : 0.0;
            return check;
        }
        Step finished = step_of(StepKind::finished);
        finished.tail_mm = last() && last()->tail_mm ? *last()->tail_mm : report_.carried_out.tail_mm;
        return finished;
    }

    bool test_;
};

} // namespace

Way usual_way(const Report& report, std::optional<bool> wedge) {
    const Advice& advised = report.solution.advised();
    if (wedge.value_or(advised.work.way.wedge) && report.wedge)
        return {true, false};
    return {false, advised.test_pays};
}

Step due(const Report& report, const AtBench& at, Way way) {
    return Due(report, at, way).step();
}

StepDone as_told(const Step& step) {
    StepDone done;
    done.kind = step.kind;
    if (is_at_the_claw(step.kind))
        done.turned = step.turns;
    if (step.kind == StepKind::springs) {
        done.off = step.off;
        done.on = step.on;
    }
    if (step.kind == StepKind::tune)
        done.how = step.how;
    return done;
}

std::vector<Step> steps(const Report& report, AtBench at, Way way) {
    std::vector<Step> all;
    for (int i = 0; i < most_steps_to_come; ++i) {
        Step step = due(report, at, way);
        if (step.kind == StepKind::finished)
            break;
        all.push_back(std::move(step));
        if (all.back().kind == StepKind::cannot)
            break;
        at.take(as_told(all.back()));
        at.imagined = true;
    }
    return all;
}

std::vector<Step> steps(const Report& report, Way way) {
    return steps(report, as_it_stands(report.setup()), way);
}

} // namespace counterpull
