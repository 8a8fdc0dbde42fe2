// What the bridge's attitude and other strings do to string height and intonation.
//
// The saddle moves with the bridge: at the 12th fret, half way to the nut, the string rises by half of what
// the saddle rises, ½ (S(θ_after).y − S(θ_before).y).
//
// Fretted at the 12th fret a string sounds sharp of the octave, twice over: pressed down by its height a
// there it is longer by about 2 a²/L, and its stiffness counts four times as much on half of its length:
//     stretch    600/ln 2 · EA/T · 2 a²/(L (L + dead))            cents
//     stiffness  600/ln 2 · 3 π² EI/(T L²)                        cents  (pinned ends, as everywhere here)
// A saddle moved back by x makes the fretted note flat of the octave by 1200/ln 2 · x/L, so that
//     x = L ln 2/1200 · (stretch + stiffness).
// All to first order; the bridge is taken to stand while one string is pressed, which makes the stretch up to
// a fifth too large on a soft float. Pressing beyond the fret is left out, so that x is less than a setter
// finds by ear; what it changes by, between two sets of strings, is what it is good for. Compare G. Varieschi
// & C. Gower, "Intonation and compensation of fretted string instruments", Am. J. Phys. 78, 47 (2010), who
// start from the same two causes.
#pragma once

#include "engine/whatif/stand.h"

namespace counterpull {

// Usual string height at the 12th fret: highest and lowest string, evenly between (common practice).
inline constexpr double height_of_highest_m = 1.6e-3;
inline constexpr double height_of_lowest_m = 2.0e-3;
double usual_height_m(std::size_t string, std::size_t strings); // string: place, lowest 0

// How much higher the string stands over the 12th fret after than before, + higher.
double height_change_m(const StringOnBridge& before, double before_rad, const StringOnBridge& after,
                       double after_rad);

struct Compensation {
    double stretch_cents = 0.0;
    double stiffness_cents = 0.0;
    double saddle_back_m = 0.0; // from where the scale length alone would have it
};
// `height_m` over the 12th fret, from its top.
Compensation compensation(const StringOnBridge& string, double angle_rad, double height_m);

} // namespace counterpull
