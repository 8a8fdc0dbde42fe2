// Small dense symmetric systems: Cholesky's factor, solving with it, and the inverse.
//
// The factor has zeros where the matrix does, in every row up to its first number; these are skipped. So a
// matrix that is a band with a border below it, as of a chain of unknowns and some common to all of them,
// costs no more than that.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace counterpull {

// Row by row, `size` × `size`.
class SymmetricMatrix {
  public:
    explicit SymmetricMatrix(std::size_t size) : size_(size), values_(size * size) {}
    std::size_t size() const { return size_; }
    double& at(std::size_t row, std::size_t column) { return values_[row * size_ + column]; }
    double at(std::size_t row, std::size_t column) const { return values_[row * size_ + column]; }

  private:
    std::size_t size_;
    std::vector<double> values_;
};

// The lower factor L of a positive definite A = L Lᵀ. Of A only the lower half is read.
class Cholesky {
  public:
    explicit Cholesky(const SymmetricMatrix& matrix);
    // Another matrix of the same size, without asking for memory.
    void factor(const SymmetricMatrix& matrix);
    // False where the matrix is not positive definite; then nothing else may be asked.
    bool positive_definite() const { return positive_; }
    std::vector<double> solve(std::vector<double> right) const; // A x = right
    // L y = right, in place: |y|² is rightᵀ A⁻¹ right.
    void solve_lower(std::span<double> right) const;
    // Of the inverse the rows and columns from `first` on.
    SymmetricMatrix inverse(std::size_t first = 0) const;

  private:
    // A x = right for what is zero, and left as it is, before `first`.
    void solve_from(std::size_t first, std::span<double> right) const;

    SymmetricMatrix lower_;
    std::vector<std::size_t> begin_; // row → its first number that is not zero
    bool positive_ = true;
};

} // namespace counterpull
