// The job done as the bench says, step by step, on hidden guitars. A few of each kind of change, always the
// same ones; the benchmark closed_loop prints the table for many, whose figures these bounds leave a margin.
#include "tests/reference/bench_player.h"
#include "tests/reference/closed_loop.h"

#include <catch2/catch.hpp>

#include <algorithm>

using namespace reference;
using counterpull::StepKind;
using counterpull::Way;

namespace {

constexpr int guitars = 25;

int count_of(const std::vector<BenchRun>& runs, bool (*what)(const BenchRun&)) {
    return static_cast<int>(std::count_if(runs.begin(), runs.end(), what));
}
bool finished(const BenchRun& run) {
    return run.ended == StepKind::finished;
}
bool at_once(const BenchRun& run) {
    return finished(run) && run.visits <= 1;
}
bool in_two(const BenchRun& run) {
    return finished(run) && run.visits <= 2;
}
bool level(const BenchRun& run) {
    return run.off_mm <= 0.5;
}
bool in_tune(const BenchRun& run) {
    return run.off_cents <= 5.0;
}

} // namespace

TEST_CASE("who does what the bench says is done after one visit, level and in tune") {
    int all = 0, once = 0, flat = 0;
    for (const Change& change : changes()) {
        INFO(change.name);
        const std::vector<BenchRun> runs = walk_the_bench(change.setup, {}, 0, guitars);
        for (const BenchRun& run : runs) {
            CHECK(run.refused == "");
            CHECK(run.steps <= 30);
            CHECK(run.typed - run.tested <= 8);
        }
        CHECK(count_of(runs, finished) == guitars);
        CHECK(count_of(runs, in_two) >= guitars - 1);
        CHECK(count_of(runs, in_tune) >= guitars - 1);
        all += guitars;
        once += count_of(runs, at_once);
        flat += count_of(runs, level);
    }
    CHECK(once >= 0.95 * all); // 97 to 100 % in the large
    CHECK(flat >= 0.96 * all); // 96 to 100 %
}

TEST_CASE("without a wedge one test reading first is enough for most to be done at once") {
    int all = 0, once = 0;
    for (const Change& change : changes()) {
        const std::vector<BenchRun> runs =
            walk_the_bench(change.setup, {Way{false, true}, false, 0.0}, 100, guitars);
        INFO(change.name);
        CHECK(count_of(runs, in_two) >= guitars - 1);
        CHECK(count_of(runs, at_once) >= 0.78 * guitars);
        all += guitars;
        once += count_of(runs, at_once);
    }
    CHECK(once >= 0.9 * all);
}

TEST_CASE("whatever goes wrong on the way, the job comes to its end") {
    int mishaps = 0;
    for (const Change& change : changes())
        for (const bool counts : {false, true}) {
            INFO(change.name);
            const std::vector<BenchRun> runs = walk_the_bench(change.setup, {{}, counts, 0.08}, 200, guitars);
            for (const BenchRun& run : runs) {
                CHECK(run.refused == "");
                CHECK((run.ended == StepKind::finished || run.ended == StepKind::cannot));
                CHECK(run.steps <= 60);
                mishaps += run.mishaps;
            }
            CHECK(count_of(runs, finished) >= guitars - 2);
        }
    CHECK(mishaps > 300);
}
