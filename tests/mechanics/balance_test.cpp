#include "engine/mechanics/balance.h"
#include "tests/support.h"

#include <cmath>

using namespace counterpull;
using namespace counterpull::test;

namespace {

struct Bench {
    Setup setup = light_set_level();
    Assembly assembly = assembly_of(setup, fitting_now(setup));
    ClawSetting claw = [this] {
        Problems problems;
        return claw_now(setup, assembly, problems).value();
    }();
};

} // namespace

TEST_CASE("torques and their slopes agree with difference quotients") {
    Bench b;
    const double d = 1e-6;
    const StringLengths lengths = lengths_at_pitch(b.assembly, Attitude(0.0));
    for (const double angle : {-0.05, 0.0, 0.1}) {
        const double pitch_slope = (net_torque_at_pitch(b.assembly, b.claw, angle + d).value -
                                    net_torque_at_pitch(b.assembly, b.claw, angle - d).value) /
                                   (2 * d);
        CHECK(net_torque_at_pitch(b.assembly, b.claw, angle).slope == Approx(pitch_slope).epsilon(1e-6));
        const double free_slope = (net_torque_free(b.assembly, lengths, b.claw, angle + d).value -
                                   net_torque_free(b.assembly, lengths, b.claw, angle - d).value) /
                                  (2 * d);
        CHECK(net_torque_free(b.assembly, lengths, b.claw, angle).slope == Approx(free_slope).epsilon(1e-6));
        const Attitude attitude(angle);
        const double per_turn = (spring_torque(b.assembly, b.claw.turned(d), attitude).value -
                                 spring_torque(b.assembly, b.claw.turned(-d), attitude).value) /
                                (2 * d);
        CHECK(spring_torque_per_turn(b.assembly, b.claw, attitude) == Approx(per_turn).epsilon(1e-6));
    }
}

TEST_CASE("the turns for an attitude, carried out, hold the bridge there") {
    Bench b;
    for (const double angle : {-0.04, 0.0, 0.06}) {
        const Root root = turns_for_attitude(b.assembly, b.claw, angle);
        REQUIRE(root.found());
        CHECK(std::abs(root.residual) <= balance_tolerance);
        const Rest rest = rest_at_pitch(b.assembly, b.claw.turned(root.at), angle + 0.01);
        CHECK(rest.kind == RestKind::floats);
        CHECK(rest.angle_rad == Approx(angle).margin(1e-8));
        CHECK(std::abs(rest.residual) <= balance_tolerance);
    }
}

TEST_CASE("mm of tail per turn is what one small turn does, back in tune") {
    Bench b;
    const double d = 1e-4;
    const Rest rest = rest_at_pitch(b.assembly, b.claw, 0.0);
    const double before =
        tail_at_angle_m(b.assembly.bridge, rest_at_pitch(b.assembly, b.claw.turned(-d), 0).angle_rad);
    const double after =
        tail_at_angle_m(b.assembly.bridge, rest_at_pitch(b.assembly, b.claw.turned(d), 0).angle_rad);
    CHECK(rest.per_turn_m < 0.0);
    CHECK(rest.per_turn_m == Approx((after - before) / (2 * d)).epsilon(1e-4));
}

TEST_CASE("strings held by their tuners make the bridge many times stiffer than strings kept at pitch") {
    Bench b;
    const StringLengths lengths = lengths_at_pitch(b.assembly, Attitude(0.0));
    const double at_pitch = net_torque_at_pitch(b.assembly, b.claw, 0.0).slope;
    const double free = net_torque_free(b.assembly, lengths, b.claw, 0.0).slope;
    CHECK(at_pitch < 0.0);
    CHECK(free < 2.0 * at_pitch);
}

TEST_CASE("slackened strings let the bridge sink onto its stop") {
    Bench b;
    StringLengths lengths = lengths_at_pitch(b.assembly, Attitude(0.0));
    for (double& length : lengths)
        length *= 1.05;
    const Rest rest = rest_free(b.assembly, lengths, b.claw, 0.0);
    CHECK(rest.kind == RestKind::tail_down_stop);
    CHECK(rest.angle_rad == Approx(lowest_angle_rad(b.assembly.bridge)));
    CHECK(rest.residual < 0.0); // held down
}

TEST_CASE("with the claw eased far out a float ends where a spring closes") {
    Bench b;
    // Springs that open with much force: eased, they are shut by strings that pull less than that.
    for (SpringOnBridge& spring : b.assembly.springs)
        spring.spring.initial_tension_n = 45.0;
    const Root root = turns_for_attitude(b.assembly, b.claw, 0.0);
    CHECK(root.status == RootStatus::jump);
    const Rest rest = rest_at_pitch(b.assembly, b.claw.turned(root.at), 0.05);
    CHECK(rest.kind == RestKind::spring_closed);
    CHECK(rest.angle_rad == Approx(0.0).margin(1e-6));
    CHECK(spring_length_m(b.assembly, b.assembly.springs[0], b.claw.turned(root.at),
                          Attitude(rest.angle_rad)) ==
          Approx(b.assembly.springs[0].spring.free_length_m).margin(1e-9));
}

TEST_CASE("without enough springs the strings take the bridge to its upper stop") {
    Bench b;
    b.assembly.spring_count = 1;
    const Rest rest = rest_at_pitch(b.assembly, b.claw, 0.0);
    CHECK(rest.kind == RestKind::tail_up_stop);
    CHECK(rest.per_turn_m == 0.0);
}

TEST_CASE("where no claw position balances the strings that is the answer") {
    Bench b;
    CHECK(turns_to_balance(b.assembly, b.claw, Attitude(0.0), -0.1).status == RootStatus::no_sign_change);
    b.assembly.spring_count = 0;
    CHECK(turns_for_attitude(b.assembly, b.claw, 0.0).status == RootStatus::no_sign_change);
}

TEST_CASE("on its back, the weight of the bridge lowers the tail") {
    Setup setup = light_set_level();
    setup.guitar.bridge.mass_g = 300;
    setup.guitar.bridge.mass_setback_mm = 10;
    const Report playing = answered(setup);
    setup.guitar.held = Held::on_its_back;
    const Assembly lying = assembly_of(setup, fitting_now(setup));
    const Rest rest = rest_at_pitch(lying, playing.now.claw, 0.0);
    CHECK(rest.angle_rad < 0.0);
    // By hand: 0.3 kg · 9.80665 · 10 mm = 0.0294 N·m.
    CHECK(weight_torque(lying, Attitude(0.0)).value == Approx(-0.02942).epsilon(1e-3));
}

TEST_CASE("a skewed claw with springs placed evenly moves the balance only by its mean") {
    Bench b;
    const ClawSetting skewed{b.claw.x_m, -1.0, 1.0};
    CHECK(spring_torque(b.assembly, skewed, Attitude(0.0)).value ==
          Approx(spring_torque(b.assembly, b.claw, Attitude(0.0)).value).epsilon(1e-9));
}

TEST_CASE("of two balances that lie close together the first is found, however close") {
    // A shallow block far back, with stiff springs: in tune the torque falls and rises again as the tail
    // rises.
    Bench b;
    b.assembly.bridge.block_depth_m = 0.015;
    b.assembly.bridge.block_setback_m = 0.025;
    b.assembly.bridge.tail_low_m = -0.015;
    for (SpringOnBridge& spring : b.assembly.springs) {
        spring.spring.rate_n_m = 4000.0;
        spring.spring.initial_tension_n = 2.0;
    }
    const Root held = turns_for_attitude(b.assembly, b.claw, 0.0);
    REQUIRE(held.found());
    const ClawSetting claw = b.claw.turned(held.at);
    auto torque = [&](double angle) { return net_torque_at_pitch(b.assembly, claw, angle); };
    const double lowest = lowest_angle_rad(b.assembly.bridge), highest = highest_angle_rad(b.assembly.bridge);
    auto bisected = [](double low, double high, auto below) {
        for (int i = 0; i < 200; ++i)
            (below(0.5 * (low + high)) ? low : high) = 0.5 * (low + high);
        return low;
    };
    const double turning = bisected(lowest, highest, [&](double a) { return torque(a).slope < 0.0; });
    REQUIRE(torque(turning + 0.01).value > torque(turning).value);
    for (const double dip_nm : {1e-3, 1e-6, 1e-9}) {
        b.assembly.unexplained_nm = 0.0;
        b.assembly.unexplained_nm = -torque(turning).value - dip_nm; // it dips below zero by that
        const double first = bisected(lowest, turning, [&](double a) { return torque(a).value > 0.0; });
        const Rest rest = rest_at_pitch(b.assembly, claw, lowest);
        INFO(dip_nm << " N·m");
        REQUIRE(torque(lowest).value > 0.0);
        REQUIRE(torque(highest).value > 0.0);
        CHECK(rest.kind == RestKind::floats);
        CHECK(rest.angle_rad == Approx(first).margin(1e-6));
        // The other does not settle: begun there, it is not taken for a rest.
        const double other = bisected(turning, highest, [&](double a) { return torque(a).value < 0.0; });
        REQUIRE(torque(other).slope > 0.0);
        CHECK(rest_near(b.assembly, all_at_pitch(b.assembly), claw, other, lowest).angle_rad ==
              Approx(first).margin(1e-6));
    }
    b.assembly.unexplained_nm += 1e-8; // and now it does not
    CHECK(rest_at_pitch(b.assembly, claw, lowest).kind == RestKind::tail_up_stop);
}
