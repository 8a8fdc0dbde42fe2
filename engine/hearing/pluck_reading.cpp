#include "engine/hearing/pluck_reading.h"

#include "engine/base/pitch.h"
#include "engine/hearing/tone.h"

#include <algorithm>
#include <cmath>
#include <vector>

namespace counterpull {

namespace {

constexpr double steady_cents_per_s = 1.0;
constexpr double turned_cents = 4.0;  // two windows that far from those before: somebody turned the string
constexpr double window_cents = 0.15; // by which windows differ though nothing changes
// A pluck of medium strength is sharper at first by this, and comes down within that time (common practice).
constexpr double early_cents = 3.0;
constexpr double early_s = 0.25;
constexpr double alike = 0.5;         // of a window's sigma: windows err alike, and differ by less
constexpr double cauchy_sigmas = 2.0; // see string_fit.h
constexpr int rounds = 6;
constexpr std::size_t least_windows = 4; // for a glide
constexpr double fades_to = 0.5; // of the power at first, at least: no farther is extrapolated than was seen
constexpr double glides_sigmas = 3.0;    // the slope against its own uncertainty
constexpr double glide_most_cents = 0.6; // uncertainty of where it ends
constexpr double glide_share = 0.2;      // of what was extrapolated may be wrong
constexpr double agree_sigmas = 2.0;
constexpr double agree_cents = 1.5;
constexpr double own_share = 0.5; // of a pluck's variance: the rest is the string's and every pluck's
constexpr double last_counts = 1.44;

double median_cents(std::span<const TimedReading> windows) {
    std::vector<double> cents;
    for (const TimedReading& window : windows)
        cents.push_back(window.string.cents);
    const auto middle = cents.begin() + static_cast<std::ptrdiff_t>(cents.size() / 2);
    std::nth_element(cents.begin(), middle, cents.end());
    return *middle;
}

// The windows since the string was last turned: one window that lies elsewhere is a slip, two are not.
std::span<const TimedReading> since_turned(std::span<const TimedReading> windows) {
    std::size_t from = 0;
    for (std::size_t i = 2; i < windows.size(); ++i) {
        if (i < from + 2)
            continue;
        const double before = median_cents(windows.subspan(from, i - 1 - from));
        const double one = windows[i - 1].string.cents - before, two = windows[i].string.cents - before;
        if (std::min(std::abs(one), std::abs(two)) > turned_cents && one * two > 0.0)
            from = i - 1;
    }
    return windows.subspan(from);
}

// How far a window may lie from where the pitch settles, squared; a slope says itself what is early in it.
double variance_of(const TimedReading& window, bool sloped) {
    const double early = sloped ? 0.0 : early_cents * std::exp(-window.since_onset_s / early_s);
    return window.string.sigma_cents * window.string.sigma_cents + early * early;
}

// cents = level + slope · power, power in units of the windows' highest; slope 0 where only a mean is wanted.
struct Line {
    double level = 0.0, slope = 0.0;
    double spread = 0.0; // of the windows about it
    double level_sigma = 0.0, slope_sigma = 0.0;
};

Line line_through(std::span<const TimedReading> windows, double highest_power, bool sloped) {
    Line line{median_cents(windows)};
    double sigma = 0.0; // on average
    for (const TimedReading& window : windows)
        sigma += window.string.sigma_cents / static_cast<double>(windows.size());
    double spread = sigma;
    for (int round = 0; round < rounds; ++round) {
        double sum = 0.0, x = 0.0, y = 0.0, xx = 0.0, xy = 0.0, misses = 0.0;
        const auto miss_of = [&](const TimedReading& window) {
            return window.string.cents - line.level - line.slope * window.string.power / highest_power;
        };
        const auto weight_of = [&](const TimedReading& window) {
            const double sigmas = miss_of(window) / (cauchy_sigmas * spread);
            return 1.0 / (variance_of(window, sloped) * (1.0 + sigmas * sigmas));
        };
        for (const TimedReading& window : windows) {
            const double weight = weight_of(window);
            const double power = window.string.power / highest_power;
            sum += weight;
            x += weight * power;
            y += weight * window.string.cents;
            xx += weight * power * power;
            xy += weight * power * window.string.cents;
        }
        x /= sum;
        y /= sum;
        const double variance = xx / sum - x * x;
        const double slope = sloped && variance > 0.0 ? (xy / sum - x * y) / variance : 0.0;
        const Line last = line;
        line.slope = slope;
        line.level = y - slope * x;
        for (const TimedReading& window : windows)
            misses += miss_of(window) * miss_of(window) * weight_of(window);
        line.spread = std::sqrt(misses / sum);
        const auto count = static_cast<double>(windows.size());
        const double each =
            std::max(line.spread * std::sqrt(count / std::max(count - 2.0, 1.0)), window_cents);
        line.slope_sigma = variance > 0.0 ? each / std::sqrt(count * variance) : 0.0;
        line.level_sigma = std::hypot(each / std::sqrt(count), x * line.slope_sigma);
        spread = std::max(line.spread, alike * sigma);
        if (std::abs(last.level - line.level) + std::abs(last.slope - line.slope) < 1e-4)
            break;
    }
    return line;
}

} // namespace

HeardString read_pluck(std::span<const TimedReading> all) {
    if (all.empty())
        return {};
    const std::span<const TimedReading> windows = since_turned(all);
    const TimedReading& last = windows.back();
    double highest = 0.0, lowest = last.string.power, sureness = 0.0;
    for (const TimedReading& window : windows) {
        highest = std::max(highest, window.string.power);
        lowest = std::min(lowest, window.string.power);
        sureness += 1.0 / (window.string.sigma_cents * window.string.sigma_cents);
    }
    // Windows do not make each other surer: what is wrong with one is mostly the string's partials.
    const double each = std::sqrt(static_cast<double>(windows.size()) / sureness);
    HeardString string{true, 0.0, 0.0, each, 0.5 * (windows.front().at_s + last.at_s), false};
    const Line mean = line_through(windows, highest, false);
    string.cents = mean.level;
    string.sigma_cents = std::hypot(each, mean.spread);
    if (windows.size() >= least_windows && lowest < fades_to * highest) {
        const Line glide = line_through(windows, highest, true);
        if (glide.slope > glides_sigmas * glide.slope_sigma && glide.level_sigma < glide_most_cents) {
            string.cents = glide.level;
            string.sigma_cents =
                std::hypot(std::hypot(each, glide.level_sigma), glide_share * glide.slope * lowest / highest);
        }
    }
    string.hz = raised_hz(last.string.hz, string.cents - last.string.cents);
    if (all.size() > 1) {
        const TimedReading& before = all[all.size() - 2];
        const double drift = (last.string.cents - before.string.cents) / (last.at_s - before.at_s);
        string.steady = std::abs(drift) < steady_cents_per_s;
    }
    return string;
}

HeardString read_plucks(std::span<const HeardString> plucks) {
    HeardString best;
    double surest = 0.0;
    for (const HeardString& middle : plucks) {
        double sum = 0.0, cents = 0.0, squares = 0.0;
        std::size_t count = 0;
        const HeardString* newest = nullptr;
        for (const HeardString& pluck : plucks) {
            const double apart = pluck.cents - middle.cents;
            if (std::abs(apart) >
                std::max(agree_cents, agree_sigmas * std::hypot(pluck.sigma_cents, middle.sigma_cents)))
                continue;
            const double weight = 1.0 / (pluck.sigma_cents * pluck.sigma_cents);
            sum += weight;
            cents += weight * apart;
            squares += weight * apart * apart;
            ++count;
            newest = &pluck;
        }
        const double sureness = sum * (newest == &plucks.back() ? last_counts : 1.0);
        if (newest == nullptr || sureness < surest)
            continue;
        surest = sureness;
        best = *newest;
        if (count == 1)
            continue;
        const auto many = static_cast<double>(count);
        const double mean = cents / sum;
        const double spread = std::sqrt(std::max(squares / sum - mean * mean, 0.0) / many);
        best.cents = middle.cents + mean;
        best.hz = raised_hz(newest->hz, best.cents - newest->cents);
        best.sigma_cents = std::hypot(std::sqrt(many / sum * (1.0 - own_share + own_share / many)), spread);
    }
    return best;
}

} // namespace counterpull
