#include "tests/reference/ear_player.h"

#include <algorithm>
#include <cmath>

namespace reference {

using namespace counterpull;

namespace {

double worst(const std::vector<double>& cents) {
    double most = 0.0;
    for (const double c : cents)
        most = std::max(most, std::abs(c));
    return most;
}

class Hand {
  public:
    explicit Hand(std::uint64_t number) : random_(number + 4242) {}
    double off() { return std::uniform_real_distribution<double>(-hand_cents, hand_cents)(random_); }

  private:
    std::mt19937_64 random_;
};

void finish(const HiddenGuitar& guitar, EarRun& run) {
    run.worst_cents = worst(guitar.cents());
    run.tail_mm = guitar.tail_mm();
}

void follow(HiddenGuitar& guitar, const TuningSheet& sheet, Hand& hand, EarRun& run) {
    const auto passes =
        sheet.why_gentler ? sheet.gentler_cents : std::vector<std::vector<double>>{sheet.aim_cents};
    for (const std::vector<double>& pass : passes)
        for (std::size_t i = 0; i < pass.size(); ++i) {
            guitar.tune_one(static_cast<int>(i), pass[i] + hand.off());
            ++run.tunings;
        }
}

// What a sheet says after the first was followed.
std::optional<TuningSheet> second_sheet(HiddenGuitar& guitar, const Report& first) {
    const Solution& solution = first.solution;
    Setup setup = solution.setup();
    Reading reading;
    reading.kind = ReadingKind::after_pass;
    reading.aim_cents =
        first.tuning->why_gentler ? first.tuning->gentler_cents.back() : first.tuning->aim_cents;
    reading.springs = solution.advised().springs;
    reading.turns = {*solution.advised().turns, *solution.advised().turns};
    reading.cents = guitar.read_cents();
    setup.log.push_back(reading);
    Solved solved = solve(std::move(setup));
    if (!solved.solution)
        return std::nullopt;
    Advice stay = solution.advised(); // the claw stays
    const Assembly next =
        solved.solution->belief().assembly(fitting_next(solved.solution->setup(), stay.springs));
    stay.angle_rad = rest_at_pitch(next, solved.solution->claw.turned(*stay.turns), stay.angle_rad).angle_rad;
    stay.moved = 0;
    solved.solution->advice = {stay};
    return tuning_sheet(*solved.solution);
}

Step first_tuning(const Report& report, bool rough) {
    for (const Step& step : steps(report, Way{false, false}))
        if (step.kind == StepKind::tune && (step.how == TuneHow::rough) == rough)
            return step;
    return {};
}

void bring_up(HiddenGuitar& guitar, const Report& report, std::uint64_t number) {
    Hand hand(number + 1);
    const Step step = first_tuning(report, true);
    const std::size_t strings = report.setup().next.strings.size();
    std::vector<HeardInPass> pass = {{0, Heard(strings)}};
    for (auto aims = aims_by_ear(report, step, pass); !aims.empty(); aims = aims_by_ear(report, step, pass)) {
        const Aim& aim = aims.front();
        guitar.tune_one(static_cast<int>(strings) - aim.string,
                        aim.cents + rough_hand_cents / hand_cents * hand.off());
        pass.push_back({aim.string, Heard(strings)});
    }
}

} // namespace

Ears ears(const Earshot& shot, std::uint64_t number) {
    return [shot, random = std::mt19937_64(number * 31 + 7)](const HiddenGuitar& guitar,
                                                             const std::vector<double>&) mutable {
        std::normal_distribution<double> off(0.0, shot.sigma_cents);
        std::uniform_real_distribution<double> chance;
        Heard heard;
        for (const double cents : guitar.cents()) {
            double wrong = off(random);
            if (chance(random) < shot.wrong_share)
                wrong += chance(random) < 0.5 ? -shot.wrong_cents : shot.wrong_cents;
            const bool missed = chance(random) < shot.missed_share;
            heard.push_back(missed ? std::nullopt : std::optional(cents + wrong));
        }
        return heard;
    };
}

void made_ready(HiddenGuitar& guitar, const Report& report, Rough rough, std::uint64_t number) {
    const Advice& advised = report.solution.advised();
    guitar.turn(advised.springs, report.solution.more_turns());
    if (report.tuning && report.tuning->start == SheetStart::brought_up_roughly) {
        guitar.string_up();
        if (rough == Rough::by_ear)
            bring_up(guitar, report, number);
        else
            guitar.tune_plainly_once();
    }
    guitar.mean_next();
    guitar.work_the_arm();
}

Step tune_step(const Report& report) {
    return first_tuning(report, false);
}

EarRun tune_by_ear(HiddenGuitar& guitar, const Report& report, const Step& step, const Ears& ears,
                   std::uint64_t number) {
    Hand hand(number);
    EarRun run;
    std::vector<HeardInPass> pass = {{0, ears(guitar, expected_by_ear(report, step, {}))}};
    while (run.tunings < most_ear_tunings) {
        const std::vector<Aim> aims = aims_by_ear(report, step, pass);
        run.done = aims.empty();
        if (run.done)
            break;
        const Aim& aim = aims.front();
        const std::vector<double> expected = expected_by_ear(report, step, pass);
        guitar.tune_one(static_cast<int>(expected.size()) - aim.string, aim.cents + hand.off());
        ++run.tunings;
        run.most_aim_cents = std::max(run.most_aim_cents, std::abs(aim.cents));
        run.order.push_back(aim.string);
        pass.push_back({aim.string, ears(guitar, expected)});
    }
    finish(guitar, run);
    return run;
}

EarRun tune_by_sheet(HiddenGuitar& guitar, const Report& report, int sheets, std::uint64_t number) {
    Hand hand(number);
    EarRun run;
    follow(guitar, *report.tuning, hand, run);
    if (sheets > 1)
        if (const auto second = second_sheet(guitar, report))
            follow(guitar, *second, hand, run);
    finish(guitar, run); // where it lands
    run.done = run.worst_cents <= in_tune_cents;
    run.tunings += guitar.tune_until_in_tune();
    return run;
}

} // namespace reference
