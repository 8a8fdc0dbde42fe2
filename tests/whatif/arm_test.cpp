#include "engine/whatif/arm.h"

#include "engine/base/pitch.h"
#include "engine/base/units.h"
#include "tests/support.h"

#include <algorithm>
#include <cmath>

using namespace counterpull;
using namespace counterpull::test;

namespace {

Stand level() {
    return standing_now(light_set_level());
}

double relative_change(const Stand& stand, std::size_t string, double theta) {
    const StringOnBridge& on = stand.assembly.strings[string];
    const double length = speaking_length_m(on, Attitude(theta));
    const double tension = tension_at_length_n(on.mechanics, stand.lengths_m[string], length + on.dead_m);
    return pitch_at_tension_hz(on.mechanics, tension, length) / on.frequency_hz - 1.0;
}

} // namespace

// Kemp 2017, in this frame: level, L' = −h (S moves by (h, setback) per rad, the nut lies h above the pivot),
// so ΔT = EA L' θ/n, and with T = EA ((L + dead)/n − 1) small, n ≈ L + dead: Δf/f = ½ ΔT/T = −h θ EA/(2 T (L
// + dead)). The speaking length's own change, −½ L'/L… = + h θ/L of f, and stretch and stiffness are left out
// by him: they are below 1 % of it here.
TEST_CASE("for one small angle the pitches part as Kemp's formula says, in the order of EA/T") {
    const Stand stand = level();
    const double theta = 1e-4;
    for (std::size_t i = 0; i < 6; ++i) {
        const StringOnBridge& on = stand.assembly.strings[i];
        const double at_rest = tension_at_pitch_n(on, stand.attitude());
        const double kemp = -on.saddle_height_m * theta * on.mechanics.axial_stiffness_n /
                            (2.0 * at_rest * (on.scale_m + on.dead_m));
        CHECK(relative_change(stand, i, theta) == Approx(kemp).epsilon(0.02));
    }
    // On saddles and ends all alike the order is that of EA/T.
    Assembly alike = stand.assembly;
    for (StringOnBridge& on : alike.strings) {
        on.saddle_height_m = 8.5e-3;
        on.saddle_setback_m = 13e-3;
        on.dead_m = 8e-3;
    }
    const Stand even = standing(alike, stand.claw, 0.0);
    std::vector<std::pair<double, double>> by_stiffness; // EA/T, relative change
    for (std::size_t i = 0; i < 6; ++i)
        by_stiffness.emplace_back(alike.strings[i].mechanics.axial_stiffness_n /
                                      tension_at_pitch_n(alike.strings[i], Attitude(0.0)),
                                  relative_change(even, i, theta));
    std::sort(by_stiffness.begin(), by_stiffness.end());
    for (std::size_t i = 1; i < 6; ++i)
        CHECK(by_stiffness[i].second < by_stiffness[i - 1].second);
}

TEST_CASE("the arm's range runs from stop to stop through rest, and strings end where they are slack") {
    const Stand stand = level();
    const ArmRange range = arm_range(stand);
    REQUIRE(range.samples.size() == arm_samples);
    CHECK(range.samples.front().tail_m == Approx(stand.assembly.bridge.tail_low_m));
    CHECK(range.samples.back().tail_m == Approx(stand.assembly.bridge.tail_high_m));
    for (std::size_t i = 0; i < 6; ++i) {
        const ArmString& string = range.strings[i];
        CHECK(string.up_cents > 0.0);
        for (std::size_t s = 1; s < range.samples.size(); ++s)
            if (range.samples[s].cents[i])
                CHECK(*range.samples[s].cents[i] < *range.samples[s - 1].cents[i]);
        if (!string.slack_rad) {
            CHECK(*string.down_cents < -100.0);
            continue;
        }
        CHECK_FALSE(string.down_cents);
        const StringOnBridge& on = stand.assembly.strings[i];
        CHECK(speaking_length_m(on, Attitude(*string.slack_rad)) + on.dead_m ==
              Approx(stand.lengths_m[i]).epsilon(1e-9));
    }
}

// By hand: the string is slack where it is shorter by what its tension stretched it, T/EA · n; for a small
// angle it gets shorter by h θ, so θ ≈ T n/(EA h). The saddle's rising way (setback θ²/2 …) makes it a little
// more.
TEST_CASE("a string goes slack about where its stretch is used up") {
    const Stand stand = level();
    const ArmRange range = arm_range(stand);
    int slack = 0;
    for (std::size_t i = 0; i < 6; ++i) {
        const StringOnBridge& on = stand.assembly.strings[i];
        if (!range.strings[i].slack_rad)
            continue;
        ++slack;
        const double h = on.saddle_height_m, s = on.saddle_setback_m;
        const double used =
            tension_at_pitch_n(on, stand.attitude()) * stand.lengths_m[i] / on.mechanics.axial_stiffness_n;
        CHECK(*range.strings[i].slack_rad ==
              Approx((std::sqrt(h * h + 2.0 * s * used) - h) / s).epsilon(0.02));
    }
    CHECK(slack >= 3);
}

// Common practice: a chord does not glide evenly; thin plain strings go least for their pull.
TEST_CASE("a chord spreads under the arm") {
    const ArmRange range = arm_range(level());
    const auto semitone = chord_spread_cents(range, -100.0), tone = chord_spread_cents(range, -200.0);
    REQUIRE(semitone);
    REQUIRE(tone);
    CHECK(*semitone > 50.0);
    CHECK(*tone > *semitone);
    CHECK(chord_spread_cents(range, 0.0).value() ==
          Approx(0.0).margin(15.0)); // rest lies between two samples
    CHECK_FALSE(chord_spread_cents(range, -20000.0));
    CHECK_FALSE(chord_spread_cents({}, -100.0));
}
