// The job as data: its steps in order, each with its quantities and what is asked after it, no words. The
// work sheet says them (say/work_sheet.h).
#pragma once

#include "engine/advice/outstanding.h"

#include <array>
#include <optional>
#include <vector>

namespace counterpull {

// A change of the neck's load beyond this share asks for a look at relief and intonation (common practice).
inline constexpr double big_pull_change = 0.08;

enum class AskedField { tail_mm, cents };
// Something to read once the step is done.
struct Asked {
    AskedField field = AskedField::tail_mm;
    bool needed = false;
    int string = 0; // of cents; the player's number
    std::optional<double> expected;
};

// What a string is tuned to.
struct Aim {
    int string = 0;     // the player's number
    double cents = 0.0; // against the next tuning, + sharp
    double hz = 0.0;
};

// Only what the kind says counts.
struct Step {
    StepKind kind = StepKind::note;
    std::vector<Asked> asks;
    std::optional<ReadingKind> reading; // what the answer is entered into the log as
    TestReading test;                   // test
    bool forced = false;                // open the nut: its clamps are closed, and cannot stay so
    int stuck = 0;                      // turn: a screw turned hard so often
    Arrangement off, on;                // springs
    std::array<double, 2> turns{};      // turn, turn until (as expected): bass, treble, + in
    double surplus_turns = 0.0;         // turn: of these, for the wedge
    int string = 0;                     // turn until: the string that shows it, the player's number
    double cents = 0.0;                 // and what it shall show
    double turns_per_cent = 0.0;        // where the claw is eased after the wedge; else 0
    double tail_mm = 0.0;               // wedge in, read: as wanted
    std::vector<Aim> aims;              // tune, in order
    TuneHow how = TuneHow::aimed;
    int pass = 0;               // tune by aims: of two gentler ones, 1 or 2
    bool wedged = false;        // tune, read: in a visit with the wedge
    bool look = false;          // read: before tuning finely
    int replaced = 0;           // strings: the only one put on, the player's number; 0: all
    double pull_change_n = 0.0; // check: of the neck's load; 0 where that stays about the same
    bool new_strings = false;   // wait, check
};

// The way that takes the least work; with or without the wedge where that is chosen, as far as it can be
// used.
Way usual_way(const Report& report, std::optional<bool> wedge = {});

// What is due on a guitar that stands like this, by what the report says of it. `finished` where nothing is
// left, `cannot` where nothing fits. The test is left out where none is worth taking, the wedge where it
// cannot be used.
Step due(const Report& report, const AtBench& at, Way way);
// As it goes down among the steps done: turns and springs as told.
StepDone as_told(const Step& step);
// From there to the end, if all goes as told: without the last step, `finished`. A claw that need not be
// turned has no step. One step, `cannot`, where nothing fits.
std::vector<Step> steps(const Report& report, AtBench at, Way way);
// Of the whole visit, from the guitar as it stands; what the bench has done of a job goes for nothing.
std::vector<Step> steps(const Report& report, Way way);

} // namespace counterpull
