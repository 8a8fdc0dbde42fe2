#include "engine/advice/advice.h"
#include "engine/advice/arrangements.h"
#include "tests/support.h"

#include <algorithm>
#include <cmath>
#include <set>

using namespace counterpull;
using namespace counterpull::test;

namespace {

std::vector<int> hooks(const Arrangement& springs) {
    std::vector<int> all;
    for (const PlacedSpring& spring : springs)
        all.push_back(spring.hook);
    return all;
}

} // namespace

TEST_CASE("springs are spread evenly and symmetrically over five hooks") {
    const BaySetup bay = example("lower-and-heavier").guitar.bay;
    CHECK(hooks(evenly_placed(bay, 1)) == std::vector<int>{2});
    CHECK(hooks(evenly_placed(bay, 2)) == std::vector<int>{1, 3});
    CHECK(hooks(evenly_placed(bay, 3)) == std::vector<int>{0, 2, 4});
    CHECK(hooks(evenly_placed(bay, 4)) == std::vector<int>{0, 1, 3, 4});
    CHECK(hooks(evenly_placed(bay, 5)) == std::vector<int>{0, 1, 2, 3, 4});
}

TEST_CASE("every number of springs is considered once, straight and symmetric, and as it is now") {
    Setup setup = example("lower-and-heavier");
    setup.now.springs = {{0, 0, {}}, {1, 1, {}}, {4, 4, {}}}; // lopsided
    const std::vector<Arrangement> all = straight_arrangements(setup);
    CHECK(all.front() == setup.now.springs);
    std::multiset<std::size_t> counts;
    for (std::size_t i = 1; i < all.size(); ++i) {
        counts.insert(all[i].size());
        const std::vector<int> taken = hooks(all[i]);
        for (std::size_t j = 0; j < taken.size(); ++j) {
            CHECK(all[i][j].hook == all[i][j].hole);
            CHECK(taken[j] == 4 - taken[taken.size() - 1 - j]);
        }
    }
    CHECK(counts == std::multiset<std::size_t>{1, 2, 3, 4, 5});
}

TEST_CASE("of equal ways the one that moves the fewest springs is taken") {
    Setup setup = example("lower-and-heavier");
    setup.now.springs = {{0, 0, {}}, {4, 4, {}}};
    for (const Arrangement& springs : straight_arrangements(setup))
        if (springs.size() == 3)
            CHECK(hooks(springs) == std::vector<int>{0, 2, 4}); // one put in, none moved
    setup.now.springs = {{1, 1, {}}, {3, 3, {}}};
    for (const Arrangement& springs : straight_arrangements(setup))
        if (springs.size() == 3)
            CHECK(hooks(springs) == std::vector<int>{1, 2, 3});
}

TEST_CASE("springs of other kinds are mixed in where the player has them, never more than there are") {
    Setup setup = example("lower-and-heavier");
    setup.guitar.other_springs = {{2, {3.0, 60, 6, 100}}};
    int mixed = 0;
    for (const Arrangement& springs : straight_arrangements(setup)) {
        const auto others = static_cast<int>(springs.size()) - springs_needed(springs);
        CHECK(others <= 2);
        if (others == 2 && springs.size() == 4) {
            ++mixed;
            // A pair of stiffer ones stands as far out on either side.
            std::vector<int> at;
            for (const PlacedSpring& placed : springs)
                if (placed.spring)
                    at.push_back(placed.hook);
            CHECK(at[0] == 4 - at[1]);
        }
    }
    CHECK(mixed == 1);
}

TEST_CASE("a bay with fewer holes than hooks is served with the least slant") {
    Setup setup = example("lower-and-heavier");
    setup.guitar.bay.hole_mm = {-20, 0, 20};
    setup.now.springs = {{0, 0, {}}, {2, 1, {}}, {4, 2, {}}};
    for (const Arrangement& springs : straight_arrangements(setup))
        for (const PlacedSpring& placed : springs)
            CHECK(std::abs(setup.guitar.bay.hook_mm[static_cast<std::size_t>(placed.hook)] -
                           setup.guitar.bay.hole_mm[static_cast<std::size_t>(placed.hole)]) <= 8.0);
}

TEST_CASE("splayed springs are symmetric, longer, and only a last resort") {
    const Setup setup = example("lower-and-heavier");
    const std::vector<Arrangement> splayed = splayed_arrangements(setup);
    CHECK_FALSE(splayed.empty());
    for (const Arrangement& springs : splayed)
        CHECK(std::any_of(springs.begin(), springs.end(),
                          [](const PlacedSpring& placed) { return placed.hook != placed.hole; }));
    for (const Advice& advice : answered(setup).solution.advice)
        CHECK_FALSE(advice.splayed); // something straight fits here
    Setup hard = example("cannot-float");
    bool tried = false;
    for (const Advice& advice : answered(hard).solution.advice)
        tried = tried || advice.splayed;
    CHECK(tried);
}

TEST_CASE("nothing straight that fits beats what is found: every placement tried by brute force") {
    for (const char* name : {"lower-and-heavier", "small-sag", "six-screw-plate"}) {
        const Setup setup = example(name);
        const Report report = answered(setup);
        const Advice& best = report.solution.advice[0];
        REQUIRE(best.fits());
        const std::size_t places = setup.guitar.bay.hook_mm.size();
        // Every set of hooks, each spring to the hole opposite.
        for (unsigned mask = 1; mask < (1u << places); ++mask) {
            Arrangement springs;
            for (int i = 0; i < static_cast<int>(places); ++i)
                if (mask & (1u << i))
                    springs.push_back({i, i, {}});
            if (springs_needed(springs) > springs_owned(setup))
                continue;
            const auto tried = first_that_fits(Belief(setup), report.now.claw, {springs});
            // Equal springs, straight: where they stand does not change the turns, only their number does.
            const auto same = std::find_if(
                report.solution.advice.begin(), report.solution.advice.end(), [&](const Advice& advice) {
                    return advice.springs.size() == springs.size() && advice.fits() && advice.settable();
                });
            INFO(name << ", hooks " << mask);
            CHECK(tried.has_value() == (same != report.solution.advice.end()));
            if (!tried || same == report.solution.advice.end())
                continue;
            CHECK(*tried->turns == Approx(*same->turns).margin(1e-9));
            const bool symmetric =
                std::all_of(springs.begin(), springs.end(), [&](const PlacedSpring& spring) {
                    return mask & (1u << (static_cast<int>(places) - 1 - spring.hook));
                });
            if (symmetric && springs.size() == best.springs.size())
                CHECK(springs_moved(setup.now.springs, springs) >= best.moved);
        }
    }
}
