#include "engine/hearing/spectrum.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numbers>
#include <utility>

namespace counterpull {

namespace {

constexpr double noise_step_hz = 25.0;
constexpr double noise_reach_hz = 100.0;
constexpr std::size_t noise_stride = 3; // neighbouring steps say the same
constexpr double noise_quantile = 0.25;
constexpr double quantile_of_mean = 0.2877; // −ln(1 − 0.25): power of noise is distributed exponentially
constexpr double top_of_rate = 0.42;        // a little into the slope of the decimation's filter, from 0.4 on
constexpr double highest_hz = 5000.0;
constexpr double mains_lobe_turn = 3.0 * std::numbers::pi;
constexpr double mains_off_hz = 1.0;  // the grid's frequency wanders
constexpr double mains_clear = 10.0;  // a line is one where it is so many times the noise
constexpr double noise_least = 1e-20; // of digital silence

// sin(x)/x and its first two derivatives.
struct Sinc {
    double value, first, second;
};
Sinc sinc(double x, double sine, double cosine) {
    const double square = x * x;
    if (square < 0.0025)
        return {1.0 - square * (1.0 / 6.0 - square * (1.0 / 120.0 - square / 5040.0)),
                -x * (1.0 / 3.0 - square * (1.0 / 30.0 - square / 840.0)),
                -1.0 / 3.0 + square * (0.1 - square * (1.0 / 168.0 - square / 6480.0))};
    const double value = sine / x;
    const double first = (cosine - value) / x;
    return {value, first, -value - 2.0 * first / x};
}

} // namespace

WindowMoments window_moments(double turn) {
    const double sine = std::sin(turn);
    const double cosine = std::cos(turn);
    const Sinc middle = sinc(turn, sine, cosine);
    const Sinc below = sinc(turn - std::numbers::pi, -sine, -cosine);
    const Sinc above = sinc(turn + std::numbers::pi, -sine, -cosine);
    return {middle.value + 0.5 * (below.value + above.value),
            -middle.first - 0.5 * (below.first + above.first),
            -middle.second - 0.5 * (below.second + above.second)};
}

Spectrum::Spectrum(std::span<const float> samples, double rate_hz) {
    const std::size_t count = samples.size();
    assert(count >= 64);
    seconds_ = static_cast<double>(count) / rate_hz;
    const Transform transform(power_of_two(4 * count));
    const std::size_t size = transform.size();
    step_hz_ = rate_hz / static_cast<double>(size);
    // Both spectra in one transform: the plain one of the real part, the sloped one of the imaginary part.
    // The middle of the window lies at the start, so that the spectrum turns slowly between steps.
    std::vector<Complex> packed(size);
    const double middle = 0.5 * static_cast<double>(count - 1);
    const std::size_t shift = count / 2;
    const double offset = middle - static_cast<double>(shift); // of the middle from a sample, in samples
    for (std::size_t i = 0; i < count; ++i) {
        const double tau = 2.0 * (static_cast<double>(i) - middle) / static_cast<double>(count);
        const double weighted = (1.0 + std::cos(std::numbers::pi * tau)) / static_cast<double>(count) *
                                static_cast<double>(samples[i]);
        packed[(i + size - shift) % size] = {weighted, weighted * tau};
    }
    transform.forward(packed);
    top_hz_ = std::min(top_of_rate * rate_hz, highest_hz);
    const auto kept = static_cast<std::size_t>(top_hz_ / step_hz_) + 8;
    plain_.resize(kept);
    sloped_.resize(kept);
    for (std::size_t k = 0; k < kept; ++k) {
        const Complex here = packed[k];
        const Complex mirrored = conjugate(packed[(size - k) % size]);
        const double angle =
            2.0 * std::numbers::pi * static_cast<double>(k) * offset / static_cast<double>(size);
        const Complex turned{std::cos(angle), std::sin(angle)};
        plain_[k] = 0.5 * (here + mirrored) * turned;
        const Complex apart = here - mirrored; // of the imaginary part: over 2i
        const Complex halved{0.5 * apart.im, -0.5 * apart.re};
        sloped_[k] = halved * turned;
    }
    measure_noise();
}

double Spectrum::turn(double hz) const {
    return std::numbers::pi * hz * seconds_;
}

// Lagrange's polynomial through the six steps around.
Complex Spectrum::between(const std::vector<Complex>& steps, double hz) const {
    const double place = std::clamp(hz, 0.0, top_hz_) / step_hz_;
    const auto left = static_cast<std::ptrdiff_t>(place);
    const double x = place - static_cast<double>(left);
    const double weight[6] = {
        -(x + 1.0) * x * (x - 1.0) * (x - 2.0) * (x - 3.0) / 120.0,
        (x + 2.0) * x * (x - 1.0) * (x - 2.0) * (x - 3.0) / 24.0,
        -(x + 2.0) * (x + 1.0) * (x - 1.0) * (x - 2.0) * (x - 3.0) / 12.0,
        (x + 2.0) * (x + 1.0) * x * (x - 2.0) * (x - 3.0) / 12.0,
        -(x + 2.0) * (x + 1.0) * x * (x - 1.0) * (x - 3.0) / 24.0,
        (x + 2.0) * (x + 1.0) * x * (x - 1.0) * (x - 2.0) / 120.0,
    };
    Complex sum;
    for (std::ptrdiff_t k = -2; k <= 3; ++k) {
        // Below zero the spectrum of a real sound is the mirrored one.
        const std::ptrdiff_t at = left + k;
        const Complex value = steps[static_cast<std::size_t>(at < 0 ? -at : at)];
        sum = sum + weight[k + 2] * (at < 0 ? conjugate(value) : value);
    }
    return sum;
}

void Spectrum::measure_noise() {
    const auto bands = static_cast<std::size_t>(top_hz_ / noise_step_hz) + 2;
    noise_.resize(bands);
    std::vector<double> powers;
    for (std::size_t band = 0; band < bands; ++band) {
        const double middle = noise_step_hz * static_cast<double>(band);
        const auto from = static_cast<std::size_t>(std::max(20.0, middle - noise_reach_hz) / step_hz_);
        const auto to =
            std::min(static_cast<std::size_t>((middle + noise_reach_hz) / step_hz_), plain_.size());
        powers.clear();
        for (std::size_t k = from; k < to; k += noise_stride)
            powers.push_back(squared(plain_[k]));
        const auto nth = static_cast<std::ptrdiff_t>(noise_quantile * static_cast<double>(powers.size()));
        std::nth_element(powers.begin(), powers.begin() + nth, powers.end());
        noise_[band] = powers[static_cast<std::size_t>(nth)] / quantile_of_mean + noise_least;
    }
}

double Spectrum::noise(double hz) const {
    const double place = std::clamp(hz, 0.0, top_hz_) / noise_step_hz;
    const auto band = std::min(static_cast<std::size_t>(place), noise_.size() - 2);
    const double share = place - static_cast<double>(band);
    const double own = (1.0 - share) * noise_[band] + share * noise_[band + 1];
    const auto line = static_cast<std::size_t>(std::lround(hz / mains_.hz));
    if (line == 0 || line > mains_.power.size())
        return own;
    const double apart = turn(hz - mains_.hz * static_cast<double>(line));
    if (std::abs(apart) > mains_lobe_turn)
        return own;
    const double h0 = window_moments(apart).h0;
    return own + mains_.power[line - 1] * h0 * h0;
}

MainsLines mains_of(const Spectrum& quiet) {
    MainsLines best;
    double most = 0.0;
    for (const double hz : {50.0, 60.0}) {
        MainsLines lines{hz, {}};
        double sum = 0.0;
        for (double at = hz; at < quiet.top_hz(); at += hz) {
            double power = 0.0;
            for (double near = at - mains_off_hz; near <= at + mains_off_hz; near += quiet.step_hz())
                power = std::max(power, squared(quiet.plain(near)));
            const double clearness = power / quiet.noise(at);
            lines.power.push_back(clearness > mains_clear ? power : 0.0);
            sum += clearness > mains_clear ? std::log(clearness) : 0.0;
        }
        if (sum > most) {
            most = sum;
            best = std::move(lines);
        }
    }
    return best;
}

} // namespace counterpull
