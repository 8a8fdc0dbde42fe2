#include "engine/belief/fit.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

constexpr double negligible_cost = 1e-9; // far below what any reading says, above the noise of rounding
constexpr double first_damping = 1e-2;
constexpr double most_damping = 1e8;

// Twice Huber's loss: the square up to `outlier_sigmas`, from there on a straight line.
double loss(double residual) {
    const double size = std::abs(residual);
    return size <= outlier_sigmas ? size * size : outlier_sigmas * (2.0 * size - outlier_sigmas);
}

} // namespace

Fit::Fit(const Belief& prior)
    : playback_(prior), x_(playback_.width()), used_(seen().size(), true),
      information_(playback_.width(), playback_.visits()) {}

bool Fit::run() {
    if (!playback_.play(x_, Settling::search, predicted_) || !linearize())
        return false;
    double damping = 0.0;
    for (int i = 0; i < most_fit_steps; ++i, ++iterations_) {
        step(damping);
        const bool better = playback_.play(next_, Settling::near, next_predicted_) &&
                            cost(next_, next_predicted_) <= cost(x_, predicted_) + negligible_cost;
        if (!better) {
            damping = damping == 0.0 ? first_damping : 10.0 * damping;
            if (damping > most_damping)
                return false;
            playback_.play(x_, Settling::near, predicted_); // what was found there, again
            continue;
        }
        const double by = moved();
        std::swap(x_, next_);
        std::swap(predicted_, next_predicted_);
        damping = damping < 1e-6 ? 0.0 : 0.1 * damping;
        if (!linearize())
            return false;
        if (by < settled_step)
            return true;
    }
    return false;
}

bool Fit::linearize() {
    if (!playback_.linearize(x_, jacobian_))
        return false;
    for (std::size_t o = 0; o < used_.size(); ++o) {
        const bool silent = seen()[o].stop != 0 && residual(o, predicted_) == 0.0;
        for (std::size_t i = o * x_.size(); i < (o + 1) * x_.size(); ++i)
            jacobian_[i] = silent ? 0.0 : std::clamp(jacobian_[i] / seen()[o].sigma, -steepest, steepest);
    }
    return true;
}

double Fit::residual(std::size_t o, const std::vector<double>& predicted) const {
    const Observation& at = seen()[o];
    const double off = (predicted[o] - at.value) / at.sigma;
    if (at.stop < 0)
        return std::max(off, 0.0); // it should have gone at least as far down
    return at.stop > 0 ? std::min(off, 0.0) : off;
}

// The visits' part is that of their steps: of one visit against the one before.
double Fit::cost(const std::vector<double>& x, const std::vector<double>& predicted) const {
    const auto visits = static_cast<std::size_t>(playback_.visits());
    double sum = 0.0;
    for (std::size_t i = 0; i < x.size(); ++i) {
        const double value = i > 0 && i < visits ? x[i] - x[i - 1] : x[i];
        sum += value * value;
    }
    for (std::size_t o = 0; o < used_.size(); ++o)
        if (used_[o])
            sum += loss(residual(o, predicted));
    return 0.5 * sum;
}

double Fit::weight(std::size_t o) const {
    const double size = std::abs(residual(o, predicted_));
    return !used_[o] ? 0.0 : size <= outlier_sigmas ? 1.0 : outlier_sigmas / size;
}

void Fit::add_up(double damping) {
    information_.reset(damping);
    for (std::size_t o = 0; o < used_.size(); ++o)
        if (const double w = weight(o); w > 0.0)
            information_.add(w, row(o));
}

// (1 + JᵀWJ) change = gradient of what is minimized, x + JᵀW r, the prior's part of it through its chain.
void Fit::step(double damping) {
    const auto visits = static_cast<std::size_t>(playback_.visits());
    change_.assign(x_.begin(), x_.end());
    for (std::size_t v = 0; v < visits; ++v) {
        const double before = v > 0 ? x_[v - 1] : 0.0;
        change_[v] = (x_[v] - before) - (v + 1 < visits ? x_[v + 1] - x_[v] : 0.0);
    }
    for (std::size_t o = 0; o < used_.size(); ++o)
        if (const double w = weight(o); w > 0.0)
            add_scaled(w * residual(o, predicted_), row(o), change_);
    add_up(damping);
    change_ = information_.factored().solve(std::move(change_));
    next_.resize(x_.size());
    for (std::size_t i = 0; i < x_.size(); ++i)
        next_[i] = x_[i] - change_[i];
}

// The most that any unknown moved in the last step, in its prior spread: of a visit, its own step.
double Fit::moved() const {
    const auto visits = static_cast<std::size_t>(playback_.visits());
    double most = 0.0;
    for (std::size_t i = 0; i < change_.size(); ++i)
        most = std::max(most, std::abs(i > 0 && i < visits ? change_[i] - change_[i - 1] : change_[i]));
    return most;
}

std::vector<double> Fit::distances() {
    add_up(0.0);
    const Cholesky& factor = information_.factored();
    std::vector<double> all, solved(x_.size());
    all.reserve(used_.size());
    for (std::size_t o = 0; o < used_.size(); ++o) {
        std::copy(row(o).begin(), row(o).end(), solved.begin());
        factor.solve_lower(solved);
        double spread = 0.0;
        for (const double value : solved)
            spread += value * value;
        const double others = used_[o] ? 1.0 - weight(o) * spread : 1.0 + spread;
        all.push_back(std::abs(residual(o, predicted_)) / std::sqrt(std::max(others, 1e-9)));
    }
    return all;
}

// Of the visits only the last is of any further use: where the screws stand now.
void Fit::condition(Belief& belief) {
    add_up(0.0);
    const auto visits = static_cast<std::size_t>(playback_.visits());
    const std::size_t first = visits > 0 ? visits - 1 : 0;
    const SymmetricMatrix inverse = information_.factored().inverse(first);
    constexpr std::size_t size = most_unknowns;
    std::array<int, size> place = playback_.columns().of;
    if (visits > 0)
        place[static_cast<std::size_t>(Unknown::screws_now)] = static_cast<int>(first);
    Covariance covariance(size * size);
    for (std::size_t i = 0; i < size; ++i)
        for (std::size_t j = 0; j < size; ++j)
            if (place[i] < 0 || place[j] < 0)
                covariance[i * size + j] = i == j ? 1.0 : 0.0;
            else
                covariance[i * size + j] = inverse.at(static_cast<std::size_t>(place[i]) - first,
                                                      static_cast<std::size_t>(place[j]) - first);
    belief.condition(playback_.deviations(x_), std::move(covariance));
}

Strung Fit::left() {
    playback_.play(x_, Settling::near, next_predicted_);
    return playback_.left();
}

Linearization Fit::linearized() const {
    Linearization all{playback_.columns(), x_.size(), {}, playback_.visits(), {}, {}, jacobian_};
    for (std::size_t e = 0; e < playback_.entries(); ++e)
        all.visit_of.push_back(playback_.visit_of(e));
    for (std::size_t o = 0; o < used_.size(); ++o) {
        all.entry.push_back(seen()[o].entry);
        all.weight.push_back(weight(o));
    }
    return all;
}

} // namespace counterpull
