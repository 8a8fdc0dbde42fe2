// Setting up with a wedge: the bridge is blocked as wanted, the springs are left a little tighter than the
// answer (so they pull the block's foot toward the neck, and there the wedge goes), the strings are tuned
// once like on a fixed bridge; then the wedge is pulled, and what the tuner shows says how far to ease the
// claw. It leans on the stiffness of the strings, which is known, more than on the spring rate, which is not
// (common practice).
#pragma once

#include "engine/advice/solution.h"

namespace counterpull {

// The claw is left tighter than the answer, so that the springs hold the bridge against its wedge: by this at
// least (common practice is a quarter to a half turn), where the thread allows so much.
inline constexpr double least_wedge_surplus_turns = 0.375;
// And by more where the turns are less sure: so that 19 times of 20 the wedge does not drop out before the
// strings are at pitch; but never by more than the most: the strings go sharp by it when the wedge is pulled,
// and where so little is known it rather drops out once. To the eighth of a turn, and so that the thread
// allows what is turned in then; nothing where that is too little.
inline constexpr double most_wedge_surplus_turns = 2.0;
// By what the springs are made tighter where the wedge fell out.
inline constexpr double fell_out_turns = 0.5;
std::optional<double> wedge_surplus_turns(const Advice& advice);

struct WedgeWay {
    double turns = 0.0;                // of both screws from now, the surplus included
    double surplus_turns = 0.0;        // of them, to be eased when the wedge is out
    double tail_mm = 0.0;              // when the wedge is pulled and nothing else is done
    std::vector<double> cents;         // what the tuner then shows, per string, lowest first
    int read_string = 0;               // the string that shows it best, by its place
    double turns_to_ease_per_cent = 0; // of both screws, for each cent that string is sharp
};

// For the springs advised. Nothing on the body, where they do not fit, or where the thread does not allow the
// surplus.
std::optional<WedgeWay> wedge_way(const Solution& solution);

} // namespace counterpull
