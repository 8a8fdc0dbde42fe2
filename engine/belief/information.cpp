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

Information::Information(const RowOfUnknowns& unknowns)
    : unknowns_(unknowns), matrix_(unknowns.width), factor_(matrix_) {
    known_.reserve(unknowns.of_entries);
    reset();
}

void Information::reset(double damping) {
    const double one = 1.0 + damping;
    for (std::size_t row = 0; row < matrix_.size(); ++row) {
        for (std::size_t column = 0; column < row; ++column)
            matrix_.at(row, column) = 0.0;
        matrix_.at(row, row) = one;
    }
    const std::vector<std::size_t>& visits = unknowns_.visits;
    for (std::size_t v = 0; v < visits.size(); ++v) {
        const double step = one * unknowns_.precision[v];
        matrix_.at(visits[v], visits[v]) = step;
        if (v == 0)
            continue;
        matrix_.at(visits[v - 1], visits[v - 1]) += step;
        matrix_.at(visits[v], visits[v - 1]) = -step;
    }
}

// Of what belongs to one entry a reading knows little; the other unknowns are taken as they come.
void Information::add(double weight, ConstDerivatives row) {
    known_.clear();
    for (std::size_t v = 0; v < unknowns_.of_entries; ++v)
        if (row[v] != 0.0)
            known_.push_back(v);
    for (const std::size_t a : known_)
        for (const std::size_t b : known_)
            if (b <= a)
                matrix_.at(a, b) += weight * row[a] * row[b];
    for (std::size_t a = unknowns_.of_entries; a < row.size(); ++a) {
        const double scaled = weight * row[a];
        for (const std::size_t v : known_)
            matrix_.at(a, v) += scaled * row[v];
        double* const to = &matrix_.at(a, 0);
        for (std::size_t b = unknowns_.of_entries; b <= a; ++b)
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
