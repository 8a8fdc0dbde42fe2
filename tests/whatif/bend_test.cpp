#include "engine/whatif/bend.h"

#include "engine/base/pitch.h"
#include "tests/support.h"

#include <cmath>

using namespace counterpull;
using namespace counterpull::test;

namespace {

Stand level() {
    return standing_now(light_set_level());
}

} // namespace

// By hand, small bends on a fixed bridge, without stiffness and the bow's longer way (Grimes 2014): T = μ (2
// L f)² makes the pull grow by 2 ln 2/1200 for each cent, so ΔT = T · c ln 2/600; the string gets longer by
// Δ = ΔT (L + dead)/EA; at the middle Δ = d² · 2/L; the finger holds F = T · 2 d/(L/2) = 4 T d/L.
TEST_CASE("a small bend on a fixed bridge takes what the simple formulas say") {
    const Stand stand = level();
    for (const int string : {5, 4, 3}) { // plain ones: hardly stiff
        const double c = 10.0;
        const StringOnBridge& on = stand.assembly.strings[static_cast<std::size_t>(string)];
        const double length = on.scale_m, tension = tension_at_pitch_n(on, stand.attitude());
        const double longer =
            tension * c * std::log(2.0) / 600.0 * (length + on.dead_m) / on.mechanics.axial_stiffness_n;
        const double way = std::sqrt(longer * length / 2.0);
        const Bent bent = bend(stand, string, c, BridgeKind::fixed);
        CHECK(bent.travel_m ==
              Approx(way).epsilon(0.02)); // the bow's longer way is 0.4 % here, stiffness less
        CHECK(bent.force_n == Approx(4.0 * tension * way / length).epsilon(0.03));
        CHECK(bent.moved.tail_m == 0.0);
        for (std::size_t i = 0; i < bent.moved.cents.size(); ++i)
            CHECK(*bent.moved.cents[i] == (static_cast<int>(i) == string ? c : 0.0));
    }
}

TEST_CASE("on a floating bridge a bend raises the tail, flattens the others, and takes a longer way") {
    const Stand stand = level();
    for (int string = 0; string < 6; ++string) {
        const Bent floating = bend(stand, string, 200.0),
                   fixed = bend(stand, string, 200.0, BridgeKind::fixed);
        CHECK(floating.moved.tail_m > 0.0); // common practice
        CHECK(floating.travel_m > fixed.travel_m);
        CHECK(floating.force_n > fixed.force_n);
        for (int other = 0; other < 6; ++other)
            if (other != string)
                CHECK(*floating.moved.cents[static_cast<std::size_t>(other)] < 0.0);
        CHECK(*floating.moved.cents[static_cast<std::size_t>(string)] == 200.0);
    }
}

// The strings' and springs' energy grows by the work of the finger: ∫ F dd, the trapezoid rule over small
// steps.
TEST_CASE("the finger's work is what strings and springs store") {
    const Stand stand = level();
    auto stored = [&](const Bent& bent, int bent_string) {
        const Attitude attitude(bent.moved.angle_rad);
        double energy = 0.0;
        for (int i = 0; i < 6; ++i) {
            const auto place = static_cast<std::size_t>(i);
            const StringOnBridge& on = stand.assembly.strings[place];
            const double n = stand.lengths_m[place], ea = on.mechanics.axial_stiffness_n;
            const double stretch =
                i == bent_string ? bent.tension_n * n / ea : speaking_length_m(on, attitude) + on.dead_m - n;
            energy += 0.5 * ea / n * stretch * stretch;
        }
        for (const SpringOnBridge& on : stand.assembly.sprung()) {
            const double open =
                spring_length_m(stand.assembly, on, stand.claw, attitude) - on.spring.free_length_m;
            energy += on.spring.initial_tension_n * open + 0.5 * on.spring.rate_n_m * open * open;
        }
        return energy;
    };
    for (const int string : {4, 2}) {
        constexpr int steps = 60;
        double work = 0.0;
        Bent before = bend(stand, string, 0.01), first = before;
        for (int i = 1; i <= steps; ++i) {
            const Bent bent = bend(stand, string, 0.01 + 200.0 * i / steps);
            work += 0.5 * (before.force_n + bent.force_n) * (bent.travel_m - before.travel_m);
            before = bent;
        }
        CHECK(work == Approx(stored(before, string) - stored(first, string)).epsilon(0.002));
    }
}

TEST_CASE("the string is as long as its tension makes it, at any fret") {
    const Stand stand = level();
    for (const double fret : {2.0, 7.0, 12.0, 17.0}) {
        const Bent bent = bend(stand, 3, 150.0, BridgeKind::floating, fret);
        const StringOnBridge& on = stand.assembly.strings[3];
        const double open = speaking_length_m(on, Attitude(bent.moved.angle_rad));
        const double b = open * std::exp2(-fret / 12.0), a = open - b, d = bent.travel_m;
        const double bowed = std::hypot(a, d) + std::hypot(b, d) + on.dead_m;
        CHECK(tension_at_length_n(on.mechanics, stand.lengths_m[3], bowed) ==
              Approx(bent.tension_n).epsilon(1e-4));
        // What sounds on the bowed part: 150 cents over the fret's own note, the open string's pitch raised
        // with it.
        const double heard = pitch_at_tension_hz(on.mechanics, bent.tension_n, open) * open /
                             (open + open * (std::hypot(b, d) / b - 1.0));
        CHECK(cents_between(on.frequency_hz, heard) == Approx(150.0).margin(0.1));
    }
}
