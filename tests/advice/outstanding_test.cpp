#include "engine/advice/outstanding.h"
#include "tests/support.h"

using namespace counterpull;
using namespace counterpull::test;

namespace {

// Strings and springs as wanted, the claw where the answer has it, all up.
AtBench all_done(const Report& report) {
    AtBench at;
    at.next_on = true;
    at.springs = report.solution.advised().springs;
    const double turns = *report.solution.advised().turns;
    at.turned = {turns, turns};
    return at;
}

} // namespace

TEST_CASE("strings come down for other strings, for springs and for far turns, and for nothing else") {
    // Common practice: springs are hooked in and strings changed with nothing pulling.
    const Report report = answered(example("lower-and-heavier"));
    const AtBench done = all_done(report);
    CHECK_FALSE(Outstanding(report, done, {}).comes_down());
    AtBench at = done;
    at.next_on = false;
    CHECK(Outstanding(report, at, {}).comes_down());
    at = done;
    at.broken = 3;
    CHECK(Outstanding(report, at, {}).comes_down());
    at = done;
    at.springs.pop_back();
    CHECK(Outstanding(report, at, {}).comes_down());
    at = done;
    at.turned[0] += 3.0;
    at.turned[1] += 3.0;
    CHECK(Outstanding(report, at, {}).more() == Approx(-3.0));
    CHECK(Outstanding(report, at, {}).comes_down());
}
