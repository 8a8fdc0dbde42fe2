#include "engine/whatif/two_tunings.h"

#include "engine/base/units.h"
#include "tests/support.h"

#include <cmath>

using namespace counterpull;
using namespace counterpull::test;

namespace {

// The light set level in E, and the lowest string let down a tone: two tunings of one guitar.
Setup to_drop_d() {
    Setup setup = light_set_level();
    setup.next.tuning = notes_of("D2 A2 D3 G3 B3 E4");
    return setup;
}

} // namespace

TEST_CASE(
    "between two tunings the tail goes where the bridge really goes, and stiffer springs move it less") {
    const Setup setup = to_drop_d();
    const Solution solution = solved(setup);
    const std::vector<TuningMove> moves = between_tunings(solution);
    REQUIRE(moves.size() >= 2);
    for (const TuningMove& move : moves) {
        // Carried out step by step with the model itself: level in the first, then in the second.
        const Assembly first = assembly_of(
            setup, {setup.next.strings, setup.now.tuning, setup.now.offset_cents, move.springs, Which::next});
        const Assembly second = assembly_of(setup, fitting_next(setup, move.springs));
        const Root turns = turns_for_attitude(first, solution.claw, 0.0);
        REQUIRE(turns.found());
        const Rest rest = rest_at_pitch(second, solution.claw.turned(turns.at), 0.0);
        CHECK(move.tail_m == Approx(tail_at_angle_m(second.bridge, rest.angle_rad)).margin(1e-9));
        CHECK(move.tail_m < 0.0); // slacker
        // By hand, to first order: the lost torque over the stiffness at pitch.
        const double lost = string_torque_at_pitch(second, Attitude(0.0)).value -
                            string_torque_at_pitch(first, Attitude(0.0)).value;
        const double slope = net_torque_at_pitch(second, solution.claw.turned(turns.at), 0.0).slope;
        CHECK(move.tail_m == Approx(-lost / slope * second.bridge.tail_m).epsilon(0.25));
    }
    for (std::size_t i = 1; i < moves.size(); ++i)
        CHECK(std::abs(moves[i].tail_m) >= std::abs(moves[i - 1].tail_m));
}

TEST_CASE("another set is named only where it moves less, and holds in both tunings") {
    const Setup setup = to_drop_d();
    const Solution solution = solved(setup);
    const std::vector<TuningMove> moves = between_tunings(solution);
    const auto better = set_that_moves_least(solution, moves.front());
    REQUIRE(better); // the light set is not the stillest of the presets
    CHECK_FALSE(better->set.empty());
    CHECK(std::abs(better->tail_m) < std::abs(moves.front().tail_m));
    TuningMove still = moves.front();
    still.tail_m = 0.0;
    CHECK_FALSE(set_that_moves_least(solution, still));
}

TEST_CASE("one tuning has nothing between") {
    const Setup setup = light_set_level();
    CHECK(between_tunings(solved(setup)).empty());
    Setup sharps = to_drop_d(), flats = to_drop_d();
    sharps.now.tuning = notes_of("D#2 G#2 C#3 F#3 A#3 D#4");
    sharps.next.tuning = notes_of("Eb2 Ab2 Db3 Gb3 Bb3 Eb4");
    CHECK(between_tunings(solved(sharps)).empty()); // spelt otherwise
    flats.now.tuning = sharps.now.tuning;
    CHECK_FALSE(between_tunings(solved(flats)).empty());
}

TEST_CASE("a bridge that is to rest on the body does not go anywhere between two tunings") {
    Setup setup = to_drop_d();
    setup.next.rest = RestWanted::on_the_body;
    CHECK(between_tunings(solved(setup)).empty());
}
