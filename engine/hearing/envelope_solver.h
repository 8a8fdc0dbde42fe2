// A Hermitian positive definite system whose rows begin late: Cholesky within the envelope of its lower half.
//
// Source: George & Liu, Computer Solution of Large Sparse Positive Definite Systems (the envelope method),
// from memory.
#pragma once

#include "engine/hearing/transform.h"

#include <cstddef>
#include <vector>

namespace counterpull {

class EnvelopeSystem {
  public:
    // Row i has entries from column first[i] to i; first never falls.
    explicit EnvelopeSystem(std::vector<std::size_t> first);

    Complex& at(std::size_t row, std::size_t column) { return entries_[start_[row] + column - first_[row]]; }
    std::size_t first(std::size_t row) const { return first_[row]; }

    // A = L L*. False where it is not positive definite: then nothing below may be asked.
    [[nodiscard]] bool factorize();
    void solve(std::vector<Complex>& right) const; // in place
    // One entry of the diagonal of A⁻¹: what later rows within `reach` rows add to it.
    double inverse_diagonal(std::size_t row, std::size_t reach) const;

  private:
    Complex entry(std::size_t row, std::size_t column) const {
        return entries_[start_[row] + column - first_[row]];
    }

    std::vector<std::size_t> first_, start_;
    std::vector<Complex> entries_;
};

} // namespace counterpull
