// The guitar at the bench: what has been done to it by now, step by step, whatever the numbers say. Folded
// from the steps done (BenchSetup), so that the document alone says where the job has got to.
#pragma once

#include "engine/document/placed_springs.h"

#include <array>

namespace counterpull {

bool is_at_the_claw(StepKind kind);

struct AtBench {
    bool noted = false;
    bool tested = false;
    bool nut_open = false;   // its clamps were opened
    bool nut_closed = false; // and closed again
    bool next_on = false;    // the strings wanted are on
    int broken = 0;          // a string that is to be put on anew; the player's number
    Arrangement springs;
    std::array<double, 2> turned{}; // bass, treble screw, from "now", + in
    // The document does not say how far, or which: then as told (bench.h).
    bool turned_as_told = false, moved_as_told = false;
    bool slack = false;         // its strings
    bool slacken_first = false; // before a screw is turned or a spring moved, after a mishap
    int stuck = 0;              // a screw turned hard, so often

    bool wedged = false;       // the wedge is in
    bool wedge_pulled = false; // it has been, and is out again
    double wedge_extra = 0.0;  // turns in beyond the surplus, since it fell out

    // Since the claw, the springs or the strings were last touched:
    bool rough = false; // brought up, once
    int aimed = 0;      // passes by aims
    bool plain = false; // tuned until all were in tune
    bool read = false;  // read in tune

    // In this visit:
    bool looked = false;    // the tuner was read before tuning finely
    bool came_down = false; // the strings did
    bool freed = false;     // the wedge was pulled
    int stopped = 0;        // turned until the tuner showed it, so often
    int visits = 0;         // begun; a visit begins at the claw and ends with the first reading in tune
    bool in_visit = false;
    int readings = 0;      // in tune, since the claw was touched last
    bool as_logged = true; // nothing was touched since the newest reading
    bool imagined = false; // as it would stand if all went as told: nothing of it is in the log
    bool waited = false;
    bool tuned_again = false; // after that
    bool checked = false;

    double turns() const { return 0.5 * (turned[0] + turned[1]); }
    // One step, carried out or gone wrong. Its turns and its springs are taken as they stand in it.
    void take(const StepDone& done);

  private:
    void let_down();
    void touch();
    void go_wrong(const StepDone& done);
};

AtBench at_bench(const Setup& setup);
// The same where no job is begun: as "now" and the log say.
AtBench as_it_stands(const Setup& setup);

} // namespace counterpull
