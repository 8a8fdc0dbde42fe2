// The tool's advice followed blindly on hidden guitars: how many visits to the claw, how many strings tuned;
// beside what was predicted, and beside what a player does without the tool.
//
// A visit to the claw begins at the screws and ends with the first reading in tune after it. A tuning is one
// string brought to one aim; bringing new strings up roughly is counted apart.
#pragma once

#include "engine/document/setup.h"

#include <string>
#include <vector>

namespace reference {

enum class Player {
    plain,       // follows the tool, no test reading and no wedge
    tested,      // the same after the test reading that the tool asks for
    rest_turned, // the same; in the first visit what is left, by what the tuner shows, is turned before
                 // tuning
    wedged,      // wedged, tuned once, the wedge pulled, the claw eased by the tuner
    advised,     // the way that the tool names
    by_feel,     // a quarter turn for each 0.9 mm that it stands off, retuned plainly, again
    wedge_alone, // the springs a surplus tighter, wedged, tuned, eased until the tuner reads pitch; then by
                 // feel
};
std::string_view name_of(Player player);

enum class Done {
    truly,   // the tail truly within 0.5 mm of what is wanted
    as_read, // as the ruler says
};

struct Change {
    std::string name;
    counterpull::Setup setup; // what the player writes down; its tail is where it truly stands
};
// Seven kinds, from a small correction to a heavy drop tuning, on a recessed bridge with knife edges; and two
// of them with two posts. Presets of the second edition.
std::vector<Change> changes();
Change change_called(std::string_view name); // throws std::out_of_range where there is none

inline constexpr int most_visits = 5;
inline constexpr int lost = most_visits + 1;
inline constexpr int most_visits_by_feel = 15; // theirs are counted on
inline constexpr double close_enough_mm = 0.5;

struct Run {
    int visits = 0; // `lost` where it took more
    int tunings = 0, rough = 0;
    int first_tunings = 0;        // in the first visit
    int further_turns = 0;        // at the screws again before it was in tune
    int wedge_dropped = 0;        // how often
    double off_mm = 0.0;          // the true tail at the end
    double first_mm = 0.0;        // after the first visit, signed, from what is wanted
    double second_mm = 0.0;       // likewise; 0 where there was none
    double first_sigma = 0.0;     // what of the screws' turns was said to be unsure then, 1 σ
    double first_turns_off = 0.0; // the turns that would have been right, less those advised
    double predicted_visits = 0.0, predicted_tunings = 0.0; // by the way followed, a visit
    double predicted_first_mm = 0.0;                        // 1 σ of the tail after the first visit
};

struct Outcome {
    std::vector<Run> runs;
    int within(int visits) const; // guitars that needed at most so many visits
    int gone() const { return static_cast<int>(runs.size()) - within(most_visits); }
    // Of what a run says: the mean, and what so large a share of runs is not above.
    template <typename What>
    double mean(What what) const {
        double sum = 0.0;
        for (const Run& run : runs)
            sum += what(run);
        return sum / static_cast<double>(runs.size());
    }
    double at(double share, int Run::*what) const;
    double covered() const; // share of guitars whose turns lie in the range of 90 % that was told
};

// `count` hidden guitars, numbered from `first`.
Outcome follow(const counterpull::Setup& setup, Player player, Done done, int first, int count);

} // namespace reference
