#include "engine/mechanics/bridge.h"

#include <cmath>

namespace counterpull {

Attitude::Attitude(double angle_rad) : sine(std::sin(angle_rad)), cosine(std::cos(angle_rad)) {}

Reach reach(Point fixed, Point level, double across_m, const Attitude& attitude) {
    const Point moved = attitude.of(level);
    const double along = fixed.x - moved.x;
    const double up = fixed.y - moved.y;
    const double length = std::sqrt(along * along + up * up + across_m * across_m);
    const double slope = (fixed.y * moved.x - fixed.x * moved.y) / length;
    const double curvature = (fixed.x * moved.x + fixed.y * moved.y - slope * slope) / length;
    return {length, slope, curvature};
}

ReachPerShift reach_per_fixed(const Reach& at, Point fixed, Point level, const Attitude& attitude) {
    const Point moved = attitude.of(level);
    const Point length{(fixed.x - moved.x) / at.length_m, (fixed.y - moved.y) / at.length_m};
    return {length,
            {(-moved.y - length.x * at.per_rad_m) / at.length_m,
             (moved.x - length.y * at.per_rad_m) / at.length_m}};
}

ReachPerShift reach_per_level(const Reach& at, Point fixed, Point level, const Attitude& attitude) {
    const double c = attitude.cosine, s = attitude.sine;
    const Point length{(level.x - c * fixed.x + s * fixed.y) / at.length_m,
                       (level.y - s * fixed.x - c * fixed.y) / at.length_m};
    return {length,
            {(s * fixed.x + c * fixed.y - length.x * at.per_rad_m) / at.length_m,
             (s * fixed.y - c * fixed.x - length.y * at.per_rad_m) / at.length_m}};
}

double tail_at_angle_m(const Bridge& bridge, double angle_rad) {
    return bridge.tail_m * std::sin(angle_rad);
}

double angle_at_tail_rad(const Bridge& bridge, double tail_m) {
    return std::asin(tail_m / bridge.tail_m);
}

double lowest_angle_rad(const Bridge& bridge) {
    return angle_at_tail_rad(bridge, bridge.tail_low_m);
}

double highest_angle_rad(const Bridge& bridge) {
    return angle_at_tail_rad(bridge, bridge.tail_high_m);
}

double turns_at(const Claw& claw, const ClawSetting& setting, double hook_z_m) {
    const double share = hook_z_m / claw.screw_span_m + 0.5; // 0 at the bass screw, 1 at the treble screw
    return setting.bass_turns + share * (setting.treble_turns - setting.bass_turns);
}

Point hook_at(const Claw& claw, const ClawSetting& setting, double hook_z_m) {
    return {setting.x_m + turns_at(claw, setting, hook_z_m) * claw.screw_pitch_m, -claw.depth_m};
}

} // namespace counterpull
