#include "tests/reference/closed_loop.h"

#include "tests/reference/hidden_guitar.h"

#include "engine/document/presets.h"

#include <algorithm>
#include <cmath>

namespace reference {

using namespace counterpull;

namespace {

struct Run {
    int visits = 0;
    int passes = 0;
    double off_mm = 0.0;
};

double off_mm(const HiddenGuitar& guitar) {
    return std::abs(guitar.tail_in_tune_mm() - guitar.setup().next.tail_mm);
}

// An entry for the log after the claw was turned; its readings still empty.
Reading entry(ReadingKind kind, const Arrangement& springs, double turns) {
    Reading reading;
    reading.kind = kind;
    reading.springs = springs;
    reading.turns = {turns, turns};
    return reading;
}

// One visit: turn, tune, read. Returns the passes.
int visit(HiddenGuitar& guitar, Way way, bool first, const Report& report, double& turns) {
    const Setup& setup = guitar.setup();
    const Advice& best = report.solution.advice.front();
    const bool wedged = way == Way::with_wedge && (first || best.moved > 0); // blocked, and tuned anew
    const double surplus = wedged && report.wedge ? report.wedge->surplus_turns : 0.0;
    const double more = *best.turns + surplus - turns;
    const auto& sheet = report.tuning;
    if (way != Way::tail_only && surplus == 0.0 && sheet && sheet->watch) {
        const auto watch = static_cast<std::size_t>(*sheet->watch);
        turns += guitar.turn_until(*sheet->watch, sheet->begin_cents[watch], more);
    } else {
        turns += more;
        guitar.turn(best.springs, more);
    }
    std::vector<Reading>& log = guitar.setup().log;
    if (way == Way::with_wedge) {
        if (wedged) {
            guitar.wedge_and_tune();
            guitar.pull_wedge();
            log.push_back(entry(ReadingKind::wedge_out, best.springs, turns));
        } else {
            log.push_back(entry(ReadingKind::after_turn, best.springs, turns));
        }
        log.back().cents = guitar.read_cents();
        return wedged ? 1 : 0;
    }
    // The strings come down for new ones, and for springs to be changed.
    const bool new_strings = best.moved > 0 || (first && setup.now.strings != setup.next.strings);
    if (new_strings)
        guitar.string_up();
    if (way == Way::tail_only) {
        const int passes = guitar.tune_until_in_tune();
        log.push_back(entry(ReadingKind::in_tune, best.springs, turns));
        log.back().tail_mm = guitar.read_tail_mm();
        return passes;
    }
    int passes = 0;
    if (new_strings) {
        guitar.tune_plainly_once();
        ++passes;
    }
    // What the tuner shows before anything is tuned again; it also begins the one-pass sheet.
    log.push_back(
        entry(new_strings ? ReadingKind::after_pass : ReadingKind::after_turn, best.springs, turns));
    log.back().cents = guitar.read_cents();
    log.back().tail_mm = guitar.read_tail_mm();
    const ReportResult read = counterpull::report(guitar.setup());
    if (read.report && read.report->tuning) {
        // The claw stays: the sheet is for where it is.
        guitar.aim(read.report->tuning->aim_cents);
        ++passes;
        // Where that landed says the most of all.
        log.push_back(entry(ReadingKind::after_pass, best.springs, turns));
        log.back().aim_cents = read.report->tuning->aim_cents;
        log.back().cents = guitar.read_cents();
    }
    passes += guitar.tune_until_in_tune();
    log.push_back(entry(ReadingKind::in_tune, best.springs, turns));
    log.back().tail_mm = guitar.read_tail_mm();
    return passes;
}

Run follow(HiddenGuitar guitar, Way way) {
    Run run;
    double turns = 0.0;
    for (int i = 0; i < most_visits; ++i) {
        ReportResult result = counterpull::report(guitar.setup());
        const auto test = way == Way::test_first && i == 0 && result.report
                              ? best_test_reading(result.report->solution)
                              : std::nullopt;
        if (test) {
            guitar.setup().log.push_back(guitar.read_test(*test));
            result = counterpull::report(guitar.setup());
        }
        if (!result.report || !result.report->solution.advice.front().turns)
            break;
        run.passes += visit(guitar, way, i == 0, *result.report, turns);
        run.off_mm = off_mm(guitar);
        if (run.off_mm <= close_enough_mm) {
            run.visits = i + 1;
            return run;
        }
    }
    run.visits = lost;
    return run;
}

Setup base() {
    Setup setup = example_setup();
    setup.title.clear();
    setup.guitar.basis.clear();
    setup.guitar.springs_owned = 5;
    setup.next.tail_mm = 0.0;
    return setup;
}

std::vector<StringSetup> set(std::string_view name) {
    for (const StringSetPreset& preset : presets().string_sets)
        if (preset.name == name && preset.strings.size() == 6)
            return preset.strings;
    return {};
}

std::vector<Pitch> tuning(std::string_view notes) {
    std::vector<Pitch> all;
    while (!notes.empty()) {
        const std::size_t end = std::min(notes.find(' '), notes.size());
        all.push_back(*parse_pitch(notes.substr(0, end)));
        notes.remove_prefix(std::min(end + 1, notes.size()));
    }
    return all;
}

Change change(std::string name, std::string_view set_now, std::string_view notes_now, double tail_mm,
              std::string_view set_next, std::string_view notes_next) {
    Setup setup = base();
    setup.now.strings = set(set_now);
    setup.now.tuning = tuning(notes_now);
    setup.now.tail_mm = tail_mm;
    setup.next.strings = set(set_next);
    setup.next.tuning = tuning(notes_next);
    return {std::move(name), std::move(setup)};
}

constexpr std::string_view e_standard = "E2 A2 D3 G3 B3 E4", d_standard = "D2 G2 C3 F3 A3 D4",
                           drop_c = "C2 G2 C3 F3 A3 D4";

} // namespace

std::string_view name_of(Way way) {
    switch (way) {
    case Way::tail_only:
        return "tail read in tune";
    case Way::with_tuner:
        return "tail and tuner";
    case Way::test_first:
        return "one test reading first";
    case Way::with_wedge:
        break;
    }
    return "with a wedge";
}

std::vector<Change> changes() {
    return {change("small correction", "9–42", e_standard, -1.5, "9–42", e_standard),
            change("one set heavier", "9–42", e_standard, 0.0, "10–46", e_standard),
            change("one set lighter", "10–46", e_standard, 0.5, "9–42", e_standard),
            change("a tone down", "10–46", e_standard, 0.0, "10–46", d_standard),
            change("heavy drop tuning", "9–42", e_standard, 0.0, "12–56", drop_c)};
}

int Outcome::within(int most) const {
    return static_cast<int>(std::upper_bound(visits.begin(), visits.end(), most) - visits.begin());
}

double Outcome::median_visits() const {
    const std::size_t half = visits.size() / 2;
    return visits.size() % 2 == 1 ? visits[half] : 0.5 * (visits[half - 1] + visits[half]);
}

Outcome follow_advice(const Setup& setup, Way way, int first, int count) {
    Outcome outcome;
    for (int number = first; outcome.guitars < count; ++number) {
        HiddenGuitar guitar(setup, static_cast<std::uint64_t>(number));
        if (!guitar.possible())
            continue;
        if (!guitar.can_be_held()) {
            ++outcome.not_held;
            continue;
        }
        ++outcome.guitars;
        const Run run = follow(std::move(guitar), way);
        outcome.visits.push_back(run.visits);
        outcome.passes.push_back(run.passes);
        outcome.tail_mm.push_back(run.off_mm);
    }
    std::sort(outcome.visits.begin(), outcome.visits.end());
    std::sort(outcome.passes.begin(), outcome.passes.end());
    std::sort(outcome.tail_mm.begin(), outcome.tail_mm.end());
    return outcome;
}

} // namespace reference
