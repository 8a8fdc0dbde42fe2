// The tool's advice followed blindly on hidden guitars: how many visits to the claw, how many tuning passes.
#pragma once

#include "engine/document/setup.h"

#include <string>
#include <vector>

namespace reference {

enum class Way {
    tail_only,  // tuned plainly, the tail read in tune
    with_tuner, // tuned by the sheet, what the tuner shows read too
    test_first, // the same after the one test reading that the tool asks for
    with_wedge, // wedged, tuned once, the wedge pulled, the claw eased
};
std::string_view name_of(Way way);

struct Change {
    std::string name;
    counterpull::Setup setup; // what the player writes down; its tail is where it truly stands
};
// Five kinds, from a small correction to a heavy drop tuning, on a usual bridge.
std::vector<Change> changes();

struct Outcome {
    int guitars = 0;             // that exist and can be held stiffly enough
    int not_held = 0;            // that no usual arrangement holds stiffly enough
    std::vector<int> visits;     // to the claw, sorted; `lost` where it took more than `most_visits`
    std::vector<int> passes;     // of tuning, in all, sorted
    std::vector<double> tail_mm; // how far off the true tail is after the last visit, sorted
    int within(int most) const;  // guitars that needed at most so many visits
    double median_visits() const;
};
inline constexpr int most_visits = 5;
inline constexpr int lost = most_visits + 1;
inline constexpr double close_enough_mm = 0.3;

// `count` hidden guitars that can be held, numbered from `first`.
Outcome follow_advice(const counterpull::Setup& setup, Way way, int first, int count);

} // namespace reference
