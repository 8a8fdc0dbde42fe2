#include "engine/whatif/nut_lock.h"

#include <cmath>

namespace counterpull {

std::vector<FineTuner> fine_tuner_range(const Stand& clamped, double draw_m) {
    std::vector<FineTuner> all;
    for (std::size_t i = 0; i < clamped.assembly.strung().size(); ++i) {
        auto drawn = [&](double by) {
            StringLengths lengths = clamped.lengths_m;
            lengths[i] -= by;
            return moved(clamped, untouched(lengths)).cents[i];
        };
        all.push_back({drawn(draw_m), drawn(-draw_m)});
    }
    return all;
}

std::vector<std::optional<double>> aims_before_clamping(const Stand& clamped, double sharp_cents) {
    StringLengths before = clamped.lengths_m;
    for (std::size_t i = 0; i < clamped.assembly.strung().size(); ++i) {
        const StringOnBridge& string = clamped.assembly.strings[i];
        const double length = speaking_length_m(string, clamped.attitude());
        const double sharp = tension_at_pitch_n(
            string.mechanics, string.frequency_hz * std::exp2(sharp_cents / 1200.0), length);
        before[i] +=
            clamped.lengths_m[i] - unstretched_length_m(string.mechanics, sharp, length + string.dead_m);
    }
    return moved(clamped, untouched(before)).cents;
}

} // namespace counterpull
