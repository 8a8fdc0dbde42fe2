#include "engine/hearing/transform.h"

#include <cassert>
#include <cmath>
#include <numbers>
#include <utility>

namespace counterpull {

std::size_t power_of_two(std::size_t least) {
    std::size_t size = 1;
    while (size < least)
        size *= 2;
    return size;
}

Transform::Transform(std::size_t size) : size_(size), turns_(size / 2) {
    assert(size >= 2 && (size & (size - 1)) == 0);
    for (std::size_t k = 0; k < turns_.size(); ++k) {
        const double angle = -2.0 * std::numbers::pi * static_cast<double>(k) / static_cast<double>(size);
        turns_[k] = {std::cos(angle), std::sin(angle)};
    }
}

// Radix two, decimation in time: the values in bit-reversed order, then butterflies of growing span.
void Transform::forward(std::vector<Complex>& values) const {
    assert(values.size() == size_);
    for (std::size_t i = 1, j = 0; i < size_; ++i) {
        std::size_t bit = size_ / 2;
        for (; j & bit; bit /= 2)
            j ^= bit;
        j ^= bit;
        if (i < j)
            std::swap(values[i], values[j]);
    }
    for (std::size_t half = 1; half < size_; half *= 2) {
        const std::size_t stride = size_ / (2 * half);
        for (std::size_t start = 0; start < size_; start += 2 * half) {
            for (std::size_t k = 0; k < half; ++k) {
                Complex& upper = values[start + k];
                Complex& lower = values[start + k + half];
                const Complex turned = turns_[k * stride] * lower;
                lower = upper - turned;
                upper = upper + turned;
            }
        }
    }
}

} // namespace counterpull
