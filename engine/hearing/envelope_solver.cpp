#include "engine/hearing/envelope_solver.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace counterpull {

EnvelopeSystem::EnvelopeSystem(std::vector<std::size_t> first) : first_(std::move(first)) {
    std::size_t count = 0;
    for (std::size_t row = 0; row < first_.size(); ++row) {
        start_.push_back(count);
        count += row - first_[row] + 1;
    }
    entries_.resize(count);
}

bool EnvelopeSystem::factorize() {
    for (std::size_t row = 0; row < first_.size(); ++row) {
        for (std::size_t column = first_[row]; column <= row; ++column) {
            Complex sum = entry(row, column);
            for (std::size_t k = std::max(first_[row], first_[column]); k < column; ++k)
                sum = sum - entry(row, k) * conjugate(entry(column, k));
            if (column < row) {
                at(row, column) = (1.0 / entry(column, column).re) * sum;
            } else {
                if (!(sum.re > 0.0))
                    return false;
                at(row, row) = {std::sqrt(sum.re), 0.0};
            }
        }
    }
    return true;
}

void EnvelopeSystem::solve(std::vector<Complex>& right) const {
    for (std::size_t row = 0; row < first_.size(); ++row) {
        for (std::size_t k = first_[row]; k < row; ++k)
            right[row] = right[row] - entry(row, k) * right[k];
        right[row] = (1.0 / entry(row, row).re) * right[row];
    }
    for (std::size_t row = first_.size(); row-- > 0;) {
        right[row] = (1.0 / entry(row, row).re) * right[row];
        for (std::size_t k = first_[row]; k < row; ++k)
            right[k] = right[k] - conjugate(entry(row, k)) * right[row];
    }
}

// |L⁻¹ e|²: the column of L⁻¹ runs down from the row asked for.
double EnvelopeSystem::inverse_diagonal(std::size_t row, std::size_t reach) const {
    const std::size_t end = std::min(first_.size(), row + reach);
    std::vector<Complex> column(end - row);
    double sum = 0.0;
    for (std::size_t i = row; i < end; ++i) {
        Complex value{i == row ? 1.0 : 0.0, 0.0};
        for (std::size_t k = std::max(first_[i], row); k < i; ++k)
            value = value - entry(i, k) * column[k - row];
        column[i - row] = (1.0 / entry(i, i).re) * value;
        sum += squared(column[i - row]);
    }
    return sum;
}

} // namespace counterpull
