#include "tests/reference/bench_player.h"

#include "engine/base/units.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace reference {

using namespace counterpull;

namespace {

class BenchPlayer {
  public:
    BenchPlayer(HiddenGuitar guitar, const BenchRules& rules, std::uint64_t number)
        : guitar_(std::move(guitar)), rules_(rules), random_(number + 99) {}

    BenchRun play() {
        run_.setup = guitar_.setup();
        if (rules_.way) {
            run_.setup.bench.emplace();
            run_.setup.bench->way = rules_.way->wedge ? BenchWay::wedge : BenchWay::plain;
            run_.setup.bench->test = rules_.way->test;
        }
        while (run_.steps < most_bench_steps && one_step()) {
        }
        run_.off_mm = std::abs(guitar_.tail_mm() - run_.setup.next.tail_mm);
        for (const double cents : guitar_.cents())
            run_.off_cents = std::max(run_.off_cents, std::abs(cents));
        return run_;
    }

  private:
    std::size_t strings() const { return run_.setup.next.strings.size(); }
    std::size_t place(int string) const { return strings() - static_cast<std::size_t>(string); }

    bool one_step() {
        const ReportResult result = report(run_.setup);
        if (!result.report) {
            run_.refused = "refused by the report";
            return false;
        }
        const Bench due = bench(*result.report);
        if (due.step.kind == StepKind::finished || due.step.kind == StepKind::cannot) {
            run_.ended = due.step.kind;
            return false;
        }
        ++run_.steps;
        Answer answer = something_goes_wrong(due.step) ? wrong(due.step) : carried_out(due.step);
        ++run_.taps;
        Answered after = answered(*result.report, answer);
        if (!after.setup) {
            run_.refused = after.problems.told.front().path + ": " + after.problems.told.front().why.key;
            return false;
        }
        // A player who is asked again tells what was read again.
        run_.setup = std::move(*after.setup);
        guitar_.setup().next = run_.setup.next;
        return true;
    }

    bool chance(double share) { return std::uniform_real_distribution<double>()(random_) < share; }
    int any(int count) { return std::uniform_int_distribution<int>(0, count - 1)(random_); }
    bool something_goes_wrong(const Step& step) {
        return rules_.mishaps > 0.0 && step.kind != StepKind::note && step.kind != StepKind::wait &&
               step.kind != StepKind::check && chance(rules_.mishaps);
    }
    Answer wrong(const Step& step) {
        ++run_.mishaps;
        Answer answer;
        const bool claw = step.kind == StepKind::turn || step.kind == StepKind::turn_until;
        const AtBench at = at_bench(run_.setup);
        if (step.kind == StepKind::wedge_in) {
            answer.happened = Mishap::wedge_will_not_go_in;
        } else if (at.wedged) {
            wedged_ = false;
            answer.happened = Mishap::wedge_fell_out;
        } else if (claw) {
            const double share = 0.5 * any(3);
            answer.turned = {share * step.turns[0], share * step.turns[0]};
            guitar_.turn(guitar_springs(at), share * step.turns[0]);
            answer.happened = chance(0.3) ? Mishap::no_thread : Mishap::screw_hard;
        } else if (chance(0.5) && at.springs.size() > 1) {
            answer.happened = Mishap::spring_off;
            answer.hook = at.springs[static_cast<std::size_t>(any(static_cast<int>(at.springs.size())))].hook;
            slack_ = true;
        } else {
            answer.happened = Mishap::string_broke;
            answer.string = 1 + any(static_cast<int>(strings()));
            slack_ = true;
            wedged_ = false;
        }
        return answer;
    }
    static const Arrangement& guitar_springs(const AtBench& at) { return at.springs; }

    void type(Answer& answer, int string, double cents) {
        if (!answer.cents)
            answer.cents.emplace(strings());
        (*answer.cents)[place(string)] = std::round(cents); // as a tuner shows it
        ++run_.typed;
        ++run_.taps;
    }
    void type_tail(Answer& answer) {
        answer.tail_mm = 0.1 * std::round(10.0 * guitar_.read_tail_mm());
        ++run_.typed;
        ++run_.taps;
    }
    // What is asked and needed, after the arm was worked.
    void read(const Step& step, Answer& answer) {
        guitar_.work_the_arm();
        const auto cents = guitar_.read_cents();
        for (const Asked& asked : step.asks)
            if (asked.needed && asked.field == AskedField::tail_mm)
                type_tail(answer);
            else if (asked.needed)
                type(answer, asked.string, cents[place(asked.string)].value_or(-1999.0));
    }

    Answer carried_out(const Step& step) {
        Answer answer;
        switch (step.kind) {
        case StepKind::test: {
            const Reading reading = guitar_.read_test(step.test);
            for (const Asked& asked : step.asks)
                type(answer, asked.string, (*reading.cents)[place(asked.string)].value_or(0.0));
            run_.tested = run_.typed;
            return answer;
        }
        case StepKind::slacken:
            slack_ = true;
            return answer;
        case StepKind::springs: {
            StepDone done;
            done.kind = StepKind::springs;
            done.off = step.off;
            done.on = step.on;
            AtBench at = at_bench(run_.setup);
            at.take(done);
            guitar_.turn_nothing(at.springs);
            return answer;
        }
        case StepKind::turn:
            turned_ = true;
            guitar_.turn(at_bench(run_.setup).springs, step.turns[0]);
            return answer;
        case StepKind::turn_until: {
            guitar_.mean_next();
            turned_ = true;
            const double turned =
                guitar_.turn_until(static_cast<int>(place(step.string)), step.cents, step.turns[0]);
            if (rules_.counts)
                answer.turned = {turned, turned};
            return answer;
        }
        case StepKind::strings:
            guitar_.string_up();
            slack_ = false;
            return answer;
        case StepKind::wedge_in:
            wedged_ = true;
            return answer;
        case StepKind::wedge_out:
            wedged_ = false;
            guitar_.pull_wedge();
            read(step, answer);
            return answer;
        case StepKind::tune:
            return tune(step);
        case StepKind::read:
            read(step, answer);
            if (!step.look && std::exchange(turned_, false) && ++run_.visits == 1)
                run_.first_mm = guitar_.tail_mm() - run_.setup.next.tail_mm;
            answer.in_tune = !step.look;
            return answer;
        case StepKind::wait:
            run_.tunings += guitar_.tune_until_in_tune();
            return answer;
        default:
            return answer;
        }
    }

    Answer tune(const Step& step) {
        Answer answer;
        if (step.how == TuneHow::rough) {
            run_.rough += static_cast<int>(strings());
            if (wedged_)
                return answer;
            if (slack_)
                guitar_.string_up();
            slack_ = false;
            guitar_.tune_plainly_once();
        } else if (wedged_) {
            guitar_.wedge_and_tune();
            run_.tunings += static_cast<int>(strings());
            if (guitar_.holds_wedge())
                return answer;
            answer.happened = Mishap::wedge_fell_out;
            ++run_.mishaps;
            wedged_ = false;
        } else if (step.how == TuneHow::aimed) {
            std::vector<double> cents;
            for (const Aim& aim : step.aims)
                cents.push_back(std::round(aim.cents));
            guitar_.aim(cents);
            run_.tunings += static_cast<int>(strings());
        } else {
            run_.tunings += guitar_.tune_until_in_tune();
        }
        return answer;
    }

    HiddenGuitar guitar_;
    BenchRules rules_;
    std::mt19937_64 random_;
    BenchRun run_;
    bool wedged_ = false, slack_ = false;
    bool turned_ = false; // since the last reading in tune
};

} // namespace

std::vector<BenchRun> walk_the_bench(const Setup& setup, const BenchRules& rules, int first, int count) {
    std::vector<BenchRun> all;
    for (int number = first; static_cast<int>(all.size()) < count; ++number) {
        const auto seed = static_cast<std::uint64_t>(number);
        if (HiddenGuitar guitar(setup, seed); guitar.possible())
            all.push_back(BenchPlayer(std::move(guitar), rules, seed).play());
    }
    return all;
}

} // namespace reference
