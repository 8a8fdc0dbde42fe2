#include "engine/advice/advice.h"
#include "engine/belief/standing.h"
#include "engine/belief/turns_spread.h"
#include "tests/support.h"

#include <cmath>
#include <random>

using namespace counterpull;
using namespace counterpull::test;

namespace {

// The full calculation, drawn: every unknown from its prior, kept as often as a guitar that stands in tune is
// so (standing.h), the claw inferred anew, the turns solved anew.
double drawn_sigma(const Setup& setup, const Advice& advice, int draws) {
    const Belief belief(setup);
    std::mt19937_64 random(11);
    std::normal_distribution<double> normal;
    double sum = 0.0, squares = 0.0;
    int count = 0, kept = 0;
    const Standing standing(belief);
    std::uniform_real_distribution<double> share;
    while (kept < draws) {
        Deviations z{};
        for (int u = 0; u < most_unknowns; ++u)
            if (belief.used(u))
                z[static_cast<std::size_t>(u)] = normal(random);
        const auto stands = standing.residual(z);
        if (!stands || share(random) > std::exp(-0.5 * *stands * *stands))
            continue;
        ++kept;
        Problems problems;
        const auto claw = belief.claw(belief.assembly(fitting_now(setup), z), z, problems);
        if (!claw)
            continue;
        const Assembly next = belief.assembly(fitting_next(setup, advice.springs), z);
        const Root root = turns_to_balance(next, *claw, Attitude(advice.angle_rad),
                                           torque_to_balance_nm(setup, next, advice.angle_rad));
        if (!root.found())
            continue;
        sum += root.at;
        squares += root.at * root.at;
        ++count;
    }
    REQUIRE(count > draws * 95 / 100);
    return std::sqrt(squares / count - (sum / count) * (sum / count));
}

} // namespace

TEST_CASE("the spread of the turns agrees with ten thousand guitars drawn from the priors") {
    for (const char* name : {"small-sag", "lower-and-heavier", "six-screw-plate", "seven-strings-two-scales",
                             "strings-are-off"}) {
        Setup setup = example(name);
        setup.log.clear();
        const Report report = answered(setup);
        for (const Advice& advice : report.solution.advice) {
            if (!advice.fits())
                continue;
            INFO(name << ", " << advice.springs.size() << " springs, " << *advice.turns << " ± "
                      << advice.turns_sigma);
            // Linear propagation against skewed distributions (20 to 40 % spreads): a tenth.
            CHECK(drawn_sigma(setup, advice, 10000) == Approx(advice.turns_sigma).epsilon(0.1));
        }
    }
}

TEST_CASE("small spreads are propagated exactly") {
    Setup setup = example("lower-and-heavier");
    for (const char* path : {"spring.rate_n_mm", "spring.initial_tension_n", "bridge.saddle_height_mm",
                             "bridge.saddle_setback_mm", "bridge.block_depth_mm", "bridge.block_setback_mm",
                             "bay.screw_pitch_mm"})
        setup.guitar.basis.push_back({path, Basis::measured});
    const Advice advice = answered(setup).solution.advice[0];
    CHECK(drawn_sigma(setup, advice, 10000) == Approx(advice.turns_sigma).epsilon(0.03));
}

TEST_CASE("measuring makes the turns surer, guessing less sure") {
    Setup setup = example("lower-and-heavier");
    const double usual = answered(setup).solution.advice[0].turns_sigma;
    setup.guitar.basis = {{"spring.rate_n_mm", Basis::measured}};
    CHECK(answered(setup).solution.advice[0].turns_sigma < 0.85 * usual);
    setup.guitar.basis = {{"spring.rate_n_mm", Basis::guess}};
    CHECK(answered(setup).solution.advice[0].turns_sigma > 1.15 * usual);
}

TEST_CASE("a turn's spread is the same from either side: each unknown's part moves the turns as solving anew "
          "does") {
    const Setup setup = example("lower-and-heavier");
    const Belief belief(setup);
    const Report report = answered(setup);
    const Advice& advice = report.solution.advice[0];
    for (int u = 0; u < most_unknowns; ++u) {
        if (!belief.used(u))
            continue;
        auto solved = [&](double amount) {
            Deviations z{};
            z[static_cast<std::size_t>(u)] = amount;
            Problems problems;
            const auto claw = belief.claw(belief.assembly(fitting_now(setup), z), z, problems);
            REQUIRE(claw);
            const Assembly next = belief.assembly(fitting_next(setup, advice.springs), z);
            return turns_for_attitude(next, *claw, advice.angle_rad).at;
        };
        INFO("unknown " << u);
        CHECK((solved(0.01) - solved(-0.01)) / 0.02 ==
              Approx(advice.turns_per[static_cast<std::size_t>(u)]).epsilon(1e-3).margin(1e-6));
    }
}
