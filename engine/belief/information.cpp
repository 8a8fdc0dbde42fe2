#include "engine/belief/information.h"

#include <cmath>

namespace counterpull {

namespace {

double squared(ConstDerivatives row) {
    double sum = 0.0;
    for (const double value : row)
        sum += value * value;
    return sum;
}

} // namespace

Information::Information(std::size_t width, int visits)
    : matrix_(width), factor_(matrix_), visits_(static_cast<std::size_t>(visits)) {
    known_visits_.reserve(visits_);
    reset();
}

void Information::reset(double damping) {
    const double one = 1.0 + damping;
    for (std::size_t row = 0; row < matrix_.size(); ++row) {
        for (std::size_t column = 0; column < row; ++column)
            matrix_.at(row, column) = 0.0;
        matrix_.at(row, row) = row + 1 < visits_ ? 2.0 * one : one;
        if (row > 0 && row < visits_)
            matrix_.at(row, row - 1) = -one;
    }
}

// Of the visits a reading knows few; the other unknowns are taken as they come.
void Information::add(double weight, ConstDerivatives row) {
    known_visits_.clear();
    for (std::size_t v = 0; v < visits_; ++v)
        if (row[v] != 0.0)
            known_visits_.push_back(v);
    for (const std::size_t a : known_visits_)
        for (const std::size_t b : known_visits_)
            if (b <= a)
                matrix_.at(a, b) += weight * row[a] * row[b];
    for (std::size_t a = visits_; a < row.size(); ++a) {
        const double scaled = weight * row[a];
        for (const std::size_t v : known_visits_)
            matrix_.at(a, v) += scaled * row[v];
        double* const to = &matrix_.at(a, 0);
        for (std::size_t b = visits_; b <= a; ++b)
            to[b] += scaled * row[b];
    }
}

const Cholesky& Information::factored() {
    factor_.factor(matrix_);
    return factor_;
}

double Information::sigma_of(Derivatives gradient) {
    factored().solve_lower(gradient);
    return std::sqrt(squared(gradient));
}

} // namespace counterpull
