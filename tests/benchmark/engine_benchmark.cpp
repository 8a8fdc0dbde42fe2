// How long the engine takes on the example, and how that grows with what it is given. Runs natively and,
// compiled by em++, under node.
#include "engine/advice/report.h"
#include "engine/advice/string_search.h"
#include "engine/base/embedded.h"
#include "engine/base/units.h"
#include "engine/belief/spread_history.h"
#include "engine/document/presets.h"
#include "engine/say/report_json.h"
#include "engine/whatif/whatif.h"
#include "tests/benchmark/timing.h"

#include <cmath>

using namespace counterpull;
using benchmark::measure;
using benchmark::sink;

namespace {

// What a player reads on a guitar that is a third of a turn off what is believed: the tail in tune, then a
// tenth of a turn to or fro, what the tuner shows, and so on. To a tenth, as people write it down.
Setup with_readings(const Setup& setup, const Report& answer, int count) {
    constexpr double off_turns = 0.3;
    const auto tenth = [](double value) { return std::round(10.0 * value) / 10.0; };
    Setup logged = setup;
    const Advice& best = answer.solution.advice.front();
    const Assembly assembly = assembly_of(setup, fitting_next(setup, best.springs));
    Reading reading;
    reading.springs = best.springs;
    double turns = *best.turns, angle = best.angle_rad;
    for (int i = 0; i < count; ++i) {
        Reading here = reading;
        if (i % 2 == 0) {
            angle = rest_at_pitch(assembly, answer.now.claw.turned(turns + off_turns), angle).angle_rad;
            here.tail_mm = tenth(mm_from_metres(tail_at_angle_m(assembly.bridge, angle)));
        } else {
            turns += i % 4 == 1 ? 0.1 : -0.1;
            const StringLengths lengths = lengths_at_pitch(assembly, Attitude(angle));
            const Rest at = rest_free(assembly, lengths, answer.now.claw.turned(turns + off_turns), angle);
            here.kind = ReadingKind::after_turn;
            here.cents.emplace();
            for (const double cents : cents_shown(assembly, lengths, Attitude(at.angle_rad)))
                here.cents->push_back(tenth(cents));
        }
        here.turns = {turns, turns};
        logged.log.push_back(here);
    }
    return logged;
}

// The same guitar with so many strings: some of its own left out, or its lowest again and again.
Setup with_strings(Setup setup, std::size_t count) {
    auto resize = [count](auto& list) {
        while (list.size() < count)
            list.insert(list.begin(), list.front());
        list.erase(list.begin(), list.end() - static_cast<std::ptrdiff_t>(count));
    };
    for (PerString* lengths :
         {&setup.guitar.scale_mm, &setup.guitar.headstock_mm, &setup.guitar.bridge.saddle_height_mm,
          &setup.guitar.bridge.saddle_setback_mm, &setup.guitar.bridge.anchor_mm, &setup.now.offset_cents,
          &setup.next.offset_cents})
        if (!lengths->common())
            resize(lengths->values);
    resize(setup.now.strings);
    resize(setup.now.tuning);
    resize(setup.next.strings);
    resize(setup.next.tuning);
    return setup;
}

// On so many springs that hold together what three of its own do, in a bay with six places.
Setup with_springs(Setup setup, int count) {
    setup.guitar.bay.hole_mm = setup.guitar.bay.hook_mm = {-25, -15, -5, 5, 15, 25};
    setup.guitar.springs_owned = 6;
    setup.guitar.spring.rate_n_mm *= 3.0 / count;
    setup.guitar.spring.initial_tension_n *= 3.0 / count;
    setup.now.springs.clear();
    for (int i = 0; i < count; ++i)
        setup.now.springs.push_back({i, i, {}});
    return setup;
}

// Plain and wound gauges in equal steps, as fine as makes so many.
std::vector<StringSetup> gauges(int count) {
    std::vector<StringSetup> all;
    for (int i = 0; i < count; ++i) {
        StringSetup string;
        string.wound = i >= count / 3;
        string.gauge_in = string.wound ? 0.020 + 0.042 * (i - count / 3) / (count - count / 3)
                                       : 0.008 + 0.012 * i / (count / 3);
        all.push_back(string);
    }
    return all;
}

void measure_example(const Setup& setup, const Report& answer) {
    const std::string_view text = embedded_preset("example");
    measure("document to document", 100, [&] {
        const SetupRead read = read_setup(text);
        sink = static_cast<double>(report_json(*report(*read.setup).report, english()).size());
    });
    measure("report", 200, [&] { sink = report(setup).report->untouched.tail_mm; });
    measure("best test reading", 200, [&] { sink = best_test_reading(answer.solution)->sigma_after; });
    const Assembly assembly = assembly_of(setup, fitting_next(setup, setup.now.springs));
    measure("left alone, one balance", 2000,
            [&] { sink = rest_at_pitch(assembly, answer.now.claw, -0.02).angle_rad; });
    measure("turns for an attitude", 2000,
            [&] { sink = turns_for_attitude(assembly, answer.now.claw, 0.0).at; });
    const Belief belief(setup);
    const TestReadings tests(belief);
    measure("advice, every arrangement", 100,
            [&] { sink = *advise(belief, answer.now.claw, tests, false).front().turns; });
    measure("tuning sheet", 200, [&] { sink = tuning_sheet(answer.solution).aim_cents.front(); });
    measure("sets that need no turns", 20,
            [&] { sink = static_cast<double>(strings_to_buy(answer.solution, {}).size()); });
    measure("what else changes, all of it", 20, [&] { sink = whatif(answer.solution).saddle_change[0]; });
}

void measure_what_ifs(const Setup& setup, const Report& answer) {
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
    measure("fine tuners and clamping", 50,
            [&] { sink = *fine_tuner_range(now)[0].up_cents + *aims_before_clamping(now)[0]; });
    measure("two tunings, all springs", 20,
            [&] { sink = static_cast<double>(between_tunings(answer.solution).size()); });
}

void measure_growth(const Setup& setup, const Report& answer) {
    for (const std::size_t count : {4u, 6u, 8u, 12u}) {
        const Setup strung = with_strings(setup, count);
        measure("report, " + std::to_string(count) + " strings", 50,
                [&] { sink = static_cast<double>(report(strung).report->solution.advice.size()); });
    }
    for (const int count : {1, 2, 3, 4, 5, 6}) {
        const Setup sprung = with_springs(setup, count);
        measure("report, on " + std::to_string(count) + " springs", 20,
                [&] { sink = static_cast<double>(report(sprung).problems.count); });
    }
    for (const int count : {1, 10, 20, 100}) {
        const Setup logged = with_readings(setup, answer, count);
        measure("calibration, " + std::to_string(count) + " readings", count > 20 ? 3 : 20,
                [&] { sink = static_cast<double>(calibrate(logged).iterations); });
    }
    for (const int count : {20, 100}) {
        const Setup logged = with_readings(setup, answer, count);
        const Solution solution = *solve(logged).solution;
        measure("history of spreads, " + std::to_string(count) + " readings", count > 20 ? 3 : 20,
                [&] { sink = spread_history(solution.calibration, solution.advised().turns_per).back(); });
    }
    for (const int count : {20, 60, 200}) {
        const std::vector<StringSetup> shelf = gauges(count);
        measure("sets from " + std::to_string(count) + " gauges", 10, [&] {
            sink = static_cast<double>(sets_that_keep_the_balance(answer.solution, shelf, {}).size());
        });
    }
}

} // namespace

int main() {
    const Setup setup = example_setup();
    const Report answer = *report(setup).report;
    measure_example(setup, answer);
    measure_what_ifs(setup, answer);
    measure_growth(setup, answer);
}
