// Which springs, and how far the claw screws turn, so that the bridge stands as wanted with the next strings
// at pitch; and how sure that is.
#pragma once

#include "engine/advice/arrangements.h"
#include "engine/belief/turns_spread.h"

#include <optional>
#include <vector>

namespace counterpull {

// A float is called too soft where this much of a screwdriver's turn, the best a hand can set, moves the
// tail, back in tune, further than a ruler's error.
inline constexpr double hand_turn = 0.06;
inline constexpr double soft_tail_m = 0.3e-3;
// A correction lives with springs up to this many times softer than that; beyond, they are changed.
inline constexpr double lived_with_softness = 2.0;
// Arrangements are told apart by the spread of their tail in steps of this.
inline constexpr double tail_step_m = 0.5e-3;
// And by the thread they leave and, where soft, by the tail per turn in steps of these: mirror images have
// the same but for rounding.
inline constexpr double thread_step_turns = 1e-3;
inline constexpr double per_turn_step_m = 1e-6;
// Where the tail after the first visit is less sure than this (1 σ), it is said.
inline constexpr double unsure_tail_m = 0.75e-3;
// Thread that should be left over, either way, for the next change.
inline constexpr double spare_turns = 1.0;
// "On the body": this much is added to the least that holds (turns_spread.h), to be sure.
inline constexpr double held_extra_turns = 0.25;
// Where a spring has just closed, the spread of the turns is that of so much tighter, with the spring open:
// across the jump there is no slope.
inline constexpr double opened_turns = 0.01;
// The stiffness of a float is told by this bend of the third string.
inline constexpr double told_bend_semitones = 2.0;

enum class SpringUse { in_reach, overstretched, closed };

struct SpringState {
    double force_n = 0.0;
    double length_mm = 0.0;
    SpringUse use = SpringUse::in_reach;
};

// Why an arrangement does not fit. Nothing else decides on that; say/ puts it into words.
struct Hindrances {
    bool no_claw_position = false; // nowhere do the springs balance the strings; then nothing else is known
    bool springs_missing = false;  // it needs more springs than the player has
    bool thread_short = false;     // the screws would leave their wood, or have no thread left
    bool just_closed = false;      // a spring has just closed there: no exact balance
    bool overstretched = false;    // a spring is longer than it may be
    bool closed = false;           // or shut
    bool unstable = false;         // it does not settle when retuned
    bool none() const { return count() == 0; }
    int count() const {
        return no_claw_position + springs_missing + thread_short + just_closed + overstretched + closed +
               unstable;
    }
};

// One spring arrangement and what it asks.
struct Advice {
    Arrangement springs;
    std::optional<double> turns; // of both screws, from now, + in; nothing where no claw position does it
    double turns_sigma = 0.0;    // 1 σ of them
    Deviations turns_per{};      // what makes it up: d(turns) by each unknown
    double angle_rad = 0.0;      // the attitude wanted
    double per_turn_m = 0.0;     // tail per turn of both screws there, at pitch; 0 on the body
    double tail_sigma_m = 0.0;   // 1 σ of the tail after these turns, back in tune, screwdriver included
    double bend_tail_m = 0.0;    // how far the tail rises when the third string is bent; 0 on the body
    double thread_in = 0.0;      // turns left afterwards, tighter and looser
    double thread_out = 0.0;
    std::vector<SpringState> springs_after; // as wanted, in the order of `springs`
    Hindrances hindrances;
    bool stable = false;  // settles when retuned (always so on the body)
    bool soft = false;    // too soft for a screwdriver
    bool splayed = false; // springs led across, the last resort
    int moved = 0;        // springs put in, taken out or moved
    bool fits() const { return hindrances.none(); }
    // It would fit if only the player had more springs.
    bool only_springs_missing() const { return hindrances.springs_missing && hindrances.count() == 1; }
    double thread_left() const { return thread_in < thread_out ? thread_in : thread_out; }
    // The tail after the first visit is not to be relied on: it is said, where the arrangement fits.
    bool unsure() const { return !soft && tail_sigma_m > unsure_tail_m; }
};

// Every arrangement worth calculating, best first: what fits; then what would with springs yet to be bought;
// what settles; what is stiff enough for a screwdriver; the fewest springs to buy; then by the tail's spread
// in steps of `tail_step_m`, the fewest springs moved, the most thread left both ways. A mere correction,
// same strings in the same tuning, keeps its springs though they are somewhat soft. Splayed ones stand in
// only where nothing else fits. Never empty. `claw` is where the claw would be at a count of zero turns.
std::vector<Advice> advise(const Belief& belief, const ClawSetting& claw);

// The next strings are on already, in their tuning: what follows are corrections.
bool is_under_way(const Setup& setup);
// Same strings in the same tuning, or under way: only the bridge's attitude is put right.
bool is_correction(const Setup& setup);

// Whether any arrangement fits and is stiff enough, without the spread: for trying out other set-ups. The
// best of them, or nothing.
std::optional<Advice> first_that_fits(const Belief& belief, const ClawSetting& claw,
                                      const std::vector<Arrangement>& arrangements);

} // namespace counterpull
