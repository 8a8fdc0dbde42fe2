#include "engine/whatif/screw_load.h"

#include "engine/base/units.h"

#include <cmath>

namespace counterpull {

ScrewLoads screw_loads(const Stand& stand) {
    const Assembly& assembly = stand.assembly;
    const double span = assembly.claw.screw_span_m;
    const Point hole = stand.attitude().of(assembly.bridge.block());
    ScrewLoads loads;
    for (const SpringOnBridge& on : assembly.sprung()) {
        const double length = spring_length_m(assembly, on, stand.claw, stand.attitude());
        const double along = (hook_at(assembly.claw, stand.claw, on.hook_z_m).x - hole.x) / length;
        const double pull = spring_force_n(on.spring, length) * along;
        const double treble = (on.hook_z_m + 0.5 * span) / span;
        loads.treble_n += treble * pull;
        loads.bass_n += (1.0 - treble) * pull;
    }
    return loads;
}

double withdrawal_n(double shank_m, double thread_m, double gravity) {
    return end_grain_share * 108.25 * gravity * gravity * mm_from_metres(shank_m) * mm_from_metres(thread_m);
}

double shank_of_pitch_m(double pitch_m) {
    struct Screw {
        double threads_per_inch, shank_in;
    };
    static constexpr Screw screws[] = {{18.0, 0.138}, {15.0, 0.164}, {13.0, 0.190}};
    const Screw* nearest = screws;
    for (const Screw& screw : screws)
        if (std::abs(metres_per_inch / screw.threads_per_inch - pitch_m) <
            std::abs(metres_per_inch / nearest->threads_per_inch - pitch_m))
            nearest = &screw;
    return metres_from_inches(nearest->shank_in);
}

} // namespace counterpull
