#include "engine/mechanics/cholesky.h"

#include <cmath>

namespace counterpull {

Cholesky::Cholesky(const SymmetricMatrix& matrix) : lower_(matrix.size()) {
    for (std::size_t column = 0; column < matrix.size(); ++column) {
        double diagonal = matrix.at(column, column);
        for (std::size_t k = 0; k < column; ++k)
            diagonal -= lower_.at(column, k) * lower_.at(column, k);
        if (!(diagonal > 0.0)) { // NaN too
            positive_ = false;
            return;
        }
        lower_.at(column, column) = std::sqrt(diagonal);
        for (std::size_t row = column + 1; row < matrix.size(); ++row) {
            double value = matrix.at(row, column);
            for (std::size_t k = 0; k < column; ++k)
                value -= lower_.at(row, k) * lower_.at(column, k);
            lower_.at(row, column) = value / lower_.at(column, column);
        }
    }
}

std::vector<double> Cholesky::solve(std::vector<double> right) const {
    const std::size_t size = lower_.size();
    for (std::size_t row = 0; row < size; ++row) {
        for (std::size_t k = 0; k < row; ++k)
            right[row] -= lower_.at(row, k) * right[k];
        right[row] /= lower_.at(row, row);
    }
    for (std::size_t row = size; row-- > 0;) {
        for (std::size_t k = row + 1; k < size; ++k)
            right[row] -= lower_.at(k, row) * right[k];
        right[row] /= lower_.at(row, row);
    }
    return right;
}

SymmetricMatrix Cholesky::inverse() const {
    const std::size_t size = lower_.size();
    SymmetricMatrix inverse(size);
    for (std::size_t column = 0; column < size; ++column) {
        std::vector<double> unit(size);
        unit[column] = 1.0;
        const std::vector<double> solved = solve(std::move(unit));
        for (std::size_t row = 0; row < size; ++row)
            inverse.at(row, column) = solved[row];
    }
    return inverse;
}

} // namespace counterpull
