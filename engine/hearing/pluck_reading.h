// What the windows of one pluck say together of a string, and what two or three plucks do.
//
// A string that swings wide is stretched and sounds sharp, in proportion to the square of how wide: f = f∞ (1
// + k · power) (Carrier 1945; Fletcher & Rossing, The Physics of Musical Instruments; from memory). It comes
// down to f∞ as it fades, and f∞ is what another pluck, softer or harder, comes down to as well.
#pragma once

#include "engine/hearing/window_reading.h"

#include <span>

namespace counterpull {

struct HeardString {
    bool heard = false;
    double hz = 0.0;
    double cents = 0.0;       // against the target
    double sigma_cents = 0.0; // what may be wrong with it, one sigma
    double at_s = 0.0;        // when: the middle of what was read, from the first sample on
    bool steady = false;      // it drifts by less than a cent a second
};

// One string in one window; `at_s`: the window's middle.
struct TimedReading {
    double at_s = 0.0;
    StringReading string;
    double since_onset_s = 0.0; // when the window began
};

// The windows of one pluck in which the string was heard, in order of time. Where the pitch falls with the
// power, enough windows show it and the power has at least halved: the pitch at no power. Else the mean,
// weighted by how sure each is and how long ago the onset, with how they differ added to the sigma. What was
// read before somebody turned the string does not count. No windows: not heard.
HeardString read_pluck(std::span<const TimedReading> windows);

// How many plucks of a string are remembered: the last ones.
inline constexpr std::size_t plucks_remembered = 3;

// Plucks of one string, oldest first, each heard: the weighted mean of those that agree. Where they do not,
// those that are surest together; the last one has the benefit of the doubt, for the string may have been
// turned.
HeardString read_plucks(std::span<const HeardString> plucks);

} // namespace counterpull
