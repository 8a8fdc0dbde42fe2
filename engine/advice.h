// Which springs, and how far the claw screws turn, so that the bridge stands as wanted with the next strings
// at pitch.
#pragma once

#include "engine/model.h"
#include "engine/words.h"

#include <optional>
#include <vector>

namespace counterpull {

// A float is called too soft where this much of a screwdriver's turn, the best a hand can set, moves the
// tail, back in tune, further than a ruler's error.
inline constexpr double hand_turn = 0.06;
inline constexpr double soft_tail_m = 0.3e-3;
// Thread that should be left over, either way, for the next change.
inline constexpr double spare_turns = 1.0;
// "On the body": a string bent up this far must not lift the tail, and this much is added to be sure.
inline constexpr double held_bend_semitones = 3.0;
inline constexpr double held_extra_turns = 0.25;

// One spring arrangement and what it asks.
struct Advice {
    std::vector<PlacedSpring> springs;
    std::optional<double> turns; // of both screws, from now, + in; nothing where no claw position does it
    double angle_rad = 0.0;      // the attitude wanted
    double per_turn_m = 0.0;     // tail per turn of both screws there, at pitch; 0 on the body
    bool stable = false;         // settles when retuned (always so on the body)
    bool soft = false;
    bool fits = false;            // thread, spring lengths, springs there are, and it settles
    bool springs_missing = false; // it needs more springs than the player has
    int springs_moved = 0;        // placed, taken out or moved
    std::vector<Phrase> reasons;  // why it does not fit, or what to know where it does; never empty
};

// `count` springs spread evenly over hooks and holes. `count` is at most the number of either.
std::vector<PlacedSpring> evenly_placed(const BaySetup& bay, int count);

// The springs as they are, one more and one fewer, placed evenly; best first: what fits, then what would with
// springs yet to be bought, then what is not too soft, then the fewest springs moved, then the most thread
// left both ways. A mere correction, same strings in the same tuning, keeps its springs though they are soft.
// Never empty. `claw` is where the claw is now.
std::vector<Advice> advise(const Setup& setup, const ClawSetting& claw);

// The torque (N·m, + raises the tail) that the springs must hold on the lower stop so that a string bent up
// by `held_bend_semitones`, whichever pulls most, does not lift it; weight included.
double torque_to_hold_on_body_nm(const Assembly& assembly);

} // namespace counterpull
