// How long the engine takes on the example, and how that grows with what it is given. Runs natively and,
// compiled by em++, under node.
#include "engine/embedded.h"
#include "engine/presets.h"
#include "engine/report.h"
#include "engine/string_search.h"
#include "engine/whatif.h"
#include "tests/benchmark/timing.h"
#include "tests/reference/hidden_guitar.h"

using namespace counterpull;
using benchmark::measure;
using benchmark::sink;

namespace {

// What a player read who follows the answer and goes on: the tail in tune, then a tenth of a turn to and fro,
// what the tuner shows, tuned, the tail again. The guitar's true numbers are drawn from what the tool
// believes.
Setup with_readings(const Setup& setup, const Report& answer, int count) {
    const Advice& best = answer.advice.front();
    reference::HiddenGuitar guitar(setup, 1);
    double turns = *best.turns;
    guitar.turn(best.springs, turns);
    guitar.string_up();
    for (int i = 0; i < count; ++i) {
        Reading reading;
        reading.springs = best.springs;
        reading.kind = i % 2 == 0 ? ReadingKind::in_tune : ReadingKind::after_turn;
        if (i % 2 == 0) {
            guitar.tune_until_in_tune();
            reading.tail_mm = guitar.read_tail_mm();
        } else {
            const double more = i % 4 == 1 ? 0.1 : -0.1;
            guitar.turn(best.springs, more);
            turns += more;
            reading.cents = guitar.read_cents();
        }
        reading.turns = {turns, turns};
        guitar.setup().log.push_back(reading);
    }
    return guitar.setup();
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

// On so many springs of its own kind, in a bay with six places.
Setup with_springs(Setup setup, int count) {
    setup.guitar.bay.hole_mm = setup.guitar.bay.hook_mm = {-25, -15, -5, 5, 15, 25};
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
    const Assembly assembly = assembly_of(setup, fitting_next(setup, setup.now.springs));
    measure("left alone, one balance", 2000,
            [&] { sink = rest_at_pitch(assembly, answer.now.claw, -0.02).angle_rad; });
    measure("turns for an attitude", 2000,
            [&] { sink = turns_for_attitude(assembly, answer.now.claw, 0.0).at; });
    const Belief belief(setup);
    measure("advice, every arrangement", 100, [&] { sink = *advise(belief, answer.now.claw).front().turns; });
    measure("tuning sheet", 200, [&] {
        sink = tuning_sheet(belief, answer.now.claw, answer.advice.front(), {}).aim_cents.front();
    });
    measure("sets that need no turns", 20,
            [&] { sink = static_cast<double>(strings_to_buy(setup, {}).sets.size()); });
    measure("what else changes, all of it", 20, [&] { sink = whatif(setup, answer).saddle_change[0]; });
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
    const Belief belief(setup);
    measure("two tunings, all springs", 20,
            [&] { sink = static_cast<double>(between_tunings(belief, answer.now.claw).size()); });
}

void measure_growth(const Setup& setup, const Report& answer) {
    for (const std::size_t count : {4u, 6u, 8u, 12u}) {
        const Setup strung = with_strings(setup, count);
        measure("report, " + std::to_string(count) + " strings", 50,
                [&] { sink = static_cast<double>(report(strung).report->advice.size()); });
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
    const Belief belief(setup);
    for (const int count : {20, 60, 200}) {
        const std::vector<StringSetup> shelf = gauges(count);
        measure("sets from " + std::to_string(count) + " gauges", 10, [&] {
            sink = static_cast<double>(sets_that_keep_the_balance(belief, answer.now.claw, shelf, {}).size());
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
