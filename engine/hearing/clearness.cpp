#include "engine/hearing/clearness.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

constexpr double left_of_taken = 0.001;     // share of what was taken out that may be left of it
constexpr double left_within_windows = 3.0; // in units of one over the window's length
constexpr double noise_reaches = 10.0;      // times its mean: one step in twenty thousand
constexpr double envelope_reach_hz = 100.0;
constexpr double explained_depth = 3e-4; // of the strongest: bands weaker than that count less
constexpr double explained_from_hz = 50.0;
constexpr double clearest = 6.0;   // in ln of power; what is clearer is not more of a string
constexpr double no_power = 1e-30; // of digital silence

// The highest of the values within so many steps to either side: of two blocks of that length, what ends here
// and what begins here (van Herk 1992).
std::vector<double> highest_within(const std::vector<double>& values, std::size_t reach) {
    const std::size_t size = values.size();
    const std::size_t block = 2 * reach + 1;
    std::vector<double> before(size), after(size), highest(size);
    for (std::size_t k = 0; k < size; ++k)
        before[k] = k % block == 0 ? values[k] : std::max(values[k], before[k - 1]);
    for (std::size_t k = size; k-- > 0;)
        after[k] = k + 1 == size || (k + 1) % block == 0 ? values[k] : std::max(values[k], after[k + 1]);
    for (std::size_t k = 0; k < size; ++k)
        highest[k] = std::max(after[k >= reach ? k - reach : 0], before[std::min(k + reach, size - 1)]);
    return highest;
}

} // namespace

std::vector<double> log_clearness(const Spectrum& spectrum, const std::vector<Partial>& partials) {
    const std::vector<Complex> rest = without(spectrum, partials);
    std::vector<double> taken(rest.size());
    for (std::size_t k = 0; k < rest.size(); ++k)
        taken[k] = squared(spectrum.step(k) - rest[k]);
    // What is left of a partial lies beside it as much as under it.
    const auto reach =
        static_cast<std::size_t>(left_within_windows / spectrum.seconds() / spectrum.step_hz());
    const std::vector<double> near = highest_within(taken, reach);
    std::vector<double> clearness(rest.size());
    for (std::size_t k = 0; k < rest.size(); ++k) {
        const double noise = spectrum.noise(static_cast<double>(k) * spectrum.step_hz());
        clearness[k] =
            std::clamp(std::log(squared(rest[k]) / (noise + left_of_taken * near[k]) + 1e-9), 0.0, clearest);
    }
    return clearness;
}

double unexplained_share(const Spectrum& spectrum, const std::vector<Partial>& partials) {
    const std::vector<Complex> rest = without(spectrum, partials);
    const auto end = std::min(rest.size(), static_cast<std::size_t>(explained_to_hz / spectrum.step_hz()));
    const auto reach = static_cast<std::size_t>(envelope_reach_hz / spectrum.step_hz());
    std::vector<double> envelope; // highest power in each stretch of the reach
    for (std::size_t k = 0; k < end + reach; ++k) {
        if (k % reach == 0)
            envelope.push_back(0.0);
        if (k < rest.size())
            envelope.back() = std::max(envelope.back(), squared(spectrum.step(k)));
    }
    double all = 0.0, left = 0.0;
    const double strongest = *std::max_element(envelope.begin(), envelope.end());
    for (auto k = static_cast<std::size_t>(explained_from_hz / spectrum.step_hz()); k < end; ++k) {
        const std::size_t stretch = k / reach;
        const double near =
            std::max({envelope[stretch > 0 ? stretch - 1 : 0], envelope[stretch], envelope[stretch + 1]});
        // Bands of partials that are weak count as much as those of strong ones; noise does not count.
        const double ground =
            std::sqrt(noise_reaches * spectrum.noise(static_cast<double>(k) * spectrum.step_hz()));
        const double weight = 1.0 / std::sqrt(near + explained_depth * strongest + no_power);
        all += weight * std::max(std::sqrt(squared(spectrum.step(k))) - ground, 0.0);
        left += weight * std::max(std::sqrt(squared(rest[k])) - ground, 0.0);
    }
    return all > 0.0 ? left / all : 0.0;
}

} // namespace counterpull
