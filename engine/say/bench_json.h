// The step that is due, as "counterpull-bench/1" and as text.
#pragma once

#include "engine/advice/bench.h"
#include "engine/say/words.h"

#include <string>

namespace counterpull {

// The sentence of the work sheet and its cautions.
struct BenchSaid {
    std::string say;
    std::vector<std::string> cautions;
};
BenchSaid said(const Report& report, const Bench& bench, const Words& words);

std::string bench_json(const Report& report, const Bench& bench, const Words& words);
std::string bench_text(const Report& report, const Bench& bench, const Words& words);

} // namespace counterpull
