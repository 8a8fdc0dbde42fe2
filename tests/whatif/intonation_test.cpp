#include "engine/whatif/intonation.h"

#include "engine/base/pitch.h"
#include "engine/base/units.h"
#include "tests/support.h"

#include <cmath>

using namespace counterpull;
using namespace counterpull::test;

namespace {

Assembly light() {
    const Setup setup = light_set_level();
    return assembly_of(setup, fitting_now(setup));
}

} // namespace

// By hand: a saddle 15 mm behind the pivot rises by 15 mm · θ; over the 12th fret half of that. A tail of 50
// mm raised by 1 mm is θ = 0.02: 0.15 mm.
TEST_CASE("the string rises over the 12th fret by half of what its saddle rises") {
    StringOnBridge string = light().strings[0];
    string.saddle_setback_m = 15e-3;
    string.saddle_height_m = 8.5e-3;
    CHECK(height_change_m(string, 0.0, string, 0.02) == Approx(0.15e-3).epsilon(0.02));
    CHECK(height_change_m(string, 0.0, string, -0.04) == Approx(-0.30e-3).epsilon(0.03));
    CHECK(height_change_m(string, 0.02, string, 0.02) == 0.0);
    CHECK(usual_height_m(0, 6) == height_of_lowest_m);
    CHECK(usual_height_m(5, 6) == height_of_highest_m);
}

// From first principles, nothing of it in the formula: where the saddle stands x further back, the open
// string is at pitch on L + x; pressed down by a at the 12th fret (L/2 from the nut) it is longer by two
// hypotenuses and sounds on what is left of it, with its stiffness on that. x by bisection until that is the
// octave.
TEST_CASE("compensation is where the octave comes out, by solving for it") {
    const Assembly assembly = light();
    for (std::size_t i = 0; i < 6; ++i) {
        const StringOnBridge& on = assembly.strings[i];
        const double height = 1.5e-3, scale = on.scale_m;
        auto off = [&](double x) {
            const double open = scale + x;
            const double tension = tension_at_pitch_n(on.mechanics, on.frequency_hz, open);
            const double n = unstretched_length_m(on.mechanics, tension, open + on.dead_m);
            const double near_nut = std::hypot(0.5 * scale, height),
                         sounding = std::hypot(0.5 * scale + x, height);
            const double pressed = tension_at_length_n(on.mechanics, n, near_nut + sounding + on.dead_m);
            return cents_between(2.0 * on.frequency_hz, pitch_at_tension_hz(on.mechanics, pressed, sounding));
        };
        double low = 0.0, high = 20e-3;
        REQUIRE(off(low) > 0.0);
        REQUIRE(off(high) < 0.0);
        while (high - low > 1e-9)
            (off(0.5 * (low + high)) > 0.0 ? low : high) = 0.5 * (low + high);
        const Compensation found = compensation(on, 0.0, height);
        INFO("string at place " << i << ": " << low * 1e3 << " mm");
        CHECK(found.saddle_back_m == Approx(low).epsilon(0.03));
        CHECK(found.stretch_cents + found.stiffness_cents == Approx(off(0.0)).epsilon(0.03));
    }
}

// Common practice: a plain third string, thick for its pull, wants its saddle further back than the thin
// first one, and a slacker or thicker set wants all of them further back.
TEST_CASE("thicker and slacker strings want their saddles further back") {
    const Assembly assembly = light();
    const double first = compensation(assembly.strings[5], 0.0, 1.6e-3).saddle_back_m;
    const double third = compensation(assembly.strings[3], 0.0, 1.6e-3).saddle_back_m;
    CHECK(third > 2.0 * first);
    StringOnBridge lower = assembly.strings[3];
    lower.frequency_hz *= 0.8;
    CHECK(compensation(lower, 0.0, 1.6e-3).saddle_back_m > third);
}
