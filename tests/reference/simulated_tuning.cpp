#include "tests/reference/simulated_tuning.h"

#include <algorithm>
#include <cmath>

namespace reference {

using namespace counterpull;

Simulated::Simulated(const Setup& setup, const Report& report, double spring_factor) {
    const Advice& advice = report.solution.advice[0];
    Setup real = setup;
    real.guitar.spring.rate_n_mm *= spring_factor;
    Problems problems;
    const Assembly now = assembly_of(real, fitting_now(real));
    claw = claw_now(real, now, problems).value().turned(*advice.turns);
    assembly = assembly_of(real, fitting_next(real, advice.springs));
    if (report.tuning->start == SheetStart::brought_up_roughly) {
        strung = after_pass(assembly, claw, slack(assembly));
        return;
    }
    strung.angle_rad = angle_of_tail_rad(real, real.now.tail_mm);
    strung.lengths_m = lengths_at_pitch(now, Attitude(strung.angle_rad));
    strung = settled(assembly, claw, strung);
}

void Simulated::aim(const std::vector<double>& cents) {
    for (int i = 0; i < assembly.string_count; ++i) {
        const auto index = static_cast<std::size_t>(i);
        const double aim_hz = assembly.strings[index].frequency_hz * std::exp2(cents[index] / 1200.0);
        const Tuners tuners = one_at_pitch(strung.lengths_m, i, aim_hz);
        strung.angle_rad = rest(assembly, tuners, claw, strung.angle_rad).angle_rad;
        strung.lengths_m = lengths_as_tuned(assembly, tuners, Attitude(strung.angle_rad));
    }
}

void Simulated::follow_second_sheet(Setup setup, const Report& first) {
    Reading reading;
    reading.kind = ReadingKind::after_pass;
    reading.aim_cents = first.tuning->aim_cents;
    reading.springs = first.solution.advice[0].springs;
    reading.turns = {claw.bass_turns, claw.treble_turns};
    const std::vector<double> shown = cents();
    reading.cents = std::vector<std::optional<double>>(shown.begin(), shown.end());
    setup.log.push_back(reading);
    Solution solution = solve(std::move(setup)).solution.value();
    Advice stay = first.solution.advised();
    stay.turns = claw.bass_turns;
    const Assembly next = solution.belief().assembly(fitting_next(solution.setup(), stay.springs));
    stay.angle_rad = rest_at_pitch(next, solution.claw.turned(*stay.turns), stay.angle_rad).angle_rad;
    solution.advice = {stay};
    aim(tuning_sheet(solution).aim_cents);
}

std::vector<double> Simulated::cents() const {
    return cents_shown(assembly, strung.lengths_m, Attitude(strung.angle_rad));
}

double Simulated::worst() const {
    double most = 0.0;
    for (const double c : cents())
        most = std::max(most, std::abs(c));
    return most;
}

std::vector<Landing> landings(const Setup& level) {
    std::vector<Landing> all;
    for (const double tail_mm : {-3.0, -2.0, -1.5, -1.0, -0.75, 0.75, 1.0, 1.5, 2.0, 3.0})
        for (const double factor : {0.8, 1.0, 1.2}) {
            Setup setup = level;
            setup.now.tail_mm = tail_mm;
            const Report report = *counterpull::report(setup).report;
            Simulated plain(setup, report, factor);
            plain.aim(std::vector<double>(report.tuning->aim_cents.size(), 0.0));
            Simulated guitar(setup, report, factor);
            guitar.aim(report.tuning->aim_cents);
            const double sheet = guitar.worst();
            guitar.follow_second_sheet(setup, report);
            all.push_back({tail_mm, factor, plain.worst(), sheet, guitar.worst()});
        }
    return all;
}

} // namespace reference
