#include "engine/advice/bench.h"

#include "engine/document/document.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

Way way_of(const Report& report) {
    const auto& begun = report.setup().bench;
    return begun ? Way{begun->way == BenchWay::wedge, begun->test} : usual_way(report);
}

// What is wrong with an answer, before anything is done with it.
struct Check {
    const Setup& setup;
    const Step& step;
    const Answer& answer;
    Problems problems{};

    bool asks(AskedField field) const {
        return std::any_of(step.asks.begin(), step.asks.end(),
                           [&](const Asked& asked) { return asked.field == field; });
    }
    void refuse(const char* path, const char* why) { problems.add(path, {why}); }

    bool has(const Asked& asked) const {
        if (asked.field == AskedField::tail_mm)
            return answer.tail_mm || answer.tail_sides_mm;
        const std::size_t place = setup.next.strings.size() - static_cast<std::size_t>(asked.string);
        return answer.in_tune || (answer.cents && (*answer.cents)[place]);
    }
    void travel(const char* path, double tail_mm) {
        const auto& limits = setup.guitar.bridge.tail_limits_mm;
        if (tail_mm < limits[0] || tail_mm > limits[1])
            problems.add(path, Phrase("refused.outside_travel")
                                   .with("found", document_mm(tail_mm))
                                   .with("low", document_mm(limits[0]))
                                   .with("high", document_mm(limits[1])));
    }
    void readings() {
        if (answer.cents && answer.cents->size() != setup.next.strings.size()) {
            problems.add("cents", Phrase("refused.count")
                                      .with("found", answer.cents->size())
                                      .with("expected", setup.next.strings.size()));
            return;
        }
        for (const Asked& asked : step.asks)
            if (asked.needed && !has(asked))
                problems.add_new(asked.field == AskedField::tail_mm ? "tail_mm" : "cents",
                                 {"refused.answer_missing"});
        if (answer.cents && !step.reading)
            refuse("cents", "refused.not_asked");
        if (answer.tail_mm)
            asks(AskedField::tail_mm) ? travel("tail_mm", *answer.tail_mm)
                                      : refuse("tail_mm", "refused.not_asked");
        if (answer.tail_sides_mm)
            asks(AskedField::tail_mm)
                ? travel("tail_sides_mm", 0.5 * ((*answer.tail_sides_mm)[0] + (*answer.tail_sides_mm)[1]))
                : refuse("tail_sides_mm", "refused.not_asked");
    }
    void mishap() {
        const Mishap what = *answer.happened;
        const bool string = what == Mishap::string_broke, spring = what == Mishap::spring_off;
        if (string && (!answer.string || *answer.string < 1 ||
                       static_cast<std::size_t>(*answer.string) > setup.next.strings.size()))
            refuse("string", "refused.which_string");
        const Arrangement& springs = at_bench(setup).springs;
        if (spring && std::none_of(springs.begin(), springs.end(), [&](const PlacedSpring& one) {
                return answer.hook && one.hook == *answer.hook;
            }))
            refuse("hook", "refused.which_hook");
    }
    void all() {
        if (step.kind == StepKind::finished || step.kind == StepKind::cannot)
            return refuse("", "refused.nothing_due");
        if (answer.turned && !is_at_the_claw(step.kind))
            refuse("turned", "refused.not_asked");
        answer.happened ? mishap() : readings();
    }
};

std::optional<double> tail_of(const Answer& answer) {
    if (answer.tail_sides_mm)
        return 0.5 * ((*answer.tail_sides_mm)[0] + (*answer.tail_sides_mm)[1]);
    return answer.tail_mm;
}

// The entry that the answer makes in the log.
Reading entry_of(const Setup& setup, const Step& step, const Answer& answer, const AtBench& after) {
    Reading entry;
    entry.kind = *step.reading;
    if (step.kind == StepKind::test) {
        entry.strings = entry.tuning = Which::now;
        entry.string = step.test.string;
        entry.by_cents = step.test.by_cents;
    }
    entry.springs = after.springs;
    entry.turns = after.turned;
    entry.tail_mm = tail_of(answer);
    const std::size_t strings = setup.next.strings.size();
    if (answer.cents)
        entry.cents = answer.cents;
    else if (answer.in_tune && step.reading != ReadingKind::in_tune)
        entry.cents.emplace(strings, 0.0);
    if (entry.cents && step.kind == StepKind::test)
        (*entry.cents)[strings - static_cast<std::size_t>(step.test.string)].reset();
    if (step.kind == StepKind::turn_until) {
        if (!entry.cents)
            entry.cents.emplace(strings);
        (*entry.cents)[strings - static_cast<std::size_t>(step.string)] = step.cents;
        entry.counted = answer.turned.has_value();
    }
    return entry;
}

// How the strings were tuned since the newest entry, pass by pass, where the tuner is read before all are in
// tune: the last pass takes what was read.
void enter_passes(Setup& setup, const Reading& read, const std::optional<TuningSheet>& sheet,
                  const AtBench& at) {
    Reading pass = read;
    pass.tail_mm.reset();
    pass.cents.reset();
    if (at.came_down) {
        pass.from_slack = wanted_strings_are_on(setup);
        setup.log.push_back(pass);
        pass.from_slack = false;
    }
    std::vector<std::vector<double>> aims;
    if (sheet)
        aims =
            sheet->why_gentler ? sheet->gentler_cents : std::vector<std::vector<double>>(1, sheet->aim_cents);
    for (std::size_t i = 0; i < std::min(aims.size(), static_cast<std::size_t>(at.aimed)); ++i) {
        pass.aim_cents = aims[i];
        setup.log.push_back(pass);
    }
    setup.log.back().tail_mm = read.tail_mm;
    setup.log.back().cents = read.cents;
}

// The thread that is left ends where the screws stand.
void thread_ends(BaySetup& bay, const Step& step, const AtBench& at) {
    if (step.turns[0] > 0.0)
        bay.turns_in_left = std::clamp(at.turns(), 0.0, bay.turns_in_left);
    else
        bay.turns_out_left = std::clamp(-at.turns(), 0.0, bay.turns_out_left);
}

void go_wrong(Setup& setup, const Step& step, Mishap what, const AtBench& after) {
    if (what == Mishap::no_thread && is_at_the_claw(step.kind))
        thread_ends(setup.guitar.bay, step, after);
    if (what == Mishap::wedge_will_not_go_in)
        setup.bench->way = BenchWay::plain;
}

void correct_now(Setup& setup, const Answer& answer) {
    const auto tail = tail_of(answer);
    if (!tail)
        return;
    setup.now.tail_mm = *tail;
    setup.now.tail_sides_mm = answer.tail_sides_mm;
}

StepDone done_of(const Step& step, const Answer& answer) {
    StepDone done = as_told(step);
    // By ear a pass of aims goes on until all are in tune: no aims of the sheet were taken.
    if (step.kind == StepKind::tune && step.how == TuneHow::aimed && !step.wedged && answer.in_tune)
        done.how = TuneHow::plain;
    if (answer.turned)
        done.turned = answer.turned;
    if (!answer.happened)
        return done;
    done.happened = answer.happened;
    done.off = done.on = std::nullopt;
    if (!answer.turned)
        done.turned.reset();
    if (answer.happened == Mishap::string_broke)
        done.string = answer.string;
    if (answer.happened == Mishap::spring_off)
        done.hook = answer.hook;
    return done;
}

} // namespace

BenchSetup begin_job(const Setup& setup, Way way) {
    BenchSetup bench;
    bench.way = way.wedge ? BenchWay::wedge : BenchWay::plain;
    bench.test = way.test;
    if (!setup.log.empty()) {
        const AtBench at = as_it_stands(setup);
        bench.before = {at.turned, at.springs, at.next_on};
    }
    return bench;
}

AtBench at_bench(const Report& report) {
    AtBench at = at_bench(report.setup());
    const Advice& best = report.solution.advised();
    if (at.moved_as_told)
        at.springs = best.springs;
    if (at.turned_as_told && at.as_logged && !report.setup().log.empty())
        at.turned = report.setup().log.back().turns;
    else if (at.turned_as_told && best.turns) {
        const bool tight = way_of(report).wedge && report.wedge && !at.wedge_pulled;
        const double stands = tight ? report.wedge->turns + at.wedge_extra : *best.turns;
        at.turned = {stands, stands};
    }
    return at;
}

Bench bench(const Report& report) {
    const Setup& setup = report.setup();
    const AtBench at = at_bench(report);
    Bench bench;
    bench.way = way_of(report);
    std::vector<Step> to_come = steps(report, at, bench.way);
    const int done = setup.bench ? static_cast<int>(setup.bench->done.size()) : 0;
    bench.number = done + 1;
    bench.of = done + std::max(1, static_cast<int>(to_come.size()));
    bench.step = to_come.empty() ? due(report, at, bench.way) : std::move(to_come.front());
    if (bench.step.kind == StepKind::test)
        bench.against = Which::now;
    return bench;
}

Answered answered(const Report& report, const Answer& answer) {
    const Setup& before = report.setup();
    const AtBench at = at_bench(report);
    const Way way = way_of(report);
    const Step step = due(report, at, way);
    Check check{before, step, answer};
    check.all();
    if (!check.problems.none())
        return {std::nullopt, std::move(check.problems)};

    Setup setup = before;
    if (!setup.bench)
        setup.bench = begin_job(setup, way);
    const StepDone done = done_of(step, answer);
    AtBench after = at;
    after.take(done);
    setup.bench->done.push_back(done);
    // All in tune is what a reading in tune means: by itself it says nothing.
    const bool read = answer.tail_mm || answer.tail_sides_mm || answer.cents ||
                      (answer.in_tune && step.reading != ReadingKind::in_tune);
    if (answer.happened)
        go_wrong(setup, step, *answer.happened, after);
    else if (step.look && step.reading == ReadingKind::after_pass)
        enter_passes(setup, entry_of(setup, step, answer, after), report.tuning, at);
    else if (step.kind == StepKind::turn_until || (step.reading && read))
        setup.log.push_back(entry_of(setup, step, answer, after));
    else if (step.kind == StepKind::note)
        correct_now(setup, answer);
    setup.bench->done.back().entered = static_cast<int>(setup.log.size() - before.log.size());
    Answered result;
    check_setup(setup, result.problems);
    if (result.problems.none())
        result.setup = std::move(setup);
    return result;
}

} // namespace counterpull
