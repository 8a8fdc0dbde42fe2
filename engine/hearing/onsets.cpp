#include "engine/hearing/onsets.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace counterpull {

namespace {

constexpr double stretch_s = 0.01;
constexpr std::size_t remembered = 12;
constexpr std::size_t newest = 2;       // stretches that are new
constexpr std::size_t together = 4;     // stretches that one mean of what was before is made of
constexpr double rises_by = 4.0;        // 6 dB on average
constexpr double rises_again_by = 2.0;  // of a string that joins: within
constexpr double joins_within_s = 0.15; // of the onset before
constexpr double least_energy = 1e-9;   // per sample; dither of digital silence is below it

} // namespace

Onsets::Onsets(double rate_hz) : rate_hz_(rate_hz), stretch_(static_cast<std::size_t>(stretch_s * rate_hz)) {}

void Onsets::hear(std::span<const float> samples) {
    for (const float sample : samples) {
        const auto value = static_cast<double>(sample);
        const double difference = value - before_;
        const double second = difference - difference_before_;
        before_ = value;
        difference_before_ = difference;
        energy_[0] += value * value;
        energy_[1] += difference * difference;
        energy_[2] += second * second;
        if (++filled_ < stretch_)
            continue;
        judge();
        filled_ = 0;
    }
}

// The newest stretches against the quietest neighbours before them.
bool Onsets::rises(double by) const {
    double rise = 0.0; // ln
    for (std::size_t band = 0; band < bands; ++band) {
        const auto mean = [&](std::size_t from, std::size_t count) {
            double sum = 0.0;
            for (std::size_t i = from; i < from + count; ++i)
                sum += energies_[i][band];
            return sum / static_cast<double>(count);
        };
        const double now = mean(remembered - newest, newest);
        if (now < least_energy)
            return false;
        double before = std::numeric_limits<double>::max();
        for (std::size_t i = 0; i + together + newest <= remembered; ++i)
            before = std::min(before, mean(i, together));
        rise += std::log(now / std::max(before, least_energy * 1e-3)) / static_cast<double>(bands);
    }
    return rise > std::log(by);
}

void Onsets::judge() {
    for (double& energy : energy_)
        energy /= static_cast<double>(stretch_);
    energies_.push_back(energy_);
    energy_.fill(0.0);
    ++stretches_;
    if (energies_.size() < remembered)
        return;
    const double at_s = (static_cast<double>(stretches_) - 1.0) * static_cast<double>(stretch_) / rate_hz_;
    const bool joins = any_ && at_s - last_s_ < joins_within_s;
    if (rises(joins ? rises_again_by : rises_by)) {
        last_s_ = at_s;
        any_ = true;
        // The next has to rise from here.
        std::array<double, bands> level{};
        for (std::size_t band = 0; band < bands; ++band)
            level[band] = 0.5 * (energies_[remembered - 1][band] + energies_[remembered - 2][band]);
        energies_.assign(remembered, level);
    }
    energies_.erase(energies_.begin());
}

} // namespace counterpull
