#include "engine/document/job.h"

#include <algorithm>

namespace counterpull {

namespace {

bool touches(const StepDone& done) {
    return done.happened || (done.kind != StepKind::note && done.kind != StepKind::tune &&
                             done.kind != StepKind::read && done.kind != StepKind::wait);
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

// Readings in tune that the steps before the last must have entered since the guitar was touched; more than
// any where it was not.
std::size_t readings_due_before(const std::vector<StepDone>& done) {
    std::size_t count = 0;
    std::size_t waiting = 0; // readings whose tuning is still to be found, further back
    for (std::size_t i = done.size() - 1; i-- > 0;) {
        if (touches(done[i]))
            return count;
        waiting += done[i].kind == StepKind::read;
        if (done[i].kind != StepKind::tune)
            continue;
        count += done[i].how == TuneHow::plain ? waiting : 0;
        waiting = 0;
    }
    return done.size() + 1;
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
        return newest_of(log, ReadingKind::in_tune) > readings_due_before(done);
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
