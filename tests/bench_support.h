// A job at the bench, done as a player does it who finds all as it is expected.
#pragma once

#include "engine/advice/bench.h"
#include "tests/support.h"

#include <string>
#include <vector>

namespace counterpull::test {

inline constexpr Way plain{}, wedge{true, false}, test_first{false, true};

inline Bench due_on(const Setup& setup) {
    return bench(answered(setup));
}

// What a player answers who finds all as it is expected.
inline Answer as_expected(const Setup& setup, const Step& step) {
    Answer answer;
    for (const Asked& asked : step.asks) {
        if (!asked.needed)
            continue;
        if (asked.field == AskedField::tail_mm)
            answer.tail_mm = asked.expected.value_or(setup.next.tail_mm);
        else {
            const std::size_t strings = setup.next.strings.size();
            if (!answer.cents)
                answer.cents.emplace(strings);
            (*answer.cents)[strings - static_cast<std::size_t>(asked.string)] = asked.expected.value_or(5.0);
        }
    }
    return answer;
}

inline Setup after(const Setup& setup, const Answer& answer) {
    Answered done = answered(answered(setup), answer);
    INFO((done.problems.none() ? ""
                               : done.problems.told.front().path + " " + done.problems.told.front().why.key));
    REQUIRE(done.setup);
    return *done.setup;
}

inline std::string refused_at(const Setup& setup, const Answer& answer) {
    const Answered done = answered(answered(setup), answer);
    REQUIRE_FALSE(done.setup);
    return done.problems.told.front().path;
}

inline Setup by_way(Setup setup, Way way) {
    setup.bench.emplace();
    setup.bench->way = way.wedge ? BenchWay::wedge : BenchWay::plain;
    setup.bench->test = way.test;
    return setup;
}

// No job takes more steps (engine/advice/steps.cpp).
inline constexpr int most = 60;

// Done as expected until a step of this kind is due, or the job is at its end.
inline Setup until(Setup setup, StepKind kind) {
    for (int i = 0; i < most; ++i) {
        const Step step = due_on(setup).step;
        if (step.kind == kind)
            return setup;
        REQUIRE(step.kind != StepKind::finished);
        REQUIRE(step.kind != StepKind::cannot);
        setup = after(setup, as_expected(setup, step));
    }
    FAIL("no end in " << most << " steps");
    return setup;
}

inline Setup gone_wrong(const Setup& setup, Mishap what, int where = 0) {
    Answer answer;
    answer.happened = what;
    if (what == Mishap::string_broke)
        answer.string = where;
    if (what == Mishap::spring_off)
        answer.hook = where;
    return after(setup, answer);
}

inline std::vector<StepKind> kinds_until_finished(Setup setup, Setup* end = nullptr) {
    std::vector<StepKind> all;
    for (int i = 0; i < most; ++i) {
        const Step step = due_on(setup).step;
        all.push_back(step.kind);
        if (end)
            *end = setup;
        if (step.kind == StepKind::finished || step.kind == StepKind::cannot)
            return all;
        setup = after(setup, as_expected(setup, step));
    }
    FAIL("no end in " << most << " steps");
    return all;
}

} // namespace counterpull::test
