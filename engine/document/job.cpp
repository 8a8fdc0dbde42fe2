#include "engine/document/job.h"

#include <algorithm>
#include <optional>
#include <utility>

namespace counterpull {

namespace {

// Where the screws are, or what kind of reading comes next, is another from such a step on.
bool ends_a_run(const StepDone& done) {
    return done.turned || done.kind == StepKind::test || done.kind == StepKind::wedge_out;
}

// Readings at the end of the log, of that kind and with the screws where they stand.
std::size_t newest_of(const std::vector<Reading>& log, ReadingKind kind) {
    std::size_t count = 0;
    while (count < log.size()) {
        const Reading& entry = log[log.size() - 1 - count];
        if (entry.kind != kind || entry.turns != log.back().turns)
            break;
        ++count;
        if (entry.from_slack)
            break;
    }
    return count;
}

// How many readings in tune the steps before the last have entered one after the other; nothing where that
// cannot be told, since there were readings before the job or one that might be left out.
std::optional<std::size_t> readings_in_a_row(const BenchSetup& bench) {
    std::size_t count = 0, waiting = 0; // those whose tuning is still to be found, further back
    for (std::size_t i = bench.done.size() - 1; i-- > 0;) {
        const StepDone& done = bench.done[i];
        const bool tuned = !done.happened && done.kind == StepKind::tune;
        if (!done.happened && done.kind == StepKind::wait)
            return std::nullopt;
        if (ends_a_run(done) || (waiting > 0 && done.kind != StepKind::read && done.how != TuneHow::plain))
            return count; // what waits was read before tuning finely: of another kind
        waiting += !done.happened && done.kind == StepKind::read;
        if (tuned)
            count += std::exchange(waiting, 0);
    }
    return bench.before ? std::nullopt : std::optional(count);
}

std::size_t entered_by_last_step(const Setup& setup) {
    const std::vector<StepDone>& done = setup.bench->done;
    const std::vector<Reading>& log = setup.log;
    if (log.empty() || done.back().happened)
        return 0;
    const ReadingKind newest = log.back().kind;
    switch (done.back().kind) {
    case StepKind::test:
        return newest == ReadingKind::bend || newest == ReadingKind::drop;
    case StepKind::turn_until:
        return newest == ReadingKind::after_turn;
    case StepKind::wedge_out:
        return newest == ReadingKind::wedge_out;
    case StepKind::read:
        return newest == ReadingKind::after_pass ? newest_of(log, newest) : 1;
    case StepKind::wait:
        return newest_of(log, ReadingKind::in_tune) > readings_in_a_row(*setup.bench).value_or(log.size());
    default:
        return 0;
    }
}

} // namespace

bool take_back_last_step(Setup& setup) {
    if (!setup.bench || setup.bench->done.empty())
        return false;
    BenchSetup& bench = *setup.bench;
    setup.log.resize(setup.log.size() - entered_by_last_step(setup));
    if (bench.done.back().happened == Mishap::wedge_will_not_go_in)
        bench.way = BenchWay::wedge;
    bench.done.pop_back();
    const auto by_now = static_cast<int>(bench.done.size());
    bench.strings_since = std::min(bench.strings_since, by_now);
    bench.tuning_since = std::min(bench.tuning_since, by_now);
    return true;
}

} // namespace counterpull
