// A guitar whose true numbers the tool does not know, and the hands of its player: tuned, turned and read
// with the errors of a hand, a ruler, a tuner and a pivot that rubs. Used to follow the tool's advice blindly
// and see where it ends.
//
// Its numbers are drawn around those of the set-up by the spreads of usual guitars (common practice, from
// memory), and not by what the tool believes: springs one by one, each string's core by itself. It obeys the
// tool's own formulas of the balance; whether those are right is judged elsewhere.
#pragma once

#include "engine/advice/report.h"
#include "engine/mechanics/tuning.h"

#include <cstdint>
#include <random>

namespace reference {

// 1 σ of what a hand reads and turns.
inline constexpr double hand_ruler_mm = 0.25;
inline constexpr double hand_tuner_cents = 1.5;
inline constexpr double hand_screw_turns = 0.05;

class HiddenGuitar {
  public:
    // `setup` is what its player writes down, but for the tail reading, which is taken here. `number` seeds
    // it. `springs_off`: its springs are that much stiffer than written down, instead of anything usual.
    HiddenGuitar(const counterpull::Setup& setup, std::uint64_t number,
                 std::optional<double> springs_off = {});

    // Its player's "now" is a guitar that exists: it floats in tune, its springs are open, and it is as stiff
    // as floats are: kept with the probability exp(−½((ln|s| − ln 3.4)/0.35)²), s the mm of tail per turn of
    // both screws with 10–46 in E on three of its springs, level.
    bool possible() const { return possible_; }

    // Both screws by so many turns more, as exactly as a hand does it, on these springs.
    void turn(const counterpull::Arrangement& springs, double more_turns);
    // These springs, the screws left alone.
    void turn_nothing(const counterpull::Arrangement& springs);
    // Both screws with an eye on the tuner: until one string (by its place) shows so many cents, as well as
    // it can be read. Returns the turns as counted, as well as a hand counts.
    double turn_until(int string, double cents, double about_turns);
    // From here on the tuner is read against the next tuning; done with the first string tuned to it, at the
    // latest.
    void mean_next();
    void string_up(); // next strings, slack, wedge out
    // Lowest to highest, what is out of tune brought to pitch. Returns the strings tuned.
    int tune_plainly_once();
    int tune_until_in_tune(); // the same until all are in tune
    // Each string once, lowest first, tuned until the tuner shows that.
    void aim(const std::vector<double>& cents);
    // One string (by its place), until the tuner shows that.
    void tune_one(int string, double cents);
    void wedge_and_tune(); // blocked as wanted, as well as a ruler tells, every string tuned once
    // Whether the springs hold the bridge against a wedge with every string at pitch; if not it drops out.
    bool holds_wedge() const;
    void pull_wedge();
    // After the arm was worked friction holds it somewhere else.
    void work_the_arm();

    double read_tail_mm();
    std::vector<std::optional<double>> read_cents();
    counterpull::Reading read_test(const counterpull::TestReading& test);

    std::vector<double> cents() const;                  // true
    double tail_mm() const;                             // true, as it stands
    double per_turn_mm() const { return per_turn_mm_; } // s above
    // The string's inharmonicity (by its place), as it stands.
    double inharmonicity(int string) const;
    // How much stiffer than in the set-up its springs are, on the mean: the logarithm.
    double spring_rate_log() const;
    // The turns from where the screws stand that would leave it as wanted, free of friction; nothing where
    // none do.
    std::optional<double> turns_wanted(const counterpull::Arrangement& springs) const;
    const counterpull::Setup& setup() const { return setup_; }
    counterpull::Setup& setup() { return setup_; }

  private:
    struct StringTruth {
        double weight = 1.0, core = 1.0; // factors
    };
    struct SpringTruth {
        double rate = 1.0, initial_tension = 1.0; // factors
        double longer_mm = 0.0;
    };
    double noise(double sigma) { return sigma * normal_(random_); }
    double factor(double share) { return std::exp(noise(share)); }
    void draw(std::optional<double> springs_off);
    bool exists();
    double friction(); // a torque, N·m
    counterpull::Assembly
    assembly_of(const counterpull::Fitting& fitting,
                const std::array<StringTruth, counterpull::most_strings>& strings) const;
    counterpull::Assembly assembly_now() const;
    counterpull::Assembly assembly_next(const counterpull::Arrangement& springs) const;
    counterpull::Assembly assembly() const; // with what is on it, as friction holds it
    double usual_per_turn_mm() const;
    const SpringTruth& spring_truth(const counterpull::PlacedSpring& spring) const {
        return springs_truth_[static_cast<std::size_t>(spring.hook) % springs_truth_.size()];
    }

    counterpull::Setup setup_;
    std::mt19937_64 random_;
    std::normal_distribution<double> normal_;
    std::array<StringTruth, counterpull::most_strings> now_, next_;
    std::array<SpringTruth, counterpull::most_springs> springs_truth_; // by the hook they hang on
    double saddle_height_ = 1.0, saddle_setback_ = 1.0, block_depth_ = 1.0, block_setback_ = 1.0;
    double screw_pitch_ = 1.0, dead_length_ = 1.0;
    double per_turn_mm_ = 0.0;
    double held_nm_ = 0.0; // by friction, at the moment
    bool possible_ = false;
    bool next_on_ = false; // the next strings, in the next tuning
    counterpull::ClawSetting claw_;
    counterpull::Arrangement springs_;
    counterpull::Strung strung_;
};

} // namespace reference
