// Sounds whose truth is known: stiff strings made partial by partial, what a phone and a room do to them, and
// what is no string at all. The same seed makes the same sound.
#pragma once

#include "engine/hearing/tone.h"

#include <cstdint>
#include <vector>

namespace counterpull::test {

using Sound = std::vector<float>;

// Numbers that look random (SplitMix64, Steele, Lea & Flood 2014), the same on every machine.
class Dice {
  public:
    explicit Dice(std::uint64_t seed) : state_(seed * 0x9E3779B97F4A7C15u + 0x1234567u) {}
    double uniform(double low, double high);
    double normal(); // mean 0, spread 1
    bool chance(double share) { return uniform(0.0, 1.0) < share; }

  private:
    std::uint64_t next();
    std::uint64_t state_;
};

// One pluck. The truth is `tone`: where it settles.
struct Pluck {
    Tone tone;
    double at_s = 0.0;
    double amplitude = 0.2;
    double place = 0.15;      // plucked at this share of the length
    double decay_s = 3.0;     // of the fundamental, to 1/e
    double damping = 0.15;    // further decays: rate of partial n is (1 + damping (n − 1)) / decay
    double glide_cents = 0.0; // sharp at first, gone within half a second
    double sharp_with_power_cents = 0.0; // sharp by as much at first, in proportion to the power
    double beating_cents = 0.2;          // between the two polarisations
    double scatter_cents = 0.2;          // each partial for itself
    double pulled_cents = 0.0;           // the fundamental, by what carries the string
};
Pluck any_pluck(const Tone& tone, Dice& dice);
void add_pluck(Sound& sound, double rate_hz, const Pluck& pluck, Dice& dice);

// A phone's microphone: high-pass of third order at 180 Hz and of first order at 300 Hz.
void through_phone(Sound& sound, double rate_hz);
// White noise so many decibels below the sound's mean power from `from_s` on.
void add_noise(Sound& sound, double rate_hz, double snr_db, double from_s, Dice& dice);
// Mains: a multiple of 50 or 60 Hz in each line, so many decibels below the sound.
void add_hum(Sound& sound, double rate_hz, double mains_hz, double below_db, Dice& dice);

// No strings: made at an amplitude that matters.
Sound speech(double rate_hz, double seconds, Dice& dice);
Sound clap(double rate_hz, double seconds, Dice& dice);
Sound passing_car(double rate_hz, double seconds, Dice& dice);
Sound hum_alone(double rate_hz, double seconds, double mains_hz, Dice& dice);

} // namespace counterpull::test
