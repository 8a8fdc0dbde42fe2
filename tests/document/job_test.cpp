// A job at the bench taken back step by step, by the document alone.
#include "engine/document/job.h"

#include "engine/advice/bench.h"
#include "tests/support.h"

#include <random>

using namespace counterpull;
using namespace counterpull::test;

namespace {

constexpr int most_steps = 60; // of any job (contract)

// What is needed, as expected; now and then something optional, or a mishap.
Answer any_answer(const Setup& setup, const Step& step, std::mt19937& random) {
    auto one_in = [&](unsigned n) { return random() % n == 0; };
    Answer answer;
    if (step.kind != StepKind::note && one_in(12)) {
        answer.happened = Mishap::string_broke;
        answer.string = 1 + static_cast<int>(random() % setup.next.strings.size());
        return answer;
    }
    if (step.kind == StepKind::wedge_in && one_in(3)) {
        answer.happened = Mishap::wedge_will_not_go_in;
        return answer;
    }
    const std::size_t strings = setup.next.strings.size();
    for (const Asked& asked : step.asks) {
        if (!asked.needed && !one_in(2))
            continue;
        if (asked.field == AskedField::tail_mm) {
            answer.tail_mm =
                asked.expected.value_or(setup.next.tail_mm) + 0.1 * static_cast<double>(random() % 9);
            continue;
        }
        if (!answer.cents)
            answer.cents.emplace(strings);
        (*answer.cents)[strings - static_cast<std::size_t>(asked.string)] = asked.expected.value_or(0.0);
    }
    answer.in_tune = step.reading == ReadingKind::in_tune;
    return answer;
}

} // namespace

TEST_CASE("every step done at the bench is taken back to what stood before it, its readings and all") {
    int taken_back = 0;
    for (const std::string& name : example_names())
        for (unsigned number = 0; number < 6; ++number) {
            std::mt19937 random(number);
            Setup setup = example(name);
            setup.bench = begin_job(setup, {number % 2 == 0, false});
            for (int i = 0; i < most_steps; ++i) {
                const Report told = answered(setup);
                const Step due = bench(told).step;
                if (due.kind == StepKind::finished || due.kind == StepKind::cannot)
                    break;
                const Answer answer = any_answer(setup, due, random);
                const Answered after = counterpull::answered(told, answer);
                REQUIRE(after.setup);
                INFO(name << " " << number << ", step " << i + 1 << ", kind " << static_cast<int>(due.kind));
                Setup back = *after.setup;
                REQUIRE(take_back_last_step(back));
                // What the document does not hold: a tail corrected in "now".
                if (due.kind == StepKind::note)
                    back.now = setup.now;
                CHECK(back == setup);
                ++taken_back;
                setup = *after.setup;
            }
        }
    CHECK(taken_back > 300);
    Setup untouched = example("small-sag");
    CHECK_FALSE(take_back_last_step(untouched));
    CHECK(untouched == example("small-sag"));
}
