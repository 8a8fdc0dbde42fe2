// The one door: a set-up in, everything there is to say about it out.
//
// A Report is what screens, the command line and scripts show; its numbers are in people's units, as their
// names say. `report_json` gives the contract's "counterpull-report/1" with nine significant digits.
#pragma once

#include "engine/advice/alternatives.h"
#include "engine/advice/tuning_sheet.h"
#include "engine/advice/wedge.h"
#include "engine/advice/worth.h"
#include "engine/belief/calibration.h"
#include "engine/belief/test_reading.h"
#include "engine/document/document.h"

#include <optional>
#include <string>
#include <vector>

namespace counterpull {

// A string used to more than this share of its breaking load is warned of.
inline constexpr double strength_warning = 0.75;

struct StringState { // nothing where it is not in tune
    std::optional<double> pitch_hz;
    std::optional<double> tension_n;
    std::optional<double> strength_used; // share of the breaking load
};

// The bridge at rest: strings and springs, attitude, and where the claw is.
struct BridgeState {
    std::vector<StringState> strings;
    std::optional<double> total_tension_n;
    std::vector<PlacedSpring> placed;
    std::vector<SpringState> springs; // as placed
    double angle_deg = 0.0;
    double tail_mm = 0.0;
    ClawSetting claw;
};

struct UntouchedState {
    RestKind outcome = RestKind::floats;
    double angle_deg = 0.0;
    double tail_mm = 0.0;
    std::optional<double> per_turn_mm; // nothing at a stop, or where retuning runs away
};

// A number of the guitar as the readings have it by now; the mean where there is one per string.
struct FittedValue {
    Unknown unknown = Unknown::spring_rate;
    double value = 0.0; // in the document's unit
    double sigma = 0.0;
};

struct Report {
    BridgeState now;
    UntouchedState untouched;
    std::vector<Advice> advice;        // best first, never empty
    BridgeState carried_out;           // the next strings at pitch with advice[0] carried out
    std::optional<BridgeState> next;   // the same; nothing where nothing fits
    std::vector<Alternative> instead;  // where nothing fits: the nearest that works
    std::optional<WedgeWay> wedge;     // setting it up with a wedge, where that can be done
    std::vector<Worth> worth;          // what the spread of advice[0] is made of, most important first
    std::optional<TuningSheet> tuning; // for advice[0]; nothing where it does not fit
    std::vector<FittedValue> fitted;
    std::vector<FittedReading> readings;     // with what they should have shown
    std::optional<TestReading> test_reading; // worth taking before the first turn; where it is asked for
    double turns_made = 0.0;                 // mean of the last reading's, from "now"
    // Same strings, tuning and springs, only turns: the tail before anything is retuned.
    std::optional<double> before_retuning_tail_mm;
    std::vector<Phrase> warnings;
};

struct ReportResult {
    std::optional<Report> report; // present exactly where there is no problem
    Problems problems;
};

// `setup` need not have been checked.
ReportResult report(const Setup& setup);

// Which test reading is worth taking before the first turn of a report's best advice, into `test_reading`:
// for who shows it. Nothing where there are readings already, or nothing fits.
void ask_test_reading(const Setup& setup, Report& report);

} // namespace counterpull
