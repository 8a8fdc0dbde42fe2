// The job one step at a time ("counterpull-bench/1"): what is due, and the set-up after it is done. Both
// follow from the document alone (BenchSetup and the log), so that a link, a notebook or another device goes
// on where it stopped.
#pragma once

#include "engine/advice/steps.h"
#include "engine/document/answer.h"

namespace counterpull {

struct Bench {
    Step step; // that is due
    int number = 1;
    int of = 1; // as far as can be said now
    Way way;
    Which against = Which::next; // whose tuning all cents of this step are told against
};

// What has been done, by the document; where that leaves open how far the claw was turned or which springs
// were moved, as the report has it by now.
AtBench at_bench(const Report& report);

Bench bench(const Report& report);

// A job of which nothing is done yet, to be done in that way.
BenchSetup begin_job(const Setup& setup, Way way);

struct Answered {
    std::optional<Setup> setup; // present exactly where there is no problem
    Problems problems;
};

// The set-up once the step that is due is done, or has gone wrong. What was read is entered into the log,
// with the screws as they were really turned; what was not counted is as expected (Reading::counted).
// Refused, and nothing changed, where an answer is missing that is needed, where one is given that nothing
// asks for, and where no step is due any more.
Answered answered(const Report& report, const Answer& answer);

} // namespace counterpull
