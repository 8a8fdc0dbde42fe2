// One guitar between two tunings: where the tail goes when it is level in the one and tuned to the other, the
// claw untouched; and on which springs, with which strings, it goes least.
//
// At pitch the bridge answers a change of the strings' torque with Δθ ≈ −Δτ/(dτ/dθ): more springs, shorter,
// are stiffer and move less, and strings whose pulls change least in the sum move less.
#pragma once

#include "engine/advice/solution.h"

namespace counterpull {

struct TuningMove {
    Arrangement springs;
    std::string set;     // name of a preset of strings; "" those of the set-up
    double tail_m = 0.0; // in the second tuning; as wanted in the first
    RestKind kind = RestKind::floats;
    double moves_m(double from_m) const { return tail_m - from_m; }
};

// With next's strings, from now's tuning to next's, the tail as wanted next in the first: on every
// arrangement that holds the one without a spring shut or overstretched in either, the one that moves least
// first. Empty where now and next have the same notes (their offsets aside) or another number of strings, and
// for a bridge that is to rest on the body.
std::vector<TuningMove> between_tunings(const Solution& solution);
// The same with other strings: the preset set that moves least, none used to more than
// `comfortable_strength`; nothing where none does better than what is there.
std::optional<TuningMove> set_that_moves_least(const Solution& solution, const TuningMove& best);

} // namespace counterpull
