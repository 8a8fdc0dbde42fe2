// The chain rule between what describes a guitar and what is not known of it: how each number of an assembly
// moves with the unknowns (belief.h), and how a quantity does that depends on such numbers.
//
// All are derivatives of `Belief::assembly` and `Belief::claw`, exact: v·exp(s z) + a z has the slope
// s v·exp(s z) + a. Where a number is held (a core as thick as its string allows, a length behind the saddle
// that cannot be less than nothing) it does not move. Young's modulus goes in steps by the core's diameter
// (wire.h): on either side of a step it does not move, and no slope crosses it.
#pragma once

#include "engine/belief/belief.h"
#include "engine/mechanics/partials.h"

#include <span>
#include <vector>

namespace counterpull {

// Derivatives by the unknowns agree with differences of the whole calculation to this share, and to this much
// where they are small (in mm, cents or turns per spread), away from kinks. Differences tell no more: of
// balances known to about 1e-9 mm (balance.h), a thousandth of a spread apart, on floats that magnify it.
inline constexpr double exact_derivative = 1e-5;

// A row of derivatives has one place for each of some unknowns: where, or −1 for an unknown without one.
struct Columns {
    std::array<int, most_unknowns> of{};
    int operator[](Unknown unknown) const { return of[static_cast<std::size_t>(unknown)]; }
    // One for every unknown in its own order, as in Deviations.
    static Columns all();
    // The row of `width` places with these derivatives in theirs; those without a place are left out.
    std::vector<double> row_of(const Deviations& derivatives, std::size_t width) const;
};
using Derivatives = std::span<double>;
using ConstDerivatives = std::span<const double>;

double dot(ConstDerivatives a, ConstDerivatives b);
// to += factor · what
void add_scaled(double factor, ConstDerivatives what, Derivatives to);

// How the numbers of one assembly move with the unknowns; the springs may be any of the same guitar.
class Chain {
  public:
    Chain(const Belief& belief, const Fitting& fitting, const Assembly& assembly, const Deviations& z,
          const Columns& columns);

    const Columns& columns() const { return columns_; }
    // Adds, scaled, the derivatives of a quantity by the unknowns that move a string's or a spring's own
    // numbers. Attitude, unstretched length and hook are the caller's: they are no numbers of the assembly.
    void add(std::size_t string, const StringPartials& by, double factor, Derivatives row) const;
    void add(const Spring& spring, const SpringPartials& by, double factor, Derivatives row) const;
    // The same by the screw's pitch and by the bridge's block, for what is told by those.
    void add_screw_pitch(double by_pitch, Derivatives row) const;
    void add_block(double by_depth, double by_setback, Derivatives row) const;

  private:
    struct StringPer { // of each unknown that moves the string, in SI per z
        int weight_column = -1;
        double weight = 0.0;  // μ0 by its own unknown
        StringMechanics core; // μ0, EA, EI by Unknown::core
        double height = 0.0, setback = 0.0, dead = 0.0;
    };
    StringPer string_per(const Belief& belief, const Fitting& fitting, const StringOnBridge& string,
                         std::size_t index, const Deviations& z) const;
    void put(Unknown unknown, double amount, Derivatives row) const;

    Columns columns_;
    std::array<StringPer, most_strings> strings_;
    double rate_ = 0.0, initial_tension_ = 0.0; // of each spring's own: these spreads are relative
    double free_length_ = 0.0;                  // of each spring alike
    double block_depth_ = 0.0, block_setback_ = 0.0, screw_pitch_ = 0.0;
};

// The attitude now by the error of its reading (Unknown::tail_now), rad per z.
double angle_now_per_z(const Belief& belief, double angle_rad);

// How the torque of all strings at pitch moves with the unknowns while the attitude stays.
void add_torque_at_pitch(const Assembly& assembly, const Chain& chain, const Attitude& attitude,
                         double factor, Derivatives row);
// That of the springs, with the screws' turns counted and the claw's x held. Returns how it moves with x.
double add_spring_torque(const Assembly& assembly, const Chain& chain, const ClawSetting& claw,
                         const Attitude& attitude, double factor, Derivatives row);

// How the claw's x now moves (m per z, into `row`). Where the reading of the tail fixes it, τ(x, z) = 0 there
// and dx/dz = −(∂τ/∂z)/(∂τ/∂x); where spring lengths do, each says x by Pythagoras. `now` is the assembly of
// fitting_now, `claw` where the claw is.
void add_claw_now(const Belief& belief, const Assembly& now, const Chain& chain, const ClawSetting& claw,
                  const Deviations& z, Derivatives row);

} // namespace counterpull
