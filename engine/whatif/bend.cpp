#include "engine/whatif/bend.h"

#include "engine/base/pitch.h"

#include <cmath>

namespace counterpull {

namespace {

// The bow's longer way raises the pitch needed, which raises the bow: each round leaves about a hundredth.
constexpr int rounds = 4;

double longer_by(double a, double b, double d) {
    return std::hypot(a, d) - a + std::hypot(b, d) - b;
}

// Newton on a convex function from above: it falls to the root without crossing it.
double travel_for(double a, double b, double longer) {
    if (longer <= 0.0)
        return 0.0;
    double d = std::sqrt(2.0 * longer / (1.0 / a + 1.0 / b)) * 1.2 + longer;
    for (int i = 0; i < 20; ++i)
        d -= (longer_by(a, b, d) - longer) / (d / std::hypot(a, d) + d / std::hypot(b, d));
    return d;
}

} // namespace

Bent bend(const Stand& stand, int string, double by_cents, BridgeKind bridge, double fret) {
    const auto place = static_cast<std::size_t>(string);
    const StringOnBridge& bent = stand.assembly.strings[place];
    Bent result{string, by_cents, {}, 0.0, 0.0, 0.0};
    double raised = by_cents;
    for (int round = 0; round < rounds; ++round) {
        const double pitch = bent.frequency_hz * std::exp2(raised / 1200.0);
        if (bridge == BridgeKind::floating)
            result.moved = moved(stand, one_at_pitch(stand.lengths_m, string, pitch));
        else
            result.moved = {stand.angle_rad, stand.tail_m(),
                            std::vector<std::optional<double>>(stand.assembly.strung().size(), 0.0)};
        const double open = speaking_length_m(bent, Attitude(result.moved.angle_rad));
        const double b = open * std::exp2(-fret / 12.0), a = open - b;
        result.tension_n = tension_at_pitch_n(bent.mechanics, pitch, open);
        const double stretched =
            stand.lengths_m[place] * (1.0 + result.tension_n / bent.mechanics.axial_stiffness_n);
        const double d = travel_for(a, b, stretched - (open + bent.dead_m));
        result.travel_m = d;
        result.force_n = result.tension_n * (d / std::hypot(a, d) + d / std::hypot(b, d));
        raised = by_cents + cents_between(b, std::hypot(b, d));
    }
    result.moved.cents[place] = by_cents;
    return result;
}

} // namespace counterpull
