#include "engine/belief/fit.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace counterpull {

namespace {

// Far below what any reading says, above the noise of rounding, which grows with the cost: that of readings
// that contradict each other goes into the thousands.
constexpr double negligible_cost = 1e-9;
constexpr double negligible_share = 1e-10;
double negligible(double cost) {
    return std::max(negligible_cost, negligible_share * cost);
}

constexpr double first_damping = 1e-2;
constexpr double most_damping = 1e8;

// Twice Huber's loss: the square up to `outlier_sigmas`, from there on a straight line.
double loss(double residual) {
    const double size = std::abs(residual);
    return size <= outlier_sigmas ? size * size : outlier_sigmas * (2.0 * size - outlier_sigmas);
}

} // namespace

Fit::Fit(const Belief& prior)
    : playback_(prior), standing_(prior), used_(seen().size(), true), information_(playback_.unknowns()) {
    at_.x.resize(playback_.width());
}

bool Fit::play(Point& point, Settling how) {
    const auto stands = standing_.residual(playback_.deviations(point.x));
    point.stands = stands.value_or(0.0);
    point.played = stands && playback_.play(point.x, how, point.predicted);
    return point.played;
}

bool Fit::run() {
    converged_ = descend();
    return converged_;
}

bool Fit::descend() {
    if (!play(at_, Settling::search) || !linearize())
        return false;
    double damping = 0.0, lowered = 0.0;
    for (int i = 0; i < most_fit_steps; ++i, ++iterations_) {
        step(damping);
        const double before = cost(at_);
        const bool played = play(next_, Settling::near);
        lowered = played ? before - cost(next_) : 0.0;
        if (!played || !(lowered >= -negligible(before))) {
            if (moved() < settled_at_step) {
                play(at_, Settling::near); // what was found there, again
                return true;
            }
            damping = damping == 0.0 ? first_damping : 10.0 * damping;
            if (damping > most_damping)
                return false;
            play(at_, Settling::near); // what was found there, again
            continue;
        }
        const double by = moved();
        std::swap(at_, next_);
        damping = damping < 1e-6 ? 0.0 : 0.1 * damping;
        if (!linearize())
            return false;
        if (by < settled_step)
            return true;
    }
    // Beyond Huber's bend the way left shrinks by a share a step: it may be there without having settled.
    return damping == 0.0 && std::abs(lowered) <= negligible(cost(at_));
}

bool Fit::linearize() {
    if (!playback_.linearize(at_.x, jacobian_))
        return false;
    const std::size_t width = at_.x.size();
    for (std::size_t o = 0; o < used_.size(); ++o) {
        const bool silent = seen()[o].stop != 0 && residual(o, at_.predicted) == 0.0;
        for (std::size_t i = o * width; i < (o + 1) * width; ++i)
            jacobian_[i] = silent ? 0.0 : std::clamp(jacobian_[i] / seen()[o].sigma, -steepest, steepest);
    }
    standing_row_ =
        playback_.unknowns().columns.row_of(standing_.row(playback_.deviations(at_.x)), at_.x.size());
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
double Fit::prior_squares(const Point& point) const {
    double sum = point.stands * point.stands;
    for (const double value : point.x)
        sum += value * value;
    const std::vector<std::size_t>& visits = playback_.unknowns().visits;
    for (std::size_t v = 0; v < visits.size(); ++v) {
        const double at = point.x[visits[v]], before = v > 0 ? point.x[visits[v - 1]] : 0.0;
        sum += playback_.unknowns().precision[v] * (at - before) * (at - before) - at * at;
    }
    return sum;
}

double Fit::cost(const Point& point) const {
    if (!point.played)
        return std::numeric_limits<double>::infinity();
    double sum = prior_squares(point);
    for (std::size_t o = 0; o < used_.size(); ++o)
        if (used_[o])
            sum += loss(residual(o, point.predicted));
    return 0.5 * sum;
}

double Fit::worst() const {
    double most = 0.0;
    for (std::size_t o = 0; o < used_.size(); ++o)
        if (used_[o])
            most = std::max(most, std::abs(residual(o, at_.predicted)));
    return most;
}

double Fit::chi2_per_reading() const {
    double sum = prior_squares(at_);
    int count = 0;
    for (std::size_t o = 0; o < used_.size(); ++o)
        if (used_[o]) {
            ++count;
            sum += residual(o, at_.predicted) * residual(o, at_.predicted);
        }
    return count > 0 ? sum / count : 0.0;
}

double Fit::weight(std::size_t o) const {
    const double size = std::abs(residual(o, at_.predicted));
    return !used_[o] ? 0.0 : size <= outlier_sigmas ? 1.0 : outlier_sigmas / size;
}

void Fit::add_up(double damping) {
    information_.reset(damping);
    information_.add(1.0, standing_row_);
    for (std::size_t o = 0; o < used_.size(); ++o)
        if (const double w = weight(o); w > 0.0)
            information_.add(w, row(o));
}

// (1 + a aᵀ + JᵀWJ) change = gradient of what is minimized, x + a r + JᵀW (predicted − read), a the
// derivatives of r, what standing in tune says; of the visits through their chain.
void Fit::step(double damping) {
    const std::vector<std::size_t>& visits = playback_.unknowns().visits;
    const std::vector<double>& x = at_.x;
    change_ = x;
    for (std::size_t v = 0; v < visits.size(); ++v) {
        const std::vector<double>& precision = playback_.unknowns().precision;
        const double at = x[visits[v]], before = v > 0 ? x[visits[v - 1]] : 0.0;
        const double after = v + 1 < visits.size() ? precision[v + 1] * (at - x[visits[v + 1]]) : 0.0;
        change_[visits[v]] = precision[v] * (at - before) + after;
    }
    add_scaled(at_.stands, standing_row_, change_);
    for (std::size_t o = 0; o < used_.size(); ++o)
        if (const double w = weight(o); w > 0.0)
            add_scaled(w * residual(o, at_.predicted), row(o), change_);
    add_up(damping);
    change_ = information_.factored().solve(std::move(change_));
    next_.x = x;
    add_scaled(-1.0, change_, next_.x);
}

// The most that any unknown moved in the last step, in its prior spread: of a visit, its own step.
double Fit::moved() const {
    const std::vector<std::size_t>& visits = playback_.unknowns().visits;
    double most = 0.0;
    for (std::size_t i = 0; i < change_.size(); ++i) {
        const auto visit = std::find(visits.begin(), visits.end(), i);
        const bool steps = visit != visits.end() && visit != visits.begin();
        most = std::max(most, std::abs(steps ? change_[i] - change_[*(visit - 1)] : change_[i]));
    }
    return most;
}

// By power iteration on the covariance, each direction kept upright on those found before.
std::vector<std::vector<double>> Fit::weakest(std::size_t count) {
    constexpr int rounds = 30; // a start, not a result: nothing depends on how exact it is
    add_up(0.0);
    const Cholesky& factor = information_.factored();
    const std::size_t first = playback_.unknowns().of_entries;
    std::vector<std::vector<double>> found;
    for (std::size_t d = 0; d < count; ++d) {
        std::vector<double> along(at_.x.size());
        for (std::size_t i = first; i < along.size(); ++i)
            along[i] = i % count == d ? 1.0 : 0.5; // anything that is not upright on what is sought
        double variance = 0.0;
        for (int round = 0; round < rounds; ++round) {
            for (const std::vector<double>& other : found)
                add_scaled(-dot(along, other) / dot(other, other), other, along);
            const double size = std::sqrt(dot(along, along));
            if (!(size > 0.0))
                return found;
            for (double& value : along)
                value /= size;
            const std::vector<double> before = along;
            along = factor.solve(std::move(along));
            std::fill_n(along.begin(), first, 0.0);
            variance = dot(before, along);
        }
        const double scale = std::sqrt(variance / dot(along, along));
        for (double& value : along)
            value *= scale;
        found.push_back(std::move(along));
    }
    return found;
}

std::vector<double> Fit::distances() {
    add_up(0.0);
    const Cholesky& factor = information_.factored();
    std::vector<double> all, solved(at_.x.size());
    all.reserve(used_.size());
    for (std::size_t o = 0; o < used_.size(); ++o) {
        std::copy(row(o).begin(), row(o).end(), solved.begin());
        factor.solve_lower(solved);
        const double spread = dot(solved, solved), w = weight(o);
        const double others = (1.0 - w * spread) * (1.0 + spread * (1.0 - w));
        all.push_back(std::abs(residual(o, at_.predicted)) / std::sqrt(std::max(others, 1e-9)));
    }
    return all;
}

// Of what belongs to entries only the last visit is of any further use: where the screws stand now.
void Fit::condition(Belief& belief, double widened) {
    add_up(0.0);
    const RowOfUnknowns& unknowns = playback_.unknowns();
    const std::size_t first = unknowns.visits.empty() ? unknowns.of_entries : unknowns.visits.back();
    const SymmetricMatrix inverse = information_.factored().inverse(first);
    constexpr std::size_t size = most_unknowns;
    std::array<int, size> place = unknowns.columns.of;
    if (!unknowns.visits.empty())
        place[static_cast<std::size_t>(Unknown::screws_now)] = static_cast<int>(first);
    Covariance covariance(size * size);
    for (std::size_t i = 0; i < size; ++i)
        for (std::size_t j = 0; j < size; ++j)
            if (place[i] < 0 || place[j] < 0)
                covariance[i * size + j] = i == j ? 1.0 : 0.0;
            else
                covariance[i * size + j] = widened * inverse.at(static_cast<std::size_t>(place[i]) - first,
                                                                static_cast<std::size_t>(place[j]) - first);
    belief.condition(playback_.deviations(at_.x), std::move(covariance));
}

Strung Fit::left() {
    playback_.play(at_.x, Settling::near, next_.predicted);
    return playback_.left();
}

Linearization Fit::linearized() const {
    Linearization all{playback_.unknowns(), {}, {}, {}, jacobian_, standing_row_};
    for (std::size_t e = 0; e < playback_.entries(); ++e)
        all.visit_of.push_back(playback_.visit_of(e));
    for (std::size_t o = 0; o < used_.size(); ++o) {
        all.entry.push_back(seen()[o].entry);
        all.weight.push_back(weight(o));
    }
    return all;
}

} // namespace counterpull
