// Small dense symmetric systems: Cholesky's factor, solving with it, and the inverse.
#pragma once

#include <cstddef>
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

// The lower factor L of a positive definite A = L Lᵀ.
class Cholesky {
  public:
    explicit Cholesky(const SymmetricMatrix& matrix);
    // False where the matrix is not positive definite; then nothing else may be asked.
    bool positive_definite() const { return positive_; }
    std::vector<double> solve(std::vector<double> right) const; // A x = right
    SymmetricMatrix inverse() const;

  private:
    SymmetricMatrix lower_;
    bool positive_ = true;
};

} // namespace counterpull
