#include "engine/advice/worth.h"
#include "engine/say/answer.h"
#include "engine/say/words.h"
#include "tests/support.h"

#include <cmath>

using namespace counterpull;
using namespace counterpull::test;

TEST_CASE("what is worth measuring stands in order, and what comes first makes the turns surest") {
    const Report report = answered(example("lower-and-heavier"));
    double last = 1e9;
    for (const Worth& worth : report.worth) {
        CHECK(worth.turns <= last);
        last = worth.turns;
        if (worth.unknown == Unknown::weights) // of all strings together: no number that could be a unit more
            CHECK(worth.turns_per_unit == 0.0);
    }
    // They do not add up by squares: a guitar that stands in tune is surer than its numbers one by one.
    const auto measured = [](const char* path) {
        Setup setup = example("lower-and-heavier");
        setup.guitar.basis.push_back({path, Basis::measured});
        return answered(setup).solution.advised().turns_sigma;
    };
    CHECK(measured("spring.rate_n_mm") < measured("bridge.block_depth_mm"));
    CHECK(measured("bridge.block_depth_mm") <= report.solution.advised().turns_sigma);
    CHECK(report.worth[0].unknown == Unknown::spring_rate); // a spring more hangs on what springs pull
    const auto matters = what_matters_most(report);
    REQUIRE(matters);
    CHECK(english().say(*matters).find("spring rate") != std::string::npos);
}

TEST_CASE("a unit more counts as it moves the number where it is believed to be") {
    const Report report = answered(example("three-readings-in"));
    const Belief& belief = report.solution.belief();
    const double typed = report.solution.setup().guitar.spring.rate_n_mm;
    const auto unknown = static_cast<std::size_t>(Unknown::spring_rate);
    REQUIRE(belief.mean()[unknown] != 0.0);
    const Spread spread = belief.spread(Unknown::spring_rate);
    const double per_unit =
        report.solution.advised().turns_per[unknown] * 2e-6 /
        (spread.at(typed, belief.mean()[unknown] + 1e-6) - spread.at(typed, belief.mean()[unknown] - 1e-6));
    for (const Worth& worth : report.worth)
        if (worth.unknown == Unknown::spring_rate)
            CHECK(worth.turns_per_unit == Approx(per_unit).epsilon(1e-6));
}

TEST_CASE("a millimetre more at the saddles does to the turns what it is said to") {
    const Setup setup = example("lower-and-heavier");
    const Report report = answered(setup);
    for (const Worth& worth : report.worth) {
        Setup other = setup;
        constexpr double little = 0.01;
        switch (worth.unknown) {
        case Unknown::saddle_height:
            // A common factor moves a common mean by a millimetre.
            for (double& mm : other.guitar.bridge.saddle_height_mm.values)
                mm += little;
            break;
        case Unknown::block_depth:
            other.guitar.bridge.block_depth_mm += little;
            break;
        case Unknown::spring_rate:
            other.guitar.spring.rate_n_mm += little;
            break;
        case Unknown::tail_now:
            other.now.tail_mm += little;
            break;
        default:
            continue;
        }
        const Report moved = answered(other);
        REQUIRE(moved.solution.advice[0].springs == report.solution.advice[0].springs);
        INFO("unknown " << static_cast<int>(worth.unknown));
        CHECK((*moved.solution.advice[0].turns - *report.solution.advice[0].turns) / little ==
              Approx(worth.turns_per_unit).epsilon(0.02).margin(1e-3));
    }
}
