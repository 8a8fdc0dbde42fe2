// The one door: a set-up in, everything there is to say about it out.
//
// A Report is what screens, the command line and scripts show; its numbers are in people's units, as their
// names say. `report_json` gives the contract's "counterpull-report/1" with nine significant digits.
#pragma once

#include "engine/advice/alternatives.h"
#include "engine/advice/tuning_sheet.h"
#include "engine/advice/wedge.h"
#include "engine/advice/worth.h"

#include <optional>
#include <utility>
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

enum class WarningKind {
    strength,            // `string` is used to `share` of its breaking load
    breaks,              // the same, beyond it
    unstable_now,        // as typed it stands, but would run away when retuned
    spring_closed,       // left alone it comes to rest where a spring has just closed
    wanted_at_stop,      // the tail wanted is that of a stop
    reading_left_out,    // the reading `entry` of the log lies `sigmas` spreads off the others
    readings_pull_apart, // `entries` of the log contradict each other, and nothing says which is wrong
    reading_unexplained, // the reading `entry` is met by no guitar like this
    reading_unexpected,  // the newest entry read `read` where `expected` was to be read: a string's cents, or
                         // mm of tail where there is no `string`
    spring_lengths_apart, // those read now do not go with each other, or with the rest
    fit_not_settled,      // the fit to the readings did not converge
    nut_locked,           // it is to stay clamped, which it cannot with the strings or the tuning wanted
    direction_held,       // the turns go the way of the last reading, against the fit
};
struct Warning {
    WarningKind kind = WarningKind::strength;
    int string = 0; // the player's number
    double share = 0.0;
    int entry = 0; // of the log, from 1
    double sigmas = 0.0;
    double expected = 0.0, read = 0.0;
    std::vector<int> entries{};
};

struct Report {
    explicit Report(Solution solved) : solution(std::move(solved)) {}

    Solution solution; // whose advice[0] is carried out
    BridgeState now;
    UntouchedState untouched;
    BridgeState carried_out;           // the next strings at pitch with the advice carried out
    std::optional<BridgeState> next;   // the same; nothing where nothing fits
    std::vector<Alternative> instead;  // where nothing fits: the nearest that works
    std::optional<WedgeWay> wedge;     // setting it up with a wedge, where that can be done
    std::vector<Worth> worth;          // what the spread of the advice is made of, most important first
    std::optional<TuningSheet> tuning; // for the advice; nothing where it does not fit
    std::vector<FittedValue> fitted;
    // Same strings, tuning and springs, only turns: the tail before anything is retuned.
    std::optional<double> before_retuning_tail_mm;
    std::vector<Warning> warnings;

    const Setup& setup() const { return solution.setup(); }
};

Report report(Solution solution);

struct ReportResult {
    std::optional<Report> report; // present exactly where there is no problem
    Problems problems;
};
// Solved and reported; `setup` need not have been checked.
ReportResult report(const Setup& setup);

} // namespace counterpull
