// What one stretch of sound says of the strings: which of them sound, and at what pitch.
//
// A string is heard where enough of its partials stand clear of the noise and of what the other strings could
// stand in for, lie where its stiffness puts them, and leave few holes between. Partials that are another
// string's, a voice's or the mains' do not. What cannot be told apart is not heard.
#pragma once

#include "engine/hearing/acquisition.h"
#include "engine/hearing/spectrum.h"

#include <cstddef>
#include <span>
#include <vector>

namespace counterpull {

// A string as it is to be listened for.
struct StringTarget {
    double hz = 0.0;             // of the tuning: what cents count from
    double expected_cents = 0.0; // where to look
    bool expected = false;       // whether somebody knows; else it is looked for farther around
    double inharmonicity = 0.0;  // B at pitch, to 20 % (`inharmonicity` in engine/mechanics/guitar_string.h)
};

struct StringReading {
    bool heard = false;
    double hz = 0.0;
    double cents = 0.0;           // against the target
    double sigma_cents = 0.0;     // what may be wrong with it
    double fit_sigma_cents = 0.0; // what the noise and partials that disagree by a cent make of it
    double power = 0.0;           // of the clear partials together: falls as the string fades
    double inharmonicity = 0.0;   // as fitted
    double scatter_cents = 0.0;   // of its partials
    double decay_per_s = 0.0;     // half of its partials fade faster
    double evidence = 0.0;        // see `least_evidence`
};

// A clear partial counts with the logarithm of its clearness, at most this; a hole below the highest clear
// one against it.
inline constexpr double most_of_one_partial = 6.0;
inline constexpr double hole_costs = 1.5;
inline constexpr double least_evidence = 8.0;

struct WindowReading {
    std::vector<StringReading> strings; // as the targets
    double unexplained = 0.0; // share of what stands out of the noise that is none of the strings heard
};

// `most`: how many strings may sound at once; 1 for a pluck of a single one. `before`: what was read of the
// same pluck already, if anything: a good deal quicker where little has changed.
WindowReading read_window(std::span<const float> samples, double rate_hz,
                          const std::vector<StringTarget>& targets, const MainsLines& mains, std::size_t most,
                          const WindowReading* before = nullptr);

} // namespace counterpull
