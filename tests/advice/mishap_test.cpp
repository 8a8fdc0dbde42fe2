// What goes wrong at the bench, and the way on from there.
#include "tests/bench_support.h"

#include <algorithm>

using namespace counterpull;
using namespace counterpull::test;

TEST_CASE("where the wedge falls out strings come down, the screws go half a turn in, and it goes in again") {
    using K = StepKind;
    Setup setup = until(by_way(example("lower-and-heavier"), wedge), K::wedge_out);
    const double before = at_bench(setup).turns();
    setup = gone_wrong(setup, Mishap::wedge_fell_out);
    const std::vector<K> kinds = kinds_until_finished(setup);
    REQUIRE(kinds.size() > 6);
    CHECK(std::vector<K>(kinds.begin(), kinds.begin() + 6) ==
          std::vector<K>{K::slacken, K::turn, K::wedge_in, K::tune, K::tune, K::wedge_out});
    setup = until(setup, K::wedge_in);
    CHECK(at_bench(setup).turns() == Approx(before + 0.5));
    CHECK(kinds.back() == K::finished);
}

TEST_CASE("where the wedge will not go in it is done without, and its surplus comes out again") {
    const Setup setup = until(by_way(example("lower-and-heavier"), wedge), StepKind::wedge_in);
    const Setup then = gone_wrong(setup, Mishap::wedge_will_not_go_in);
    CHECK(then.bench->way == BenchWay::plain);
    const Step turn = due_on(then).step;
    REQUIRE(turn.kind == StepKind::turn);
    CHECK(at_bench(then).turns() + turn.turns[0] == Approx(*answered(then).solution.advised().turns));
}

TEST_CASE("a string that breaks is put on anew, alone, and the job goes on") {
    using K = StepKind;
    const Setup setup = until(by_way(example("lower-and-heavier"), plain), K::read);
    const Setup then = gone_wrong(setup, Mishap::string_broke, 1);
    const Step step = due_on(then).step;
    REQUIRE(step.kind == K::strings);
    CHECK(step.replaced == 1);
    const std::vector<K> kinds = kinds_until_finished(then);
    CHECK(std::count(kinds.begin(), kinds.end(), K::strings) == 1);
    CHECK(kinds[1] == K::tune);
    // Old strings that come off anyhow need no other.
    const Setup early = until(by_way(example("lower-and-heavier"), plain), K::slacken);
    CHECK(due_on(gone_wrong(early, Mishap::string_broke, 1)).step.replaced == 0);
}

TEST_CASE("a spring that jumps off goes on again, with the strings slack") {
    using K = StepKind;
    const Setup setup = until(by_way(example("lower-and-heavier"), wedge), K::wedge_out);
    const Setup then = gone_wrong(setup, Mishap::spring_off, 2);
    CHECK(due_on(then).step.kind == K::slacken);
    const Step springs = due_on(after(then, {})).step;
    REQUIRE(springs.kind == K::springs);
    CHECK(springs.off.empty());
    CHECK(springs.on == Arrangement{{2, 2, {}}});
    CHECK(kinds_until_finished(then).back() == K::finished);
}

TEST_CASE("a screw that turns hard is turned with the strings slack, and what it has turned counts") {
    using K = StepKind;
    const Setup setup = until(by_way(example("small-sag"), plain), K::turn_until);
    const double told = due_on(setup).step.turns[0];
    Answer answer;
    answer.happened = Mishap::screw_hard;
    answer.turned = {0.5 * told, 0.5 * told};
    const Setup then = after(setup, answer);
    CHECK(due_on(then).step.kind == K::slacken);
    const Step turn = due_on(after(then, {})).step;
    REQUIRE(turn.kind == K::turn);
    CHECK(turn.turns[0] == Approx(0.5 * told));
    CHECK(turn.stuck == 1);
}

TEST_CASE("where the thread runs out the answer counts with what is left of it") {
    Setup setup = example("lower-and-heavier");
    setup.next.strings = setup.now.strings;
    setup.next.tuning = notes_of("F2 Bb2 Eb3 Ab3 C4 F4"); // up: the springs are tightened
    setup = until(by_way(setup, plain), StepKind::turn);
    const double told = due_on(setup).step.turns[0];
    REQUIRE(told > 0.5);
    Answer answer;
    answer.happened = Mishap::no_thread;
    answer.turned = {0.5, 0.5};
    const Setup then = after(setup, answer);
    CHECK(then.guitar.bay.turns_in_left == Approx(0.5));
    const Report report = answered(then);
    // Other springs, or nothing fits: what is advised leaves the thread alone.
    const Step next = bench(report).step;
    CHECK((next.kind == StepKind::springs || next.kind == StepKind::cannot));
    for (const Advice& advice : report.solution.advice)
        if (advice.fits())
            CHECK(*advice.turns <= 0.5);
}

TEST_CASE(
    "where the thread ends past the answer, but short of the wedge's surplus, it goes on without the wedge") {
    Setup setup = example("small-sag");
    setup.next.strings = example("lower-and-heavier").next.strings;
    setup = until(by_way(setup, wedge), StepKind::turn);
    const Step turn = due_on(setup).step;
    REQUIRE(turn.surplus_turns > 0.5);
    Answer answer;
    answer.happened = Mishap::no_thread;
    const double turned = turn.turns[0] - 0.5 * turn.surplus_turns;
    answer.turned = {turned, turned};
    const Setup then = after(setup, answer);
    const Step next = due_on(then).step;
    // The springs that were just tightened stay, though others might take less work.
    REQUIRE(next.kind == StepKind::turn);
    CHECK(next.turns[0] == Approx(-0.5 * turn.surplus_turns));
    CHECK(next.surplus_turns == 0.0);
}

TEST_CASE("no screw is turned with a string broken and the others up") {
    using K = StepKind;
    const Setup setup = until(by_way(example("lower-and-heavier"), wedge), K::turn_until);
    const std::vector<K> kinds = kinds_until_finished(gone_wrong(setup, Mishap::string_broke, 1));
    REQUIRE(kinds.size() > 3);
    CHECK(std::vector<K>(kinds.begin(), kinds.begin() + 4) ==
          std::vector<K>{K::slacken, K::turn, K::strings, K::tune});
}

TEST_CASE("strings that are down are not let down again") {
    using K = StepKind;
    const Setup setup = until(by_way(example("lower-and-heavier"), plain), K::turn);
    CHECK(due_on(gone_wrong(setup, Mishap::screw_hard)).step.kind == K::turn);
}

TEST_CASE("springs stand by their hooks, whichever came back last") {
    const Setup setup = until(by_way(example("lower-and-heavier"), wedge), StepKind::wedge_out);
    Setup then = gone_wrong(setup, Mishap::spring_off, 2);
    then = after(until(then, StepKind::springs), {});
    const Arrangement springs = at_bench(then).springs;
    CHECK(std::is_sorted(springs.begin(), springs.end(),
                         [](const auto& a, const auto& b) { return a.hook < b.hook; }));
}
