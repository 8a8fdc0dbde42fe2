#include "engine/document/ranges.h"

#include <array>
#include <cassert>

namespace counterpull {

namespace {

constexpr std::array ranges = {
    Range{"setup.a4_hz", 390, 470, 0},
    Range{"guitar.scale_mm", 300, 1000, 0},
    Range{"guitar.headstock_mm", 0, 400, 0},
    Range{"guitar.springs_owned", 1, 30, 0},
    Range{"bridge.saddle_height_mm", 2, 30, 0},
    Range{"bridge.saddle_setback_mm", -10, 80, 0},
    Range{"bridge.anchor_mm", 0, 150, 0},
    Range{"bridge.block_depth_mm", 10, 80, 0},
    Range{"bridge.block_setback_mm", -20, 50, 0},
    Range{"bridge.tail_mm", 10, 120, 0},
    Range{"bridge.tail_limits_mm", -60, 60, 0},
    Range{"bridge.mass_g", 0, 2000, 0},
    Range{"bridge.mass_setback_mm", -50, 100, 0},
    Range{"bay.hole_mm", -80, 80, 0},
    Range{"bay.hook_mm", -80, 80, 0},
    Range{"bay.claw_depth_mm", 5, 80, 0},
    Range{"bay.screw_span_mm", 10, 120, 0},
    Range{"bay.screw_pitch_mm", 0.3, 5, 1},
    Range{"bay.turns_in_left", 0, 40, 0},
    Range{"bay.turns_out_left", 0, 40, 0},
    Range{"spring.rate_n_mm", 0.1, 20, 1},
    Range{"spring.free_length_mm", 20, 150, 0},
    Range{"spring.initial_tension_n", 0, 60, 0},
    Range{"spring.longest_mm", 21, 300, 0},
    Range{"strings.gauge_in", 0.005, 0.150, 3},
    Range{"strings.core_in", 0.004, 0.100, 3},
    Range{"strings.unit_weight_g_m", 0.05, 80, 2},
    Range{"other.count", 1, 6, 0},
    Range{"place.hook", 0, 23, 0},
    Range{"place.hole", 0, 23, 0},
    Range{"now.offset_cents", -100, 100, 0},
    Range{"now.tail_mm", -60, 60, 0},
    Range{"now.tail_sides_mm", -60, 60, 0},
    Range{"now.spring_mm", 20, 300, 0},
    Range{"next.offset_cents", -100, 100, 0},
    Range{"next.tail_mm", -60, 60, 0},
    Range{"log.string", 1, 12, 0},
    Range{"log.by_cents", 1, 1200, 0},
    Range{"log.turns", -40, 40, 0},
    Range{"log.tail_mm", -60, 60, 0},
    Range{"log.cents", -2400, 2400, 0},
    Range{"log.aim_cents", -2400, 2400, 0},
};

} // namespace

const Range& range_of(std::string_view field) {
    for (const Range& range : ranges)
        if (range.field == field)
            return range;
    assert(false && "no range for this field");
    return ranges[0];
}

} // namespace counterpull
