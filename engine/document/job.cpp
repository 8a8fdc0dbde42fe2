#include "engine/document/job.h"

#include <algorithm>

namespace counterpull {

bool take_back_last_step(Setup& setup) {
    if (!setup.bench || setup.bench->done.empty())
        return false;
    BenchSetup& bench = *setup.bench;
    const StepDone& last = bench.done.back();
    setup.log.resize(setup.log.size() - std::min(setup.log.size(), static_cast<std::size_t>(last.entered)));
    if (last.happened == Mishap::wedge_will_not_go_in)
        bench.way = BenchWay::wedge;
    bench.done.pop_back();
    const auto by_now = static_cast<int>(bench.done.size());
    bench.strings_since = std::min(bench.strings_since, by_now);
    bench.tuning_since = std::min(bench.tuning_since, by_now);
    return true;
}

} // namespace counterpull
