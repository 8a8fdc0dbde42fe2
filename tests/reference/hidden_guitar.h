// A guitar whose true numbers the tool does not know: drawn from the priors, tuned, turned and read with the
// errors of a hand, a ruler and a tuner. Used to follow the tool's advice blindly and see where it ends.
#pragma once

#include "engine/advice/report.h"
#include "engine/belief/belief.h"
#include "engine/mechanics/tuning.h"

#include <cstdint>
#include <random>

namespace reference {

class HiddenGuitar {
  public:
    // `setup` is what its player writes down, but for the tail reading, which is taken here. `number` seeds
    // it.
    HiddenGuitar(const counterpull::Setup& setup, std::uint64_t number);

    bool possible() const { return possible_; } // its player's "now" is a guitar that exists
    // Whether some straight arrangement of the player's springs holds it stiffly enough for a screwdriver.
    bool can_be_held() const;

    // Both screws by so many turns more, as exactly as a hand does it, on these springs.
    void turn(const counterpull::Arrangement& springs, double more_turns);
    // The same with an eye on the tuner: until one string (by its place) shows so many cents, as well as it
    // can be read. Returns the turns as counted, as well as a hand counts.
    double turn_until(int string, double cents, double about_turns);
    void string_up();         // next strings, slack, wedge out
    void tune_plainly_once(); // lowest to highest
    int tune_until_in_tune(); // passes it took
    void
    aim(const std::vector<double>& cents); // each string once, lowest first, tuned until the tuner shows that
    void wedge_and_tune();                 // blocked as wanted, every string tuned once
    void pull_wedge();

    double read_tail_mm();
    std::vector<std::optional<double>> read_cents();
    counterpull::Reading read_test(const counterpull::TestReading& test);

    std::vector<double> cents() const; // true
    double tail_mm() const;            // true, as it stands
    double tail_in_tune_mm() const;    // true, once brought to pitch
    double truth(counterpull::Unknown unknown) const { return truth_[static_cast<std::size_t>(unknown)]; }
    const counterpull::Setup& setup() const { return setup_; }
    counterpull::Setup& setup() { return setup_; }

  private:
    double noise(double sigma) { return sigma * normal_(random_); }
    counterpull::Assembly assembly() const;

    counterpull::Setup setup_;
    std::mt19937_64 random_;
    std::normal_distribution<double> normal_;
    counterpull::Deviations truth_{};
    bool possible_ = false;
    bool next_on_ = false; // the next strings, in the next tuning
    counterpull::ClawSetting claw_;
    counterpull::Arrangement springs_;
    counterpull::Strung strung_;
};

} // namespace reference
