// The advice followed blindly on guitars that are not what the tool believes. Here a few of each kind; the
// benchmark closed_loop prints the table for many.
#include "tests/reference/closed_loop.h"

#include <catch2/catch.hpp>

#include <iostream>

using namespace reference;

TEST_CASE("followed blindly, the advice levels hidden guitars in few visits and passes") {
    constexpr int count = 16;
    int all = 0, within3 = 0, gone = 0, wedge_all = 0, wedge_within2 = 0;
    for (const Change& change : changes()) {
        const Outcome tuner = follow_advice(change.setup, Way::with_tuner, 0, count);
        const Outcome wedge = follow_advice(change.setup, Way::with_wedge, 0, count);
        const Outcome plain = follow_advice(change.setup, Way::tail_only, 0, count);
        INFO(change.name);
        CHECK(tuner.median_visits() <= 2.0);
        CHECK(wedge.median_visits() <= 2.0);
        CHECK(wedge.passes[count * 9 / 10] == 1); // tuned once, in all
        CHECK(tuner.passes[count / 2] <= plain.passes[count / 2]);
        all += tuner.guitars;
        within3 += tuner.within(3);
        gone += tuner.guitars - tuner.within(most_visits);
        wedge_all += wedge.guitars;
        wedge_within2 += wedge.within(2);
    }
    CHECK(within3 >= 0.93 * all); // 95 % in the large; so few guitars scatter
    CHECK(gone <= 1);
    CHECK(wedge_within2 >= 0.95 * wedge_all);
}

TEST_CASE("one test reading first, and a small correction mostly needs one visit") {
    const Outcome outcome = follow_advice(changes().front().setup, Way::test_first, 0, 40);
    CHECK(outcome.median_visits() <= 1.5);
    CHECK(outcome.within(3) >= 38);
}
