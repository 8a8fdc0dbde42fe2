#include "engine/belief/information.h"

#include <cmath>

namespace counterpull {

namespace {

double squared(ConstRow row) {
    double sum = 0.0;
    for (const double value : row)
        sum += value * value;
    return sum;
}

} // namespace

Information::Information(std::size_t width, int visits)
    : matrix_(width), factor_(matrix_), visits_(static_cast<std::size_t>(visits)) {
    places_.reserve(width);
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

void Information::add(double weight, ConstRow row) {
    places_.clear();
    for (std::size_t i = 0; i < row.size(); ++i)
        if (row[i] != 0.0)
            places_.push_back(i);
    for (std::size_t a = 0; a < places_.size(); ++a) {
        const double scaled = weight * row[places_[a]];
        for (std::size_t b = 0; b <= a; ++b)
            matrix_.at(places_[a], places_[b]) += scaled * row[places_[b]];
    }
}

const Cholesky& Information::factored() {
    factor_.factor(matrix_);
    return factor_;
}

double Information::sigma_of(JacobianRow gradient) {
    factored().solve_lower(gradient);
    return std::sqrt(squared(gradient));
}

} // namespace counterpull
