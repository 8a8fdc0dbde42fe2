// What is not known for sure about a guitar, and how far off it may be.
//
// Each unknown is a deviation z from the number in the set-up, counted in its own spread: a priori z is
// normal with mean 0 and variance 1, and all are independent but for one thing: a guitar that stands in tune
// has not run away (standing.h), a pseudo-reading that is a·z = 0 ± 1 to first order. A number v with a
// relative spread s stands for v·exp(s z), one with an absolute spread a for v + a z. Spreads (1 σ; common
// practice, from memory): of what stands in the document, in its table of fields, by basis: usual, measured,
// or a guess, which is twice the usual. Unit weight 1.5 % per string; core of a wound string where it is
// estimated 8 % in diameter. Readings: tail ±0.3 mm, spring length ±0.3 mm each, screws ±0.06 turn at each
// visit, tuner ±1.5 cents. Friction at the pivot holds the bridge anywhere within a band of torque, the same
// for all that is read at one time: σ = b/√3, b = 0.0025 N·m for each cent of `return_cents` (a worn knife
// edge: μ 0.2, radius 0.3 mm, load 500 N make ±0.03 N·m at 12 cents; from memory). Readings since "now" move
// the mean and shrink the spread (calibration.h): then a Belief carries both.
#pragma once

#include "engine/document/model.h"
#include "engine/document/unknown.h"

#include <array>
#include <string_view>
#include <vector>

namespace counterpull {

inline constexpr int most_unknowns = common_unknowns + 2 * most_strings;
inline constexpr double tail_reading_mm = 0.3;
inline constexpr double spring_reading_mm = 0.3;
inline constexpr double screw_reading_turns = 0.06;
// Turned until the tuner showed something, and not counted.
inline constexpr double uncounted_turns = 0.25;
inline constexpr double tuner_reading_cents = 1.5;
// A string far off its pitch is read less surely, and the model of how it got there is too: this share more
// (a choice of ours).
inline constexpr double tuner_reading_share = 0.03;

// Half the band of friction for each cent that the lowest string comes back apart, and 1 σ of it.
inline constexpr double friction_nm_per_cent = 0.0025;
double friction_sigma_nm(const GuitarSetup& guitar);

// Relative spread of a unit weight.
inline constexpr double weight_share = 0.015;
// A core this near its string's diameter leaves no room for a wrap.
inline constexpr double thickest_core = 0.97;

// One number per unknown: a deviation, or a derivative by it.
using Deviations = std::array<double, most_unknowns>;
// Of the unknowns, in units of their prior spreads; row by row.
using Covariance = std::vector<double>;

struct Spread {
    double share = 0.0;    // relative, or
    double absolute = 0.0; // in the document's unit
    double at(double value, double z) const;
    double size_at(double value) const; // 1 σ in the value's unit
    // d/dz of `at`, where it has come to `moved`: share · (moved − absolute z) + absolute.
    double slope(double moved, double z) const { return share * (moved - absolute * z) + absolute; }
};

class Belief {
  public:
    // `setup` must outlive it and must have passed check_setup.
    explicit Belief(const Setup& setup);

    const Setup& setup() const { return *setup_; }
    Spread spread(Unknown unknown) const { return spreads_[static_cast<std::size_t>(unknown)]; }
    // The unknown of a string's unit weight. A string that stays on is the same string next.
    int weight_index(Which strings, std::size_t string) const;
    // The same for any strings that an assembly is made of. Those that an entry of the log carries itself
    // have the unknown of the string now or next that is like them; where neither is, they have none of their
    // own (−1): such a string is taken as the document has it.
    int weight_index(const Fitting& fitting, std::size_t string) const;
    // Whether an unknown plays any part in this set-up.
    bool used(int unknown) const;

    // What is believed: a priori all zero.
    const Deviations& mean() const { return mean_; }
    // a of what standing in tune says a priori.
    const Deviations& standing() const { return standing_; }
    // 1 σ of a quantity with this gradient by the unknowns.
    double sigma_of(const Deviations& gradient) const;
    double sigma_of(Unknown unknown) const; // in units of its prior spread
    // Empty a priori: then it is (1 + a aᵀ)⁻¹.
    const Covariance& covariance() const { return covariance_; }
    // Conditioned on readings: what is believed from now on.
    void condition(const Deviations& mean, Covariance covariance);
    // The same guitar in another set-up, whose next strings are as unknown as any. Its spread is the prior's.
    Belief about(const Setup& other) const;

    // The guitar as it would be with these deviations, or as it is believed to be. Deviations of readings
    // play no part here.
    Assembly assembly(const Fitting& fitting, const Deviations& z) const;
    Assembly assembly(const Fitting& fitting) const { return assembly(fitting, mean_); }
    // What of a string stretches but does not speak, m, and how that moves with Unknown::dead_length.
    double dead_m(std::size_t string, double z) const { return dead_m(string, z, setup_->guitar.nut_locked); }
    double dead_m(std::size_t string, double z, bool nut_clamped) const;
    double dead_per_z_m(std::size_t string, double z) const;
    // Where the claw is now; `now` is the assembly of fitting_now with the same deviations.
    std::optional<ClawSetting> claw(Assembly now, const Deviations& z, Problems& problems) const;
    // The attitude now, the reading's error put right.
    double angle_now_rad(const Deviations& z) const;

  private:
    Belief(const Setup& setup, const Deviations& standing);

    const Setup* setup_;
    std::array<Spread, common_unknowns> spreads_{};
    Spread anchor_, headstock_; // both moved by Unknown::dead_length
    std::array<bool, most_strings> stays_{};
    Deviations standing_{};
    Deviations mean_{};
    Covariance covariance_;
};

// The path under guitar that an unknown's basis stands at; "" for readings, cores and weights.
std::string_view path_of(Unknown unknown);

} // namespace counterpull
