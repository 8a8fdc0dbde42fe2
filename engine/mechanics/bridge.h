// The bridge as a rigid body on its pivot, and the distances that change as it tilts.
//
// Frame (side view): x toward the nut, y away from the body, z from the bass side to the treble side. The
// origin is the pivot, the knife edge on its posts. `angle_rad` > 0 raises the tail, strings winning; 0 is
// level. A point of the bridge at (x, y) when level stands at
//     ( x cos θ + y sin θ,  −x sin θ + y cos θ ).
// Lengths in metres, angles in radians.
#pragma once

#include <array>

namespace counterpull {

inline constexpr int most_strings = 12;
inline constexpr int most_springs = 6;

struct Point {
    double x = 0.0;
    double y = 0.0;
};

// An attitude, its sine and cosine taken once.
struct Attitude {
    explicit Attitude(double angle_rad);
    Point of(Point level) const {
        return {level.x * cosine + level.y * sine, level.y * cosine - level.x * sine};
    }
    double sine;
    double cosine;
};

// Distance from a point fixed to the body to a point of the bridge, with its first and second derivative by
// the angle. These are all the lever arms there are: by virtual work, a pull F along the line from bridge
// to body has the torque −F · per_rad in the sense of θ.
struct Reach {
    double length_m;
    double per_rad_m;
    double per_rad2_m;
};

// `fixed` on the body, `level` the point of the bridge when level, `across_m` their distance in z.
// With P(θ) the moved point and ℓ² = |fixed − P|² + across²:
//     ℓ ℓ' = −fixed · P',   ℓ ℓ'' = fixed · P − ℓ'²,   P' = (P.y, −P.x).
// The two points must not coincide.
Reach reach(Point fixed, Point level, double across_m, const Attitude& attitude);

// How `reach` changes as one of its two points moves, at the same attitude: d(length)/d(x, y) of the point
// and d(per_rad)/d(x, y).
struct ReachPerShift {
    Point length;
    Point per_rad;
};
// As the fixed point F moves, toward the nut and away from the body; from ℓ² and ℓ ℓ' above,
//     ℓ ∂ℓ/∂F = F − P,   ℓ ∂ℓ'/∂F = −P' − ℓ' ∂ℓ/∂F.
ReachPerShift reach_per_fixed(const Reach& at, Point fixed, Point level, const Attitude& attitude);
// As the point S of the bridge does, as it stands when level. With P = R S, R the rotation by the attitude,
//     ℓ ∂ℓ/∂S = S − Rᵀ F,   ℓ ∂ℓ'/∂S = −(dR/dθ)ᵀ F − ℓ' ∂ℓ/∂S.
ReachPerShift reach_per_level(const Reach& at, Point fixed, Point level, const Attitude& attitude);

struct Bridge {
    double block_depth_m = 0.0;   // spring holes under the pivot
    double block_setback_m = 0.0; // and behind it
    double tail_m = 0.0;          // pivot to where the tail is measured
    double tail_low_m = 0.0;      // tail readings at the two stops
    double tail_high_m = 0.0;
    double weight_n = 0.0; // what acts in −y, set only where the guitar lies on its back
    double weight_setback_m = 0.0;
    Point block() const { return {-block_setback_m, -block_depth_m}; }
};

// tail = tail distance · sin θ, + raised; and back. |tail| must be below the tail distance.
double tail_at_angle_m(const Bridge& bridge, double angle_rad);
double angle_at_tail_rad(const Bridge& bridge, double tail_m);
double lowest_angle_rad(const Bridge& bridge);
double highest_angle_rad(const Bridge& bridge);

// The claw: a rigid bar with hooks, held by two screws, the bass one at z = −span/2.
struct Claw {
    double depth_m = 0.0;
    double screw_span_m = 0.0;
    double screw_pitch_m = 0.0; // advance per turn
};

// Where the claw is: the hooks' x when the screws stood as found, and the turns made since, + in (clockwise,
// tighter, toward the nut).
struct ClawSetting {
    double x_m = 0.0;
    double bass_turns = 0.0;
    double treble_turns = 0.0;
    ClawSetting turned(double both) const { return {x_m, bass_turns + both, treble_turns + both}; }
};

// The turns in at z: linear between the two screws and beyond them (rigid bar).
double turns_at(const Claw& claw, const ClawSetting& setting, double hook_z_m);
// A hook at z on the claw.
Point hook_at(const Claw& claw, const ClawSetting& setting, double hook_z_m);

} // namespace counterpull
