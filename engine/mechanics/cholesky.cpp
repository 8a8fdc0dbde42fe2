#include "engine/mechanics/cholesky.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

Cholesky::Cholesky(const SymmetricMatrix& matrix) : lower_(matrix.size()), begin_(matrix.size()) {
    factor(matrix);
}

void Cholesky::factor(const SymmetricMatrix& matrix) {
    positive_ = true;
    for (std::size_t row = 0; row < matrix.size(); ++row) {
        std::size_t& begin = begin_[row] = 0;
        while (begin < row && matrix.at(row, begin) == 0.0)
            ++begin;
        for (std::size_t column = begin; column < row; ++column) {
            double value = matrix.at(row, column);
            for (std::size_t k = std::max(begin, begin_[column]); k < column; ++k)
                value -= lower_.at(row, k) * lower_.at(column, k);
            lower_.at(row, column) = value / lower_.at(column, column);
        }
        double diagonal = matrix.at(row, row);
        for (std::size_t k = begin; k < row; ++k)
            diagonal -= lower_.at(row, k) * lower_.at(row, k);
        if (!(diagonal > 0.0)) { // NaN too
            positive_ = false;
            return;
        }
        lower_.at(row, row) = std::sqrt(diagonal);
    }
}

void Cholesky::solve_lower(std::span<double> right) const {
    std::size_t first = 0; // up to here it is zero
    while (first < right.size() && right[first] == 0.0)
        ++first;
    for (std::size_t row = first; row < right.size(); ++row) {
        for (std::size_t k = std::max(begin_[row], first); k < row; ++k)
            right[row] -= lower_.at(row, k) * right[k];
        right[row] /= lower_.at(row, row);
    }
}

void Cholesky::solve_from(std::size_t first, std::span<double> right) const {
    solve_lower(right);
    for (std::size_t row = right.size(); row-- > first;) {
        right[row] /= lower_.at(row, row);
        for (std::size_t k = std::max(begin_[row], first); k < row; ++k)
            right[k] -= lower_.at(row, k) * right[row];
    }
}

std::vector<double> Cholesky::solve(std::vector<double> right) const {
    solve_from(0, right);
    return right;
}

// The last rows of L⁻ᵀ L⁻¹ e need of e's column, which is zero before `first`, the last rows only.
SymmetricMatrix Cholesky::inverse(std::size_t first) const {
    const std::size_t size = lower_.size();
    SymmetricMatrix inverse(size - first);
    std::vector<double> column(size);
    for (std::size_t i = first; i < size; ++i) {
        std::fill(column.begin(), column.end(), 0.0);
        column[i] = 1.0;
        solve_from(first, column);
        for (std::size_t row = first; row < size; ++row)
            inverse.at(row - first, i - first) = column[row];
    }
    return inverse;
}

} // namespace counterpull
