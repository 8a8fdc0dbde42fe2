// What a stretch of sound looks like under a Hann weight, ready to be asked at any frequency.
//
// Time runs in halves of the window from its middle: τ from −1 to 1, weight w(τ) = (1 + cos πτ)/2, ∫w = 1. A
// partial (a + bτ) e^(iuτ) with u = π · frequency · length then has, at another frequency u', the transform
//     ∫ w (a + bτ) e^(i(u−u')τ) dτ = a h0 + b h1,   h_p(u−u') = ∫ w τ^p e^(i(u−u')τ) dτ.
#pragma once

#include "engine/hearing/transform.h"

#include <span>
#include <vector>

namespace counterpull {

// h0, h1 and h2 in closed form: h0 and h2 are real, h1 is imaginary (`h1` its imaginary part).
struct WindowMoments {
    double h0 = 0.0;
    double h1 = 0.0;
    double h2 = 0.0;
};
WindowMoments window_moments(double turn);

// The mains' hum, measured where no string sounded.
struct MainsLines {
    double hz = 50.0;          // or 60
    std::vector<double> power; // |plain|² at hz, 2 hz, …; empty where there is none
};

class Spectrum {
  public:
    // Of samples at a rate; at least 64 of them.
    Spectrum(std::span<const float> samples, double rate_hz);

    double seconds() const { return seconds_; }
    double top_hz() const { return top_hz_; } // highest frequency that may be asked for
    double step_hz() const { return step_hz_; }
    std::size_t size() const { return plain_.size(); } // steps from 0 Hz to above top_hz
    Complex step(std::size_t index) const { return plain_[index]; }

    // ∫ w x e^(−iuτ) and ∫ w τ x e^(−iuτ) at a frequency from 0 to top_hz, between the steps by six of them.
    Complex plain(double hz) const { return between(plain_, hz); }
    Complex sloped(double hz) const { return between(sloped_, hz); }

    // Power of what is no partial, |plain|² on average: a low quantile of what lies within 100 Hz, which
    // partials do not reach.
    double noise(double hz) const;
    // Counts the hum as noise where it is.
    void expect_mains(const MainsLines& mains) { mains_ = mains; }

    // u of a frequency: how far it turns in half the window, in radians.
    double turn(double hz) const;

  private:
    Complex between(const std::vector<Complex>& steps, double hz) const;
    void measure_noise();

    double seconds_ = 0.0;
    double top_hz_ = 0.0;
    double step_hz_ = 0.0;
    std::vector<Complex> plain_, sloped_;
    std::vector<double> noise_; // every noise_step_hz
    MainsLines mains_;
};

// The hum in a sound without strings: of 50 and 60 Hz that which stands out more.
MainsLines mains_of(const Spectrum& quiet);

} // namespace counterpull
