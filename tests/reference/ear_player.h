// A player who tunes a hidden guitar by what is heard: after each string all are heard again, and the next is
// tuned to what then is said.
#pragma once

#include "engine/advice/by_ear.h"
#include "tests/reference/hidden_guitar.h"

#include <functional>
#include <optional>
#include <vector>

namespace reference {

// How far from its aim a hand leaves a string at most.
inline constexpr double hand_cents = 1.0, rough_hand_cents = 10.0;
inline constexpr int most_ear_tunings = 40;

using Heard = std::vector<std::optional<double>>;
// What the hearing makes of the guitar as it stands; told what it may expect, cents.
using Ears = std::function<Heard(const HiddenGuitar& guitar, const std::vector<double>& expected)>;

// Ears that are `sigma_cents` off; and now and then `wrong_cents`, or hear nothing of a string.
struct Earshot {
    double sigma_cents = 0.7;
    double wrong_share = 0.0, wrong_cents = 5.0;
    double missed_share = 0.0;
};
Ears ears(const Earshot& shot, std::uint64_t number);

struct EarRun {
    bool done = false; // nothing was to be tuned any more
    int tunings = 0;
    double worst_cents = 0.0; // truly, at the end
    double tail_mm = 0.0;
    double most_aim_cents = 0.0;
    std::vector<int> order; // the strings tuned, players' numbers
};

// The claw turned and the springs moved as advised; strings put on and brought up roughly where the sheet
// takes that: to where they are said to be, give or take a hand in a hurry, or each to its pitch.
enum class Rough { by_ear, to_pitch };
void made_ready(HiddenGuitar& guitar, const counterpull::Report& report, Rough rough, std::uint64_t number);
// The tuning step that is then due.
counterpull::Step tune_step(const counterpull::Report& report);
EarRun tune_by_ear(HiddenGuitar& guitar, const counterpull::Report& report, const counterpull::Step& step,
                   const Ears& ears, std::uint64_t number);

// The other way from there (brought up to pitch): the sheet's passes, perhaps another sheet from what the
// tuner then shows, and plainly until all are in tune.
EarRun tune_by_sheet(HiddenGuitar& guitar, const counterpull::Report& report, int sheets,
                     std::uint64_t number);

} // namespace reference
