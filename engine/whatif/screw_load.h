// What the claw's two screws hold, against what the wood lets go at.
//
// The springs' pulls along the screws, each shared between the two by the lever of the claw: one at z loads
// the treble screw with (z + span/2)/span of it. Withdrawal of a wood screw from side grain, ultimate:
//     P = 108.25 G² D L      (N, mm; 15 700 G² D L in pounds and inches)
// with the wood's specific gravity G, the shank's diameter D and the length of thread in the wood L; three
// quarters of it in end grain, which is where these screws sit. For lasting load a fifth of that is taken
// (practice of the handbook: five to six). Source: US Forest Products Laboratory, Wood Handbook, chapter 8,
// fastenings, from memory. Shanks: ANSI/ASME B18.6.1.
#pragma once

#include "engine/whatif/stand.h"

namespace counterpull {

inline constexpr double light_body_gravity = 0.40; // a light body wood: on the cautious side (from memory)
inline constexpr double usual_thread_m = 20e-3;    // in the wood (common practice)
inline constexpr double end_grain_share = 0.75;
inline constexpr double lasting_share = 0.2;

struct ScrewLoads {
    double bass_n = 0.0;
    double treble_n = 0.0;
};
ScrewLoads screw_loads(const Stand& stand);

// Ultimate, from end grain. Gravity 0.3 to 0.8, lengths above 0.
double withdrawal_n(double shank_m, double thread_m, double gravity = light_body_gravity);
// Shank of the wood screw whose thread has nearest to this pitch: No. 6, 8 or 10.
double shank_of_pitch_m(double pitch_m);

} // namespace counterpull
