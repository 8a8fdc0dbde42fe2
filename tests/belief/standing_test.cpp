#include "engine/base/units.h"
#include "engine/belief/standing.h"
#include "tests/support.h"

#include <cmath>

using namespace counterpull;
using namespace counterpull::test;

namespace {

// The tail per turn that the whole calculation tells for 10–46 in E on three springs, level.
double told_per_turn_m(Setup setup) {
    setup.now.strings = setup.next.strings = set_of("46w 36w 26w 17 13 10");
    setup.now.tuning = setup.next.tuning = notes_of("E2 A2 D3 G3 B3 E4");
    setup.now.springs = {{0, 0, {}}, {2, 2, {}}, {4, 4, {}}};
    setup.now.tail_mm = setup.next.tail_mm = 0.0;
    return advice_on(answered(setup), setup.now.springs).per_turn_m;
}

} // namespace

TEST_CASE("what standing in tune says is how the logarithm of the tail per turn moves") {
    // Whatever is on the guitar: here 9–42 on it, 11–49 wanted.
    Setup setup = light_set_level();
    setup.next.strings = set_of("49w 38w 28w 18 14 11");
    const Belief belief(setup);
    struct Part {
        Unknown unknown;
        double* number;
    };
    for (const Part& part : {Part{Unknown::spring_rate, &setup.guitar.spring.rate_n_mm},
                             Part{Unknown::initial_tension, &setup.guitar.spring.initial_tension_n},
                             Part{Unknown::free_length, &setup.guitar.spring.free_length_mm},
                             Part{Unknown::block_depth, &setup.guitar.bridge.block_depth_mm},
                             Part{Unknown::block_setback, &setup.guitar.bridge.block_setback_mm},
                             Part{Unknown::screw_pitch, &setup.guitar.bay.screw_pitch_mm}}) {
        const double number = *part.number, step = 0.01;
        *part.number = belief.spread(part.unknown).at(number, step);
        const double more = told_per_turn_m(setup);
        *part.number = belief.spread(part.unknown).at(number, -step);
        const double less = told_per_turn_m(setup);
        *part.number = number;
        INFO(static_cast<int>(part.unknown));
        CHECK(belief.standing()[static_cast<std::size_t>(part.unknown)] ==
              Approx(std::log(more / less) / (2.0 * step) / usual_per_turn_sigma).epsilon(1e-3).margin(1e-5));
    }
}

TEST_CASE("a guitar that stands in tune is surer than its numbers one by one, and its mean is the numbers") {
    const Setup setup = light_set_level();
    const Belief belief(setup);
    CHECK(belief.mean() == Deviations{});
    // (1 + a aᵀ)⁻¹ along a: 1/√(1 + a·a) of what it was.
    double size = 0.0;
    for (const double a : belief.standing())
        size += a * a;
    CHECK(size > 1.0); // ln s alone would be unsure by more than 0.35
    CHECK(belief.sigma_of(belief.standing()) == Approx(std::sqrt(size / (1.0 + size))).epsilon(1e-9));
    // At no deviation nothing is off; a weaker spring makes a softer float, up to one that runs away.
    const Standing standing(belief);
    CHECK(standing.residual({}) == Approx(0.0).margin(1e-12));
    Deviations weak{};
    weak[static_cast<std::size_t>(Unknown::spring_rate)] = -2.0;
    REQUIRE(standing.residual(weak));
    CHECK(*standing.residual(weak) > 0.5);
    weak[static_cast<std::size_t>(Unknown::spring_rate)] = -8.0;
    CHECK_FALSE(standing.residual(weak));
}

TEST_CASE("how a guitar stands in tune does not hang on how far apart its holes and hooks are") {
    Setup setup = light_set_level();
    const Belief straight(setup);
    for (double& hook_mm : setup.guitar.bay.hook_mm)
        hook_mm *= 1.5;
    const Belief splayed(setup);
    for (int u = 0; u < common_unknowns; ++u)
        CHECK(splayed.standing()[static_cast<std::size_t>(u)] ==
              Approx(straight.standing()[static_cast<std::size_t>(u)]).margin(1e-9));
}
