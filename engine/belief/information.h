// What readings say, added up: the information matrix, whose inverse is the covariance of the unknowns.
//
// A priori, in the row of unknowns of a Playback (first what belongs to one entry of the log: the screws'
// walk w of every visit, in units of a counted turn's spread, what friction did to each entry, and how far
// off each wedge was set; then the others z), ½ Σ ((w_v − w_{v−1})/s_v)² + ½ Σ z² is minimized, s_v how much
// surer a counted turn is than that visit's: with w_{−1} = 0 a chain, p_v + p_{v+1} on the diagonal (p =
// 1/s², nothing past its end) and −p_v between one visit and the one before, and 1 for each other. A reading
// with the derivatives j, in units of its σ, adds jᵀj; so does what standing in tune says (standing.h). An
// entry's own unknowns are read about near itself, so the matrix stays a band with a border: its factor does
// too (cholesky.h).
#pragma once

#include "engine/belief/chain.h"
#include "engine/mechanics/cholesky.h"

namespace counterpull {

// What a row of unknowns is made of.
struct RowOfUnknowns {
    Columns columns;                 // of the belief's: where
    std::size_t width = 0;           // of the whole
    std::size_t of_entries = 0;      // the first so many belong to one entry or visit each
    std::vector<std::size_t> visits; // which of those are the screws' walks, in order
    std::vector<double> precision;   // p of each visit: 1 where its turns were counted
};

class Information {
  public:
    explicit Information(const RowOfUnknowns& unknowns);
    // To what is known a priori, that times (1 + damping).
    void reset(double damping = 0.0);
    void add(double weight, ConstDerivatives row);
    // The factor of what is added up so far; until it is changed or asked for again.
    const Cholesky& factored();
    // 1 σ of a quantity with this gradient; overwrites the gradient.
    double sigma_of(Derivatives gradient);

  private:
    RowOfUnknowns unknowns_;
    SymmetricMatrix matrix_; // its lower half
    Cholesky factor_;
    std::vector<std::size_t> known_; // of one entry, to the row added
};

} // namespace counterpull
