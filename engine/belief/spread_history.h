// How the readings made a number of turns surer, one after the other.
#pragma once

#include "engine/belief/calibration.h"

namespace counterpull {

// 1 σ of turns with this gradient (TurnsSpread) before any reading of the log and after each: the value at i
// is that after i entries, and the last is what the belief says. Everything is taken at the fit of all
// readings: to first order a reading shrinks the spread by how it was taken, not by what it said. What the
// turns owe to the screws is owed to where they stood at that entry. Where readings pull apart each value
// after the first is widened as the belief is. Empty where nothing moves the turns: there are none.
std::vector<double> spread_history(const Calibration& calibration, const Deviations& gradient);

} // namespace counterpull
