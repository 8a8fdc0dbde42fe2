// The job as data: its steps in order, each with its quantities and what is asked after it, no words. The
// work sheet says them (say/work_sheet.h).
#pragma once

#include "engine/advice/report.h"

#include <array>
#include <optional>
#include <vector>

namespace counterpull {

// Under full pull screws are hard to turn: up to this the strings may stay up, beyond it they come down.
inline constexpr double few_turns = 0.5;
// By so much, where they need not hang slack.
inline constexpr double slacken_cents = 200.0;
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

// How strings are tuned: each to its aim once; once, no matter how near; or again from the first until all
// are within 2 cents.
enum class TuneHow { aimed, rough, plain };

// Only what the kind says counts.
struct Step {
    StepKind kind = StepKind::note;
    std::vector<Asked> asks;
    std::optional<ReadingKind> reading; // what the answer is entered into the log as
    TestReading test;                   // test
    bool forced = false;                // open the nut: its clamps are closed, and cannot stay so
    std::vector<double> by_cents;       // slacken: per string, lowest first; empty: slack
    Arrangement off, on;                // springs
    std::array<double, 2> turns{};      // turn, turn until (as expected): bass, treble, + in
    double surplus_turns = 0.0;         // turn: of these, for the wedge
    int string = 0;                     // turn until: the string that shows it, the player's number
    double cents = 0.0;                 // and what it shall show
    double turns_per_cent = 0.0;        // where the claw is eased after the wedge; else 0
    WedgeSide side = WedgeSide::neck;   // wedge in
    double tail_mm = 0.0;               // wedge in, read: as wanted
    std::vector<Aim> aims;              // tune, in order
    TuneHow how = TuneHow::aimed;
    double pull_change_n = 0.0; // check: of the neck's load; 0 where that stays about the same
    bool new_strings = false;   // wait, check
};

// The way that takes the least work; with or without the wedge where that is chosen, as far as it can be
// used.
Way usual_way(const Report& report, std::optional<bool> wedge = {});

// From the guitar as it stands to the end of the visit. A claw that need not be turned has no step. One step,
// `cannot`, where nothing fits. The test is left out where none is worth taking, the wedge where it cannot be
// used.
std::vector<Step> steps(const Report& report, Way way);

} // namespace counterpull
