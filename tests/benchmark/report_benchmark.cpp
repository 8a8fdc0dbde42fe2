// How long the engine takes: a whole report from text to text, the report alone, one balance.
// Prints the median of several rounds, in microseconds. Runs natively and, compiled by em++, under node.
#include "engine/embedded.h"
#include "engine/report.h"
#include "engine/string_search.h"
#include "engine/whatif.h"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <vector>

using namespace counterpull;

namespace {

volatile double sink; // what is computed is used

template <class Work>
void measure(const char* name, int per_round, Work&& work) {
    std::vector<double> rounds;
    for (int round = 0; round < 15; ++round) {
        const auto start = std::chrono::steady_clock::now();
        for (int i = 0; i < per_round; ++i)
            work();
        const std::chrono::duration<double, std::micro> took = std::chrono::steady_clock::now() - start;
        rounds.push_back(took.count() / per_round);
    }
    std::sort(rounds.begin(), rounds.end());
    std::printf("%-28s %10.3f us (least %.3f, most %.3f)\n", name, rounds[rounds.size() / 2], rounds.front(),
                rounds.back());
}

// Visits that come nearer and nearer, the tail and what the tuner shows read at each.
Setup with_readings(const Setup& setup, const Report& answer, int count) {
    Setup logged = setup;
    const Advice& best = answer.advice.front();
    for (int i = 0; i < count; ++i) {
        Reading reading;
        reading.springs = best.springs;
        const double turns = *best.turns + 0.5 / (1.0 + i / 2);
        reading.turns = {turns, turns};
        reading.kind = i % 2 == 0 ? ReadingKind::in_tune : ReadingKind::after_turn;
        if (i % 2 == 0)
            reading.tail_mm = -1.5 / (1.0 + i / 2);
        else
            reading.cents.emplace(setup.next.strings.size(), -1.0);
        logged.log.push_back(reading);
    }
    return logged;
}

} // namespace

int main() {
    const std::string_view text = embedded_preset("example");
    const Setup setup = *read_setup(text).setup;
    const Report answer = *report(setup).report;
    const Assembly assembly = assembly_of(setup, fitting_next(setup, setup.now.springs));

    measure("document to document", 100, [&] {
        const SetupRead read = read_setup(text);
        sink = static_cast<double>(report_json(*report(*read.setup).report, english()).size());
    });
    measure("report", 200, [&] { sink = report(setup).report->untouched.tail_mm; });
    const Stand now = standing(assembly_of(setup, fitting_now(setup)), answer.now.claw,
                               angle_of_tail_rad(setup, setup.now.tail_mm));
    measure("bends, 3 of each string", 50, [&] {
        for (int string = 0; string < now.assembly.string_count; ++string)
            for (const double cents : bend_cents)
                sink = bend(now, string, cents).force_n;
    });
    measure("the arm", 50, [&] { sink = arm_range(now).strings[0].up_cents; });
    measure("each string lost", 50, [&] {
        for (int string = 0; string < now.assembly.string_count; ++string)
            sink = without_string(now, string).retuned_tail_m;
    });
    measure("a string let down", 50, [&] { sink = with_string_at(now, 0, dropped_cents).retuned_tail_m; });
    measure("on its back, warmer", 50,
            [&] { sink = turned_over(now, 0.4, 0.01).tail_m + warmer(now, 10.0).tail_m; });
    measure("fine tuners and clamping", 50,
            [&] { sink = *fine_tuner_range(now)[0].up_cents + *aims_before_clamping(now)[0]; });
    const Belief belief(setup);
    measure("two tunings, all springs", 20,
            [&] { sink = static_cast<double>(between_tunings(belief, answer.now.claw).size()); });
    const std::vector<TuningMove> moves = between_tunings(belief, answer.now.claw);
    measure("two tunings, every set", 20,
            [&] { sink = set_that_moves_least(belief, answer.now.claw, moves.front()).has_value(); });
    measure("what else changes, all", 20, [&] { sink = whatif(setup, answer).saddle_change[0]; });
    measure("sets that need no turns", 20,
            [&] { sink = static_cast<double>(strings_to_buy(setup, {}).sets.size()); });
    const Setup logged = with_readings(setup, answer, 20);
    measure("calibration, 20 readings", 20,
            [&] { sink = static_cast<double>(calibrate(logged).iterations); });
    measure("report with 20 readings", 20, [&] { sink = report(logged).report->untouched.tail_mm; });
    measure("left alone, one balance", 2000,
            [&] { sink = rest_at_pitch(assembly, answer.now.claw, -0.02).angle_rad; });
    measure("turns for an attitude", 2000,
            [&] { sink = turns_for_attitude(assembly, answer.now.claw, 0.0).at; });
}
