// The fit of a guitar's unknowns to its readings.
//
// Maximum a posteriori: with the unknowns in units of their prior spreads and every reading in units of its
// own, x minimizes ½|x|² + ½ r(x)² + ½ Σ ((predicted(x) − read)/σ)², r what standing in tune says
// (standing.h), beyond `outlier_sigmas` Huber's loss in place of the square. Gauss–Newton with
// Levenberg–Marquardt's damping as the safeguard; at the minimum the posterior covariance is (P + a aᵀ +
// JᵀWJ)⁻¹, P the prior's information and W the weights by Huber's loss (information.h). Besides the guitar's
// unknowns (belief.h) every visit to the claw brings one, by how much the screws turned further than was
// counted, ±0.06 turn (not counted: ±0.25), adding up from visit to visit; and every entry one, the friction
// it was read with, a wedge pulled one more, how it was set. The derivatives J are exact (playback.h). There
// may be more than one minimum (calibration.h).
#pragma once

#include "engine/belief/information.h"
#include "engine/belief/playback.h"
#include "engine/belief/standing.h"

#include <utility>
#include <vector>

namespace counterpull {

inline constexpr double outlier_sigmas = 4.0;
// Done where no unknown moves by more than this share of its prior spread.
inline constexpr double settled_step = 1e-7;
// And where a step no longer than this lowers nothing: the moduli of wire go in steps by its diameter
// (wire.h), and a minimum may lie at one, where slopes lead nowhere.
inline constexpr double settled_at_step = 1e-4;
// After as many steps it is done where the last, in full, changed the cost by no more than 1e-10 of it.
inline constexpr int most_fit_steps = 40;
// A reading that changes by more than this, both in their spreads, has jumped (a string gone slack, a stop
// reached): that is no slope, and would leave nothing else of the arithmetic.
inline constexpr double steepest = 1e4;

// Readings to first order: how each moves with the unknowns of a Playback, all in units of their spreads.
struct Linearization {
    RowOfUnknowns unknowns;
    std::vector<int> visit_of;    // entry of the log → visit
    std::vector<int> entry;       // reading → entry
    std::vector<double> weight;   // 1 where it counts in full, 0 where it is left out
    std::vector<double> jacobian; // row by row
    std::vector<double> standing; // the row of what standing in tune says
    ConstDerivatives row(std::size_t reading) const {
        return {jacobian.data() + reading * unknowns.width, unknowns.width};
    }
};

class Fit {
  public:
    explicit Fit(const Belief& prior);

    // Whether it converged. Begins where it stands, at first the prior's mean.
    bool run();
    bool converged() const { return converged_; }
    // The next run begins there: a value for each of the row of unknowns.
    void start_from(std::vector<double> x) { at_.x = std::move(x); }
    const std::vector<double>& at() const { return at_.x; }
    // Of the unknowns that no one entry owns, the `count` directions in which the readings leave them least
    // sure, the weakest first; each as long as 1 σ there.
    std::vector<std::vector<double>> weakest(std::size_t count);

    void use(std::size_t observation, bool used) { used_[observation] = used; }
    bool is_used(std::size_t observation) const { return used_[observation]; }

    const std::vector<Observation>& seen() const { return playback_.observations(); }
    // Whether the guitar where it stands can be played; else nothing is predicted there.
    bool played() const { return at_.played; }
    const std::vector<double>& predicted() const { return at_.predicted; }
    int iterations() const { return iterations_; }
    double cost() const { return cost(at_); } // infinite where it cannot be played

    // How far each reading lies from what all others predict, in σ of both. With h the variance that the fit
    // leaves it and w its weight, without it the residual r is r/(1 − wh) and the variance h/(1 − wh): so
    // r/√((1 − wh)(1 + h(1 − w))), of one counted in full r/√(1 − h), of one left out r/√(1 + h).
    std::vector<double> distances();
    // How far the worst of those used is from the fit, in its own spread.
    double worst() const;
    // Σ of squares of what is used and of what is known a priori, over how many are used; 0 where none is.
    double chi2_per_reading() const;
    // Mean and covariance, given what is used, that times `widened`.
    void condition(Belief& belief, double widened);
    // The bridge as the last entry left it.
    Strung left();
    Linearization linearized() const;

  private:
    bool descend();
    bool linearize();
    double residual(std::size_t o, const std::vector<double>& predicted) const;
    // What was tried: unknowns, whether such a guitar can be played, what standing in tune says of them, and
    // the readings predicted.
    struct Point {
        std::vector<double> x;
        bool played = false;
        double stands = 0.0;
        std::vector<double> predicted;
    };
    // False where no such guitar can be played.
    bool play(Point& point, Settling how);
    double cost(const Point& point) const;
    double prior_squares(const Point& point) const;
    double weight(std::size_t o) const;
    void add_up(double damping);
    void step(double damping);
    double moved() const;
    ConstDerivatives row(std::size_t o) const { return {jacobian_.data() + o * at_.x.size(), at_.x.size()}; }

    Playback playback_;
    Standing standing_;
    Point at_, next_; // where it is, and the step tried
    std::vector<double> change_;
    std::vector<double> jacobian_; // of the observations in units of their σ
    std::vector<double> standing_row_;
    std::vector<bool> used_;
    Information information_;
    int iterations_ = 0;
    bool converged_ = false;
};

} // namespace counterpull
