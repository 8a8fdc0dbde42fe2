// The reverse question: which strings leave the bridge level with the claw untouched?
//
// At a given attitude each string's torque at pitch is its own affair, so a set's torque is a sum over its
// strings. With s(θ) the torque of springs and weight as they are now:
//   level within ±δ, claw untouched:  Σ τ_i(θ₊) + s(θ₊) ≤ 0 ≤ Σ τ_i(θ₋) + s(θ₋),  tail(θ±) = wanted ± δ;
//   within ±¼ turn:                   Σ τ_i(θ) between −s(θ) with the claw a quarter turn out and in;
// both with a balance that is stable at pitch, Σ dτ_i/dθ + ds/dθ < 0. What is wanted is the set with the
// least Σ (T_i/T_i,ref − 1)². All of these are sums, so branch-and-bound over the strings, lowest first,
// finds the best ones and proves them best.
#pragma once

#include "engine/advice/solution.h"

#include <optional>
#include <span>
#include <string_view>
#include <vector>

namespace counterpull {

inline constexpr double level_tail_m = 0.3e-3; // δ
inline constexpr double kept_turns = 0.25;     // a quarter turn
inline constexpr double comfortable_strength =
    0.60; // share of the breaking load that a set found stays under

// What even feel is measured against: each string's pull by now; the same pull on every string; or pull
// rising evenly from the highest string to the lowest, 20 % above the mean there and as much below it here (a
// choice of ours). The last two have the mean of the pulls by now.
enum class Feel { present, even, progressive };
inline constexpr double progressive_share = 0.20;

struct FoundSet {
    std::vector<StringSetup> strings; // lowest first
    double unevenness = 0.0;          // root of the mean of (T/T_ref − 1)²
    double tail_m = 0.0;              // brought to pitch, claw untouched; a stop where it does not float
    double turns = 0.0;               // that would make it exact
    std::vector<double> tension_n;    // when as wanted
    std::vector<double> strength_used;
    bool level = false; // within level_tail_m untouched; else within kept_turns
};

struct SearchOptions {
    Feel feel = Feel::present;
    std::size_t most = 8; // sets returned
};

// `gauges`: what may be used for any string; strings of a set get thinner or stay the same from the lowest to
// the highest, no wound one lies above a plain one, and only the three highest may be plain. Springs and claw
// are as the last entry of the log left them, or as now where there is none. In tune and on the body alike
// the attitude is next.tail_mm. Best first; empty where there is none. Where the strings are off now and not
// described, `present` is taken as `even` with the pull that the springs hold.
std::vector<FoundSet> sets_that_keep_the_balance(const Solution& solution,
                                                 std::span<const StringSetup> gauges,
                                                 const SearchOptions& options);

// The same from the gauges that shops sell singly (presets).
std::vector<FoundSet> strings_to_buy(const Solution& solution, const SearchOptions& options);

std::string_view name_of(Feel feel); // "present", "even", "progressive"
std::optional<Feel> parse_feel(std::string_view name);

} // namespace counterpull
