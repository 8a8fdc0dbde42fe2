// A player who does nothing but what the bench says, step by step, on a hidden guitar.
#pragma once

#include "engine/advice/bench.h"
#include "tests/reference/hidden_guitar.h"

#include <optional>
#include <string>
#include <vector>

namespace reference {

struct BenchRules {
    std::optional<counterpull::Way> way; // instead of the one that takes the least work
    bool counts = false;                 // what the tuner stopped is counted as well, and told
    double mishaps = 0.0;                // how likely something goes wrong at a step
};

struct BenchRun {
    counterpull::StepKind ended = counterpull::StepKind::note; // finished, or cannot; else it was given up
    std::string refused;                                       // an answer that was not taken
    int steps = 0, visits = 0;
    int tunings = 0, rough = 0;
    int typed = 0, tested = 0; // numbers typed; those of the test reading
    int taps = 0;
    int mishaps = 0;
    double off_mm = 0.0;    // the true tail at the end, from what was wanted
    double off_cents = 0.0; // the string furthest off
    double first_mm = 0.0;  // the true tail after the first visit, signed
    counterpull::Setup setup;
};

inline constexpr int most_bench_steps = 120;

// `count` hidden guitars, numbered from `first`.
std::vector<BenchRun> walk_the_bench(const counterpull::Setup& setup, const BenchRules& rules, int first,
                                     int count);

} // namespace reference
