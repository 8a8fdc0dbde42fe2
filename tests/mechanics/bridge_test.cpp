#include "engine/mechanics/bridge.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace counterpull;

TEST_CASE("a raised tail is a positive tilt and a positive reading") {
    Bridge bridge;
    bridge.tail_m = 0.050;
    bridge.tail_low_m = -0.006;
    bridge.tail_high_m = 0.018;
    CHECK(tail_at_angle_m(bridge, 0.1) == Approx(0.050 * std::sin(0.1)));
    CHECK(angle_at_tail_rad(bridge, tail_at_angle_m(bridge, -0.07)) == Approx(-0.07));
    CHECK(lowest_angle_rad(bridge) < 0.0);
    CHECK(highest_angle_rad(bridge) > 0.0);
    // The tail, behind the pivot, goes up; the saddle, over it, goes toward the nut.
    CHECK(Attitude(0.1).of({-0.050, 0.0}).y == Approx(0.050 * std::sin(0.1)));
    CHECK(Attitude(0.1).of({0.0, 0.008}).x > 0.0);
}

TEST_CASE("lever arms are the slopes of the distances") {
    const Point hook{0.065, -0.036}, hole{-0.010, -0.038};
    const double across = 0.012, d = 1e-6;
    for (const double angle : {-0.12, 0.0, 0.2}) {
        const Reach at = reach(hook, hole, across, Attitude(angle));
        const Reach before = reach(hook, hole, across, Attitude(angle - d));
        const Reach after = reach(hook, hole, across, Attitude(angle + d));
        CHECK(at.per_rad_m == Approx((after.length_m - before.length_m) / (2 * d)).epsilon(1e-7));
        CHECK(at.per_rad2_m == Approx((after.per_rad_m - before.per_rad_m) / (2 * d)).epsilon(1e-6));
        const ReachPerShift by_hook = reach_per_fixed(at, hook, hole, Attitude(angle));
        const ReachPerShift by_hole = reach_per_level(at, hook, hole, Attitude(angle));
        auto shifted = [&](Point hook_by, Point hole_by) {
            return reach({hook.x + hook_by.x, hook.y + hook_by.y}, {hole.x + hole_by.x, hole.y + hole_by.y},
                         across, Attitude(angle));
        };
        auto agrees = [&](double length, double per_rad, const Reach& less, const Reach& more) {
            CHECK(length == Approx((more.length_m - less.length_m) / (2 * d)).epsilon(1e-7));
            CHECK(per_rad == Approx((more.per_rad_m - less.per_rad_m) / (2 * d)).epsilon(1e-7));
        };
        agrees(by_hook.length.x, by_hook.per_rad.x, shifted({-d, 0.0}, {}), shifted({d, 0.0}, {}));
        agrees(by_hook.length.y, by_hook.per_rad.y, shifted({0.0, -d}, {}), shifted({0.0, d}, {}));
        agrees(by_hole.length.x, by_hole.per_rad.x, shifted({}, {-d, 0.0}), shifted({}, {d, 0.0}));
        agrees(by_hole.length.y, by_hole.per_rad.y, shifted({}, {0.0, -d}), shifted({}, {0.0, d}));
    }
}

TEST_CASE("level, a spring in line with the block pulls with the block's depth as lever arm") {
    const Reach at = reach({0.065, -0.038}, {-0.010, -0.038}, 0.0, Attitude(0.0));
    CHECK(at.length_m == Approx(0.075));
    CHECK(at.per_rad_m == Approx(0.038));
}

TEST_CASE("a splayed spring is longer and pulls partly sideways") {
    // 30 mm across on 40 mm along: 50 mm long, four fifths of the straight spring's lever arm.
    const Reach at = reach({0.040, -0.038}, {0.0, -0.038}, 0.030, Attitude(0.0));
    CHECK(at.length_m == Approx(0.050));
    CHECK(at.per_rad_m == Approx(0.8 * 0.038));
}

TEST_CASE("both screws in move every hook toward the nut, one screw only its side") {
    const Claw claw{0.038, 0.040, 0.0017};
    const ClawSetting both = ClawSetting{0.060, 0.0, 0.0}.turned(2.0);
    CHECK(hook_at(claw, both, -0.024).x == Approx(0.0634));
    CHECK(hook_at(claw, both, 0.024).x == Approx(0.0634));
    // Lever law: at the bass screw nothing, at the treble screw all, beyond it more.
    const ClawSetting skewed{0.060, 0.0, 1.0};
    CHECK(hook_at(claw, skewed, -0.020).x == Approx(0.060));
    CHECK(hook_at(claw, skewed, 0.0).x == Approx(0.060 + 0.5 * 0.0017));
    CHECK(hook_at(claw, skewed, 0.020).x == Approx(0.060 + 0.0017));
    CHECK(hook_at(claw, skewed, 0.024).x == Approx(0.060 + 1.1 * 0.0017));
}
