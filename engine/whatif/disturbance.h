// What moves a bridge that was in tune: a string that breaks or is let down, the guitar laid on its back,
// warmth.
//
// All by the free balance (balance.h): the tuners are not touched, so each string keeps its unstretched
// length. Warmth by ΔT lengthens steel (strings, springs) by α_steel ΔT and the wood along the grain, between
// nut, posts and claw, by α_wood ΔT; strings keep their mass. Steel's moduli change by e ΔT, strings'
// and springs' alike: that moves no bridge, but every pitch by about −0.2 cents per K. The bridge is too
// small to count. e −2.4e-4 per K, from steel tuning forks, which lose 1.12e-4 of their pitch per K (Koenig;
// Rayleigh, The Theory of Sound, chapter 3; from memory): f goes as √(E ℓ). α_steel 11.5e-6 per K (carbon
// steel, handbooks); α_wood 3.8e-6 per K along the grain, whatever the species (US Forest Products
// Laboratory, Wood Handbook, chapter 4: 3.1 to 4.5e-6); both from memory. Dry and damp move wood more than
// warmth does, and are not in it.
#pragma once

#include "engine/whatif/stand.h"

namespace counterpull {

inline constexpr double steel_expansion_per_k = 11.5e-6;
inline constexpr double steel_modulus_per_k = -2.4e-4;
inline constexpr double wood_expansion_per_k = 3.8e-6;

struct Loss {
    Moved moved;                 // tuners untouched
    double retuned_tail_m = 0.0; // the others brought back to pitch
    std::optional<double> turns; // of both screws, that would bring it back to where it stood; nothing where
                                 // none do, and for one that rested on its stop
};
// One string (place, lowest 0) broken or taken off.
Loss without_string(const Stand& stand, int string);
// One string tuned lower or higher, the others left; then all in tune again, that one at its new pitch.
Loss with_string_at(const Stand& stand, int string, double by_cents);

// Turned over: a bridge that weighs `mass_kg`, its balance point `setback_m` behind the pivot, pulls the tail
// down while the guitar lies on its back and not while it is played. From the one to the other: onto its
// back, or where the stand `lies` there, up. A lying stand whose weight was left out of its balance loses it
// still.
Moved turned_over(const Stand& stand, bool lies, double mass_kg, double setback_m);

// Warmer by so many kelvin, strings, springs and wood alike; negative: colder.
Moved warmer(const Stand& stand, double by_kelvin);

} // namespace counterpull
