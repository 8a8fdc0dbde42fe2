// The tuning sheet of a change: what the tuner should show for each string, aimed at once, so that everything
// lands at pitch in the end.
#pragma once

#include "engine/advice/solution.h"
#include "engine/mechanics/tuning.h"

#include <optional>
#include <vector>

namespace counterpull {

// Aims beyond this are not asked of anyone: two gentler passes instead. So are aims that use more than
// `aim_strength` of a string's breaking load, or for which the bridge rests on a stop on the way.
inline constexpr double most_aim_cents = 100.0;
inline constexpr double aim_strength = 0.75;

// The state that the sheet begins with.
enum class SheetStart {
    as_the_turn_leaves, // same strings, in the tuning that they had, after the claw's turns
    brought_up_roughly, // new strings, or springs changed: slack, then after one plain pass
    from_readings,      // what the tuner showed at the newest reading, after the turns since
};

// A string further off than that is no use to an eye on the tuner.
inline constexpr double most_watched_cents = 1200.0;

enum class WhyGentler { far, strength, stop };

struct TuningSheet {
    SheetStart start = SheetStart::as_the_turn_leaves;
    std::vector<double> begin_cents; // what the tuner shows there, before anything is tuned
    // The string to watch while the claw is turned, by its place: it moves furthest, and where it shows
    // watch_cents the turns are right. Surer than counting: strings are stiffer than their springs, and
    // better known (the insight of the wedge). Only where the strings stay on, on the same springs.
    std::optional<int> watch;
    double watch_cents = 0.0;
    std::vector<double> turned_cents; // what all strings show then
    std::vector<double> aim_cents;    // against the next tuning, + sharp, lowest string first
    std::vector<double> aim_hz;
    std::optional<int> plain_passes; // that the one pass replaces; nothing past 50
    // Two gentler passes, the first of which goes part of the way; only where the one pass asks too much.
    std::optional<WhyGentler> why_gentler;
    std::vector<std::vector<double>> gentler_cents;
};

// Why aims are not asked of anyone, if so. `may_rest`: on a stop, on the way.
std::optional<WhyGentler> why_gentler(const Aims& aims, bool may_rest);

// For the springs advised, which must fit.
TuningSheet tuning_sheet(const Solution& solution);

} // namespace counterpull
