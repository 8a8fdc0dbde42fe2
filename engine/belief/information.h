// What readings say, added up: the information matrix, whose inverse is the covariance of the unknowns.
//
// A priori, in the row of unknowns of a Playback (first the screws' walk w of every visit, in units of its
// own spread, then the others z), ½ Σ (w_v − w_{v−1})² + ½ Σ z² is minimized: with w_{−1} = 0 a chain, 2 on
// the diagonal (1 at its end) and −1 beside it, and 1 for each z. A reading with the derivatives j, in units
// of its σ, adds jᵀj. A visit is read about near itself, so the matrix stays a band with a border: its factor
// does too (cholesky.h).
#pragma once

#include "engine/belief/chain.h"
#include "engine/mechanics/cholesky.h"

namespace counterpull {

class Information {
  public:
    Information(std::size_t width, int visits);
    // To what is known a priori, that times (1 + damping).
    void reset(double damping = 0.0);
    void add(double weight, ConstDerivatives row);
    // The factor of what is added up so far; until it is changed or asked for again.
    const Cholesky& factored();
    // 1 σ of a quantity with this gradient; overwrites the gradient.
    double sigma_of(Derivatives gradient);

  private:
    SymmetricMatrix matrix_; // its lower half
    Cholesky factor_;
    std::size_t visits_;
    std::vector<std::size_t> known_visits_; // to the row added
};

} // namespace counterpull
