// A string bent sideways with the finger: what it takes, and what it does to the bridge and the other
// strings.
//
// The string is pushed sideways by d at a fret, a distance a from the nut and b from the saddle (a + b the
// speaking length of the open string). It slides over the fret without friction, so it has one tension T
// along all of its length, and is longer by
//     Δ = √(a² + d²) − a + √(b² + d²) − b .
// It sounds on √(b² + d²), a little longer than b, so it has to be raised by 1200 log2(√(b² + d²)/b) cents
// more than is heard. The finger holds it with
//     F = T (d/√(a² + d²) + d/√(b² + d²)) .
// The bridge gives way and the string has to be pushed further: T follows from the pitch wanted, the attitude
// from the free balance with that string at that pitch, and Δ from T and the attitude. Pressing the string
// down onto the fret is left out. Source: D. R. Grimes, "String theory: the physics of string-bending and
// other electric guitar techniques", PLoS ONE 9(7): e102088 (2014), for the fixed bridge; here stiffness and
// the bridge's movement are added.
#pragma once

#include "engine/whatif/stand.h"

namespace counterpull {

struct Bent {
    int string = 0; // place, lowest 0
    double by_cents = 0.0;
    Moved moved;            // the bridge, and all strings; the bent one shows what is heard
    double tension_n = 0.0; // of the bent string
    double travel_m = 0.0;  // d, of the finger
    double force_n = 0.0;   // F
};

enum class BridgeKind { floating, fixed };

// `by_cents` from above 0 to about 400. `fret`: where it is pressed, 0.5 to 24; 12 where the string is in the
// middle.
Bent bend(const Stand& stand, int string, double by_cents, BridgeKind bridge = BridgeKind::floating,
          double fret = 12.0);

} // namespace counterpull
