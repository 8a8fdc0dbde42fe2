// When something was struck: where the sound rises.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace counterpull {

// Follows the energy in stretches of a hundredth of a second, of the sound and of its rises alone (its
// difference, where a string that joins others is heard best).
class Onsets {
  public:
    explicit Onsets(double rate_hz);
    // More samples; says whether there was an onset in them, and keeps when.
    void hear(std::span<const float> samples);
    // Seconds from the first sample on; 0, the beginning, where there was none yet.
    double last_s() const { return last_s_; }
    int count() const { return count_; }

  private:
    void judge(double energy, double edge);

    double rate_hz_;
    std::size_t stretch_;
    std::size_t filled_ = 0;
    std::size_t stretches_ = 0;
    double energy_ = 0.0, edge_ = 0.0; // of the stretch under way
    float before_ = 0.0F;
    std::vector<double> energies_, edges_; // of the last stretches, newest last
    double last_s_ = 0.0;
    int count_ = 0;
};

} // namespace counterpull
