// The one solved state: worked out once per change of the set-up, and handed to everything that answers
// (report, wedge, tuning sheet, strings, what-ifs, drawing), so that no two answers can disagree about where
// the claw is or what the readings have taught.
//
// Two things are kept apart: what the set-up says by itself ("now" and "left alone" are told by that), and
// what is believed with all readings weighed in (what to do is told by that). Screws are counted from "now".
#pragma once

#include "engine/advice/advice.h"
#include "engine/belief/calibration.h"
#include "engine/belief/test_reading.h"
#include "engine/document/problems.h"

#include <memory>
#include <optional>
#include <vector>

namespace counterpull {

struct Solution {
    std::shared_ptr<const Setup> held; // at one place: the belief points to it
    Calibration calibration;
    // As the set-up says: what is on it, and where the claw is.
    Assembly now;
    ClawSetting claw_as_said;
    // As believed: where the claw would be at a count of zero turns, and where it is by now, turned as the
    // last entry of the log counts.
    ClawSetting claw;
    ClawSetting claw_by_now;
    std::vector<Advice> advice; // best first, never empty
    // How hard the arm feels now, as Advice::arm_nm_per_rad is told; nothing where it is not in tune.
    std::optional<double> arm_now_nm_per_rad{};

    const Setup& setup() const { return *held; }
    const Belief& belief() const { return calibration.belief; }
    const Advice& advised() const { return advice.front(); }
    // What would be advised if the player had not chosen.
    const Advice& recommended() const;
    // The springs on it by now.
    const Arrangement& springs() const { return fitted_springs(setup()); }
    // The strings advised on, as believed, on the springs advised.
    Assembly assembly_advised() const { return belief().assembly(fitting_next(setup(), advised().springs)); }
    // Mean of the turns made by now.
    double turns_made() const {
        return setup().log.empty() ? 0.0 : 0.5 * (setup().log.back().turns[0] + setup().log.back().turns[1]);
    }
    // From where the screws stand now. `of` must have turns.
    double more_turns(const Advice& of) const { return *of.turns - turns_made(); }
    double more_turns() const { return more_turns(advised()); }
};

struct Solved {
    std::optional<Solution> solution; // present exactly where there is no problem
    Problems problems;
};

// `setup` need not have been checked.
Solved solve(Setup setup);

// The test reading that makes the turns advised surest; nothing where none is worth taking, where nothing
// fits or where readings have been taken already. Not part of the solved state: it costs as much as all of
// that.
std::optional<TestReading> best_test_reading(const Solution& solution);

} // namespace counterpull
