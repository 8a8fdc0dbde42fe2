#include "engine/hearing/partials_fit.h"

#include "engine/base/put_in_order.h"
#include "engine/hearing/envelope_solver.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace counterpull {

namespace {

constexpr double coupled_turn = 20.0 * std::numbers::pi; // beyond it the window's transform is under −90 dB
constexpr double lobe_turn = 10.0 * std::numbers::pi;    // how far a partial is taken out of the spectrum
constexpr double least_diagonal_a = 1e-6; // added, so that partials that coincide have an answer
constexpr double least_diagonal_b = 1e-4;
constexpr std::size_t inverse_reach = 40;
constexpr double model_error = 1e-3;  // power that the model leaves of a real partial
constexpr double others_reach = 12.0; // in units of one over the window's length
constexpr double off_most_turn = 2.0; // beyond it the line is no longer near the curve

EnvelopeSystem normal_matrix(const Spectrum& spectrum, const std::vector<Partial>& partials) {
    std::vector<std::size_t> first(2 * partials.size());
    for (std::size_t j = 0, from = 0; j < partials.size(); ++j) {
        while (spectrum.turn(partials[j].hz - partials[from].hz) > coupled_turn)
            ++from;
        first[2 * j] = first[2 * j + 1] = 2 * from;
    }
    EnvelopeSystem system(std::move(first));
    for (std::size_t j = 0; j < partials.size(); ++j) {
        for (std::size_t k = system.first(2 * j) / 2; k <= j; ++k) {
            const WindowMoments moments = window_moments(spectrum.turn(partials[k].hz - partials[j].hz));
            system.at(2 * j, 2 * k) = {moments.h0, 0.0};
            system.at(2 * j + 1, 2 * k) = {0.0, moments.h1};
            if (k < j)
                system.at(2 * j, 2 * k + 1) = {0.0, moments.h1};
            system.at(2 * j + 1, 2 * k + 1) = {moments.h2, 0.0};
        }
        system.at(2 * j, 2 * j).re += least_diagonal_a;
        system.at(2 * j + 1, 2 * j + 1).re += least_diagonal_b;
    }
    return system;
}

// What is left in the middle of the lobe, where a wrong frequency or decay shows, and beside it.
double left_in_lobe(const Spectrum& spectrum, const std::vector<Complex>& rest, double hz) {
    double sum = 0.0;
    int count = 0;
    for (int k = -6; k <= 6; ++k) {
        const double at = hz + 0.5 * static_cast<double>(k) / spectrum.seconds();
        const auto step = static_cast<std::ptrdiff_t>(std::lround(at / spectrum.step_hz()));
        if (step < 0 || step >= static_cast<std::ptrdiff_t>(rest.size()))
            continue;
        sum += squared(rest[static_cast<std::size_t>(step)]);
        ++count;
    }
    return count > 0 ? sum / count : 0.0;
}

// What other strings' partials near by may be wrong by: no string is quite as the model has it.
double of_others(const Spectrum& spectrum, const std::vector<Partial>& partials, const Partial& partial) {
    double sum = 0.0;
    for (const Partial& other : partials) {
        const double apart = spectrum.turn(other.hz - partial.hz) / std::numbers::pi;
        if (other.string != partial.string && std::abs(apart) < others_reach)
            sum += model_error * squared(other.a) / ((1.0 + apart * apart) * (1.0 + apart * apart));
    }
    return sum;
}

void read_off(const Spectrum& spectrum, Partial& partial) {
    const double power = squared(partial.a);
    const double cross = partial.b.im * partial.a.re - partial.b.re * partial.a.im; // Im(b ā)
    const double turn = std::clamp(power > 0.0 ? cross / power : 0.0, -off_most_turn, off_most_turn);
    partial.off_hz = turn / spectrum.turn(1.0);
    partial.off_sigma_hz =
        std::sqrt(0.5 * partial.residual * partial.spread_b / std::max(power, 1e-300)) / spectrum.turn(1.0);
}

} // namespace

double Partial::clearness() const {
    return squared(a) / std::max(residual * spread_a, 1e-300);
}

double Partial::decay_per_s(double window_s) const {
    return -(b.re * a.re + b.im * a.im) / std::max(squared(a), 1e-300) / (0.5 * window_s);
}

std::vector<Complex> without(const Spectrum& spectrum, const std::vector<Partial>& partials) {
    std::vector<Complex> rest(spectrum.size());
    for (std::size_t k = 0; k < rest.size(); ++k)
        rest[k] = spectrum.step(k);
    const double reach_hz = lobe_turn / spectrum.turn(1.0);
    for (const Partial& partial : partials) {
        const auto from = static_cast<std::size_t>(std::max(0.0, partial.hz - reach_hz) / spectrum.step_hz());
        const auto to =
            std::min(rest.size(), static_cast<std::size_t>((partial.hz + reach_hz) / spectrum.step_hz()) + 1);
        for (std::size_t k = from; k < to; ++k) {
            const double hz = static_cast<double>(k) * spectrum.step_hz();
            const WindowMoments moments = window_moments(spectrum.turn(partial.hz - hz));
            const Complex h1{0.0, moments.h1};
            rest[k] = rest[k] - moments.h0 * partial.a - h1 * partial.b;
        }
    }
    return rest;
}

void fit_partials(const Spectrum& spectrum, std::vector<Partial>& partials) {
    if (partials.empty())
        return;
    put_in_order(partials, [](const Partial& one, const Partial& other) { return one.hz < other.hz; });
    EnvelopeSystem system = normal_matrix(spectrum, partials);
    std::vector<Complex> right(2 * partials.size());
    for (std::size_t k = 0; k < partials.size(); ++k) {
        right[2 * k] = spectrum.plain(partials[k].hz);
        right[2 * k + 1] = spectrum.sloped(partials[k].hz);
    }
    if (!system.factorize()) {
        for (Partial& partial : partials)
            partial = {partial.string, partial.number, partial.hz, {}, {}, 1.0, 8.0, 0.0, 0.0, 1e9};
        return;
    }
    system.solve(right);
    for (std::size_t k = 0; k < partials.size(); ++k) {
        partials[k].a = right[2 * k];
        partials[k].b = right[2 * k + 1];
        partials[k].spread_a = system.inverse_diagonal(2 * k, inverse_reach);
        partials[k].spread_b = system.inverse_diagonal(2 * k + 1, inverse_reach);
    }
    const std::vector<Complex> rest = without(spectrum, partials);
    for (Partial& partial : partials) {
        partial.residual = std::max(left_in_lobe(spectrum, rest, partial.hz), spectrum.noise(partial.hz)) +
                           of_others(spectrum, partials, partial);
        read_off(spectrum, partial);
    }
}

} // namespace counterpull
