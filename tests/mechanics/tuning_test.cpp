// How a floating bridge tunes. Common practice, no source: several passes are needed after a quarter turn,
// the low strings are off most, each pass leaves less. D. Hebenstreit, J. Acoust. Soc. Am. 143 (2018),
// abstract: repeated tuning converges, and fewer steps are possible.
#include "engine/mechanics/partials.h"
#include "engine/mechanics/tuning.h"
#include "tests/support.h"

#include <algorithm>
#include <cmath>
#include <numeric>

using namespace counterpull;
using namespace counterpull::test;

namespace {

struct Turned {
    Assembly assembly;
    ClawSetting claw;
    Strung strung;
};

// The level nine-gauge set after a turn of both screws, nothing retuned.
Turned after(double turns) {
    const Setup setup = light_set_level();
    Turned turned{assembly_of(setup, fitting_now(setup)), {}, {}};
    turned.claw = answered(setup).now.claw.turned(turns);
    turned.strung.lengths_m = lengths_at_pitch(turned.assembly, Attitude(0.0));
    turned.strung = settled(turned.assembly, turned.claw, turned.strung);
    return turned;
}

double worst(const std::vector<double>& cents) {
    double most = 0.0;
    for (const double c : cents)
        most = std::max(most, std::abs(c));
    return most;
}

} // namespace

TEST_CASE("after a quarter turn several plain passes are needed, and each leaves less") {
    for (const double turns : {-0.25, 0.25}) {
        const Turned guitar = after(turns);
        const std::vector<Pass> passes = plain_tuning(guitar.assembly, guitar.claw, guitar.strung);
        CHECK(passes.size() >= 3);
        CHECK(passes.size() <= 12);
        for (std::size_t i = 1; i < passes.size(); ++i)
            CHECK(worst(passes[i].cents) < worst(passes[i - 1].cents));
        CHECK(worst(passes.back().cents) <= in_tune_cents);
        // The lowest strings, tuned first, are off most after a pass.
        const std::vector<double>& first = passes.front().cents;
        CHECK(std::abs(first[0]) > std::abs(first[1]));
        CHECK(std::abs(first[1]) > std::abs(first[4]));
        CHECK(first[5] == Approx(0.0).margin(1e-6)); // the last one tuned
    }
}

TEST_CASE("repeated tuning ends where the balance at pitch is, in any order") {
    const Turned guitar = after(0.25);
    const double at_pitch =
        tail_at_angle_m(guitar.assembly.bridge, rest_at_pitch(guitar.assembly, guitar.claw, 0.0).angle_rad);
    for (const std::vector<int>& order : {std::vector<int>{}, {5, 4, 3, 2, 1, 0}, {2, 3, 1, 4, 0, 5}}) {
        Strung strung = guitar.strung;
        for (int pass = 0; pass < 40; ++pass)
            strung = after_pass(guitar.assembly, guitar.claw, strung, order);
        CHECK(tail_at_angle_m(guitar.assembly.bridge, strung.angle_rad) == Approx(at_pitch).margin(1e-8));
    }
}

TEST_CASE("in tune nothing has to be done") {
    const Turned guitar = after(0.0);
    CHECK(passes_needed(guitar.assembly, guitar.claw, guitar.strung) == 0);
}

TEST_CASE("given the lengths of the end, one pass lands every string") {
    const Turned guitar = after(0.5);
    const Rest end = rest_at_pitch(guitar.assembly, guitar.claw, 0.0);
    const Aims aims = one_pass(guitar.assembly, guitar.claw, guitar.strung,
                               lengths_at_pitch(guitar.assembly, Attitude(end.angle_rad)));
    // Done as a player does it: each string, lowest first, tuned until the tuner shows its aim.
    Strung strung = guitar.strung;
    for (int i = 0; i < guitar.assembly.string_count; ++i) {
        const auto index = static_cast<std::size_t>(i);
        const double aim_hz =
            guitar.assembly.strings[index].frequency_hz * std::exp2(aims.cents[index] / 1200.0);
        const Tuners tuners = one_at_pitch(strung.lengths_m, i, aim_hz);
        strung.angle_rad = rest(guitar.assembly, tuners, guitar.claw, strung.angle_rad).angle_rad;
        strung.lengths_m = lengths_as_tuned(guitar.assembly, tuners, Attitude(strung.angle_rad));
    }
    CHECK(worst(cents_shown(guitar.assembly, strung.lengths_m, Attitude(strung.angle_rad))) < 0.01);
    CHECK(aims.cents.back() == Approx(0.0).margin(1e-6));
    CHECK(aims.most_strength < 0.6);
    CHECK_FALSE(aims.against_stop);
}

TEST_CASE("slack strings hang on the lower stop and pull nothing there") {
    const Setup setup = light_set_level();
    const Assembly assembly = assembly_of(setup, fitting_now(setup));
    const Strung strung = slack(assembly);
    CHECK(strung.angle_rad == Approx(lowest_angle_rad(assembly.bridge)));
    CHECK(string_torque_free(assembly, strung.lengths_m, Attitude(strung.angle_rad)).value ==
          Approx(0.0).margin(1e-9));
}

TEST_CASE("how long a string is when slack hangs on where its ends are, not on what it is made of") {
    const Setup setup = light_set_level();
    const Assembly assembly = assembly_of(setup, fitting_now(setup));
    const StringLengths lengths = slack(assembly).lengths_m;
    Assembly other = assembly;
    other.strings[2].mechanics.unit_weight_kg_m *= 1.1;
    other.strings[2].mechanics.axial_stiffness_n *= 1.1;
    other.strings[2].mechanics.bending_stiffness_n_m2 *= 1.1;
    CHECK(slack(other).lengths_m == lengths);
    const StringPartials by =
        slack_partials(assembly.strings[2], Attitude(lowest_angle_rad(assembly.bridge)));
    CHECK(by.unit_weight == 0.0);
    CHECK(by.axial_stiffness == 0.0);
    CHECK(by.bending_stiffness == 0.0);
    other.strings[2].dead_m += 1e-3;
    CHECK(by.dead * 1e-3 == Approx(slack(other).lengths_m[2] - lengths[2]));
}
