#include "engine/hearing/decimate.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace counterpull {

namespace {

constexpr double wanted_hz = 10000.0; // at least, where the sound has as many
constexpr double taps_per_factor = 26.0;
constexpr double kaiser = 7.857; // 80 dB

double bessel_0(double x) {
    double sum = 1.0, term = 1.0;
    for (int k = 1; k < 40; ++k) {
        term *= x / (2.0 * k) * (x / (2.0 * k));
        sum += term;
    }
    return sum;
}

std::vector<float> low_pass(std::size_t factor) {
    const std::size_t count =
        2 * static_cast<std::size_t>(0.5 * taps_per_factor * static_cast<double>(factor)) + 1;
    const double middle = 0.5 * static_cast<double>(count - 1);
    const double cut = 0.5 / static_cast<double>(factor); // of the old rate, in the middle of the slope
    std::vector<float> taps;
    for (std::size_t i = 0; i < count; ++i) {
        const double x = static_cast<double>(i) - middle;
        const double sinc =
            x == 0.0 ? 2.0 * cut : std::sin(2.0 * std::numbers::pi * cut * x) / (std::numbers::pi * x);
        const double place = x / (middle + 1.0);
        taps.push_back(
            static_cast<float>(sinc * bessel_0(kaiser * std::sqrt(1.0 - place * place)) / bessel_0(kaiser)));
    }
    return taps;
}

} // namespace

Decimator::Decimator(double rate_hz)
    : factor_(std::max<std::size_t>(1, static_cast<std::size_t>(rate_hz / wanted_hz))),
      rate_hz_(rate_hz / static_cast<double>(factor_)),
      taps_(factor_ == 1 ? std::vector<float>{1.0F} : low_pass(factor_)), recent_(taps_.size() / 2, 0.0F) {
} // so that the filter's delay is taken off

void Decimator::pass(std::span<const float> samples, std::vector<float>& out) {
    recent_.insert(recent_.end(), samples.begin(), samples.end());
    std::size_t at = skip_;
    for (; at + taps_.size() <= recent_.size(); at += factor_) {
        float sum = 0.0F;
        for (std::size_t i = 0; i < taps_.size(); ++i)
            sum += taps_[i] * recent_[at + i];
        out.push_back(sum);
    }
    const std::size_t done = std::min(at, recent_.size());
    recent_.erase(recent_.begin(), recent_.begin() + static_cast<std::ptrdiff_t>(done));
    skip_ = at - done;
}

} // namespace counterpull
