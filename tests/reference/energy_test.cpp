// Statics from another side: with the tuners untouched everything is elastic, and the torque is minus the
// derivative of the stored energy by the angle.
#include "engine/mechanics/balance.h"
#include "tests/reference/random_setup.h"
#include "tests/support.h"

#include <cmath>

using namespace counterpull;
using namespace counterpull::test;

namespace {

// Tension EA(ℓ/n − 1) stores EA/(2n)·(ℓ − n)²; an open spring F0(ℓ − ℓ0) + k(ℓ − ℓ0)²/2; weight lifts m g y.
double stored_energy(const Assembly& a, const StringLengths& lengths, const ClawSetting& claw, double angle) {
    const Attitude attitude(angle);
    double energy = 0.0;
    for (std::size_t i = 0; i < a.strung().size(); ++i) {
        const StringOnBridge& s = a.strings[i];
        const double stretch = speaking_length_m(s, attitude) + s.dead_m - lengths[i];
        if (stretch > 0.0)
            energy += s.mechanics.axial_stiffness_n / (2.0 * lengths[i]) * stretch * stretch;
    }
    for (const SpringOnBridge& s : a.sprung()) {
        const double open = spring_length_m(a, s, claw, attitude) - s.spring.free_length_m;
        if (open > 0.0)
            energy += s.spring.initial_tension_n * open + 0.5 * s.spring.rate_n_m * open * open;
    }
    return energy + a.bridge.weight_n * attitude.of({-a.bridge.weight_setback_m, 0.0}).y;
}

} // namespace

TEST_CASE("with the tuners untouched the torque is minus the slope of the stored energy") {
    // Tolerance: 1e-6 of the strings' torque, what a central difference over 2e-5 rad leaves.
    int compared = 0;
    for (std::uint64_t seed = 1000; seed < 1100; ++seed) {
        const SetupRead read = read_setup(reference::random_setup(seed).dump());
        REQUIRE(read.setup);
        const ReportResult result = report(*read.setup);
        if (!result.report || !read.setup->now.in_tune)
            continue;
        const Setup& setup = *read.setup;
        const Assembly assembly = assembly_of(setup, fitting_now(setup));
        const ClawSetting claw = result.report->now.claw;
        const double start = angle_of_tail_rad(setup, setup.now.tail_mm);
        const StringLengths lengths = lengths_at_pitch(assembly, Attitude(start));
        const double scale = string_torque_scale_nm(assembly, Attitude(start));
        for (const double away : {-0.03, 0.0, 0.04}) {
            const double angle = start + away, d = 1e-5;
            bool near_closing = false;
            for (const SpringOnBridge& s : assembly.sprung())
                near_closing = near_closing || std::abs(spring_length_m(assembly, s, claw, Attitude(angle)) -
                                                        s.spring.free_length_m) < 1e-5;
            if (near_closing)
                continue;
            ++compared;
            const double slope = (stored_energy(assembly, lengths, claw, angle + d) -
                                  stored_energy(assembly, lengths, claw, angle - d)) /
                                 (2 * d);
            INFO("seed " << seed << " at " << angle);
            CHECK(std::abs(net_torque_free(assembly, lengths, claw, angle).value + slope) < 1e-6 * scale);
        }
    }
    CHECK(compared > 100);
}
