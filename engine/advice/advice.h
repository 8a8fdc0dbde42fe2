// Which springs, and how far the claw screws turn, so that the bridge stands as wanted with the next strings
// at pitch; and how sure that is.
#pragma once

#include "engine/advice/arrangements.h"
#include "engine/advice/work.h"
#include "engine/belief/test_reading.h"
#include "engine/belief/turns_spread.h"

#include <cmath>
#include <optional>
#include <vector>

namespace counterpull {

// Arrangements are told apart by their work in steps of this: no prediction is good to a minute, and nobody
// puts in a second spring for half of one. By the thread they leave in steps of that: mirror images have the
// same but for rounding.
inline constexpr double work_step_minutes = 1.0;
inline constexpr double thread_step_turns = 1e-3;
// Where the tail after the first visit is less sure than this (1 σ), it is said.
inline constexpr double unsure_tail_m = 0.75e-3;
// Thread that should be left over, either way, for the next change.
inline constexpr double spare_turns = 1.0;
// "On the body": this much is added to the least that holds (turns_spread.h), to be sure.
inline constexpr double held_extra_turns = 0.25;
// Where a spring has just closed, the spread of the turns is that of so much tighter, with the spring open:
// across the jump there is no slope.
inline constexpr double opened_turns = 0.01;
// Direction: where the last reading in tune lies further than this from what is wanted, the screws turn the
// way that it says: too high is tightened, too low loosened.
inline constexpr double wrong_tail_m = 0.5e-3;
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
    double tail_sigma_m = 0.0; // 1 σ of the tail after these turns, back in tune: hand and friction included
    double bend_tail_m = 0.0;  // how far the tail rises when the third string is bent; 0 on the body
    double thread_in = 0.0;    // turns left afterwards, tighter and looser
    double thread_out = 0.0;
    std::vector<SpringState> springs_after; // as wanted, in the order of `springs`
    Hindrances hindrances;
    Job job;                     // what its work is predicted from
    Work work;                   // predicted, by the way that takes the least
    bool test_pays = false;      // without a wedge, a test reading first takes less work than none
    double arm_nm_per_rad = 0.0; // how hard the arm feels: −dτ/dθ with the tuners untouched; 0 on the body
    bool stable = false;         // settles when retuned (always so on the body)
    bool chosen = false;         // by the player
    bool recommended = false;    // the best but for the player's choice; one of all
    bool splayed = false;        // springs led across, the last resort
    bool measure_first = false;  // the tail after these turns may stand anywhere between its stops
    bool by_direction = false; // the turns follow from the last reading alone: the fit had them the other way
    int moved = 0;             // springs put in, taken out or moved
    bool fits() const { return hindrances.none(); }
    // It would fit if only the player had more springs.
    bool only_springs_missing() const { return hindrances.springs_missing && hindrances.count() == 1; }
    double thread_left() const { return thread_in < thread_out ? thread_in : thread_out; }
    // The tail after the first visit is not to be relied on: it is said, where the arrangement fits.
    bool unsure() const { return !measure_first && tail_sigma_m > unsure_tail_m; }
    // A hand can set it: its part of a turn leaves the tail within what counts as level.
    bool settable() const { return std::abs(per_turn_m) * hand_turn * 1e3 <= level_tail_mm; }
};

// Every arrangement worth calculating, best first: the one chosen (next.springs), whether it fits or not;
// what fits; then what would with springs yet to be bought; what settles; what is surer than to be "measured
// first"; the fewest springs to buy; under way, or once a screw was turned at the bench, the springs that are
// on; by the work predicted (work.h), as many springs as now or nearly, the fewest moved, the most thread
// left both ways. Splayed ones only where nothing else fits. Never empty. `claw` is where the claw would be
// at a count of zero turns; `tests` what may be read before the first turn. `doubted`: the readings
// contradict each other; then, under way, the springs that are on come before what is surer: one is to be
// taken again first.
std::vector<Advice> advise(const Belief& belief, const ClawSetting& claw, const TestReadings& tests,
                           bool doubted);

// The next strings are on already, in their tuning: what follows are corrections.
bool is_under_way(const Setup& setup);
// Same strings in the same tuning but for a few cents, or under way: only the bridge's attitude is put right.
inline constexpr double same_tuning_cents = 10.0;
bool is_correction(const Setup& setup);

// Fine tuners reach about half a tone (common practice, from memory).
inline constexpr double fine_tuner_cents = 100.0;
// Other strings, or a tuning further away than fine tuners reach: not with a clamped nut.
bool needs_an_open_nut(const Setup& setup);

// Whether any arrangement fits and can be set by hand, without the spread: for trying out other set-ups, of
// which the readings of the log are none. The best of them, or nothing.
std::optional<Advice> first_that_fits(const Belief& belief, const ClawSetting& claw,
                                      const std::vector<Arrangement>& arrangements);

} // namespace counterpull
