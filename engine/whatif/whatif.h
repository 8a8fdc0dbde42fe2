// What else changes: every side effect of a set-up, now and next, in one place.
//
// Each question has its formulas, assumptions and sources in a header of its own. "Now" is as the set-up says
// it stands, "next" is the first advice carried out, as the readings have the guitar by now.
#pragma once

#include "engine/advice/solution.h"
#include "engine/whatif/arm.h"
#include "engine/whatif/bend.h"
#include "engine/whatif/disturbance.h"
#include "engine/whatif/intonation.h"
#include "engine/whatif/nut_lock.h"
#include "engine/whatif/screw_load.h"
#include "engine/whatif/two_tunings.h"

namespace counterpull {

inline constexpr std::array bend_cents = {100.0, 200.0, 300.0};
inline constexpr double dropped_cents = -200.0; // the lowest string, by a tone
inline constexpr double warmer_kelvin = 10.0;
// A bridge whose weight is not given weighs about this, its balance point where the block is (from memory).
inline constexpr double usual_bridge_kg = 0.4;

// Of one side of the change.
struct SideEffects {
    Stand stand;
    std::vector<Bent> bends;       // of each string, lowest first, by each of bend_cents
    std::vector<Bent> fixed_bends; // the same on a bridge that does not move
    ArmRange arm;
    std::vector<Loss> without; // each string in turn, lowest first
    Loss dropped;
    Moved turned_over; // onto its back, or where that is how it lies, into the playing position
    Moved warmer;
    ScrewLoads screws;
    std::vector<Compensation> compensation; // at the usual string height
    // With the nut clamped, whether it is or not, and the third string bent a tone with the nut clamped and
    // open.
    std::vector<FineTuner> fine_tuners;
    std::vector<std::optional<double>> before_clamping;
    Bent bend_clamped, bend_open;
};

struct WhatIf {
    std::optional<SideEffects> now;  // nothing where it is not in tune
    std::optional<SideEffects> next; // nothing where nothing fits
    std::vector<double>
        height_change; // m per string, from now to next, over the 12th fret; empty without both
    std::vector<double> saddle_change; // m per string, + back; likewise
    std::vector<TuningMove> tunings;   // between now's tuning and next's, on next's strings
    std::optional<TuningMove> better_set;
};

WhatIf whatif(const Solution& solution);

} // namespace counterpull
