// A guitar as the set-up says, perhaps with other springs, that a player tunes string by string, reading
// exactly.
#pragma once

#include "engine/advice/report.h"

namespace reference {

struct Simulated {
    counterpull::Assembly assembly;
    counterpull::ClawSetting claw;
    counterpull::Strung strung;

    // As the sheet's start says: turned as advised, nothing retuned; or slack, then tuned once.
    Simulated(const counterpull::Setup& setup, const counterpull::Report& report, double spring_factor = 1.0);
    // Each string in turn, lowest first, until the tuner shows its aim.
    void aim(const std::vector<double>& cents);
    // The sheet that comes of what the tuner shows now, after the first one was followed; the claw stays.
    void follow_second_sheet(counterpull::Setup setup, const counterpull::Report& first);
    std::vector<double> cents() const;
    double worst() const; // cents off, of the string that is off most
};

// How far the tail is moved, and how many cents the worst string is then off: after one plain pass, after one
// pass by the sheet, and after a second by the sheet made from those readings.
struct Landing {
    double tail_mm;
    double spring_factor;
    double plain, sheet, second;
};
std::vector<Landing> landings(const counterpull::Setup& level);

} // namespace reference
