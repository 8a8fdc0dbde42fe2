// When something was struck: where the sound rises.
#pragma once

#include <array>
#include <cstddef>
#include <span>
#include <vector>

namespace counterpull {

// Follows the energy in stretches of a hundredth of a second: of the sound, of its differences and of theirs,
// which hear more and more of the treble alone. What is struck rises in all three; strings that beat against
// each other rise in one.
class Onsets {
  public:
    explicit Onsets(double rate_hz);
    void hear(std::span<const float> samples);
    // Seconds from the first sample on; 0, the beginning, where there was none yet.
    double last_s() const { return last_s_; }

  private:
    static constexpr std::size_t bands = 3;
    void judge();
    bool rises(double by) const;

    double rate_hz_;
    std::size_t stretch_;
    std::size_t filled_ = 0;
    std::size_t stretches_ = 0;
    std::array<double, bands> energy_{}; // of the stretch under way
    double before_ = 0.0, difference_before_ = 0.0;
    std::vector<std::array<double, bands>> energies_; // of the last stretches, newest last
    double last_s_ = 0.0;
    bool any_ = false;
};

} // namespace counterpull
