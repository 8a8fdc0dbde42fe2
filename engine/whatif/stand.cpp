#include "engine/whatif/stand.h"

namespace counterpull {

Stand standing(const Assembly& assembly, const ClawSetting& claw, double angle_rad) {
    return {assembly, claw, angle_rad, lengths_at_pitch(assembly, Attitude(angle_rad))};
}

Moved moved(const Stand& stand, const Tuners& tuners) {
    const Rest to = rest(stand.assembly, tuners, stand.claw, stand.angle_rad);
    const Attitude attitude(to.angle_rad);
    Moved result{to.angle_rad, tail_at_angle_m(stand.assembly.bridge, to.angle_rad), {}};
    const StringLengths lengths = lengths_as_tuned(stand.assembly, tuners, attitude);
    const std::vector<double> shown = cents_shown(stand.assembly, lengths, attitude);
    for (std::size_t i = 0; i < shown.size(); ++i) {
        const StringOnBridge& string = stand.assembly.strings[i];
        const bool slack = tension_free_n(string, lengths[i], attitude) <= 0.0;
        result.cents.push_back(slack ? std::nullopt : std::optional(shown[i]));
    }
    return result;
}

} // namespace counterpull
