#include "engine/hearing/onsets.h"

#include <algorithm>

namespace counterpull {

namespace {

constexpr double stretch_s = 0.01;
constexpr std::size_t remembered = 10;
constexpr double rises_by = 4.0;      // 6 dB
constexpr double least_energy = 1e-9; // per sample; digital silence dithered is below it

double mean_of(const std::vector<double>& values, std::size_t from, std::size_t count) {
    double sum = 0.0;
    for (std::size_t i = from; i < from + count; ++i)
        sum += values[i];
    return sum / static_cast<double>(count);
}

// The newest two stretches against the quietest two neighbours before them.
bool rises(const std::vector<double>& values, double least) {
    const std::size_t end = values.size();
    const double now = mean_of(values, end - 2, 2);
    double before = mean_of(values, 0, 2);
    for (std::size_t i = 1; i + 4 <= end; ++i)
        before = std::min(before, mean_of(values, i, 2));
    return now > least && now > rises_by * before;
}

} // namespace

Onsets::Onsets(double rate_hz) : rate_hz_(rate_hz), stretch_(static_cast<std::size_t>(stretch_s * rate_hz)) {}

void Onsets::hear(std::span<const float> samples) {
    for (const float sample : samples) {
        const auto value = static_cast<double>(sample);
        const double rise = static_cast<double>(sample - before_);
        before_ = sample;
        energy_ += value * value;
        edge_ += rise * rise;
        if (++filled_ < stretch_)
            continue;
        judge(energy_ / static_cast<double>(stretch_), edge_ / static_cast<double>(stretch_));
        energy_ = edge_ = 0.0;
        filled_ = 0;
    }
}

void Onsets::judge(double energy, double edge) {
    ++stretches_;
    energies_.push_back(energy);
    edges_.push_back(edge);
    if (energies_.size() < remembered)
        return;
    if (rises(energies_, least_energy) || rises(edges_, least_energy)) {
        const double at = (static_cast<double>(stretches_) - 1.0) * static_cast<double>(stretch_) / rate_hz_;
        last_s_ = at;
        ++count_;
    }
    energies_.erase(energies_.begin());
    edges_.erase(edges_.begin());
}

} // namespace counterpull
