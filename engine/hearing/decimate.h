// Fewer samples a second: a low-pass, then every so manieth.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace counterpull {

// From any rate of 8 to 192 kHz to one of 8 to 20 kHz, by a whole factor. What is above 0.6 of the new rate
// is 80 dB down; below 0.4 of it nothing is lost. (Kaiser's window, Oppenheim & Schafer, Discrete-Time Signal
// Processing.)
class Decimator {
  public:
    explicit Decimator(double rate_hz);
    double rate_hz() const { return rate_hz_; } // of what comes out
    // Appends what comes of more samples; a chunk may have any length.
    void pass(std::span<const float> samples, std::vector<float>& out);

  private:
    std::size_t factor_;
    double rate_hz_;
    std::vector<float> taps_;
    std::vector<float> recent_; // samples that later outputs still need
    std::size_t skip_ = 0;      // of the next samples, until one counts
};

} // namespace counterpull
