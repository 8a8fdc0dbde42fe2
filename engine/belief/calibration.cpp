#include "engine/belief/calibration.h"

#include "engine/mechanics/cholesky.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

constexpr double negligible_cost = 1e-9; // far below what any reading says, above the noise of rounding
// For derivatives, either way, in units of the prior spreads: wide, since a soft float magnifies rounding,
// and twice, since one way only would be off by its bend.
constexpr double difference = 1e-2;
constexpr double test_cents = 200.0;
constexpr int highest_bent = 3; // a tone up is for the three highest strings
// A test reading has to shrink the spread at least to this share to be worth taking.
constexpr double worth_taking = 0.9;
// A reading that changes by more than this, both in their spreads, has jumped (a string gone slack, a stop
// reached): that is no slope, and would leave nothing else of the arithmetic.
constexpr double steepest = 1e4;
// Where the last step was smaller than this the derivatives are still good.
constexpr double derivatives_good = 1e-3;

// The unknowns that are fitted, in a row: those of the belief in use, then the screws' of every visit.
struct Unknowns {
    std::vector<int> common;
    int visits = 0;
    std::size_t count() const { return common.size() + static_cast<std::size_t>(visits); }

    Unknowns(const Belief& belief, int visits_made) : visits(visits_made) {
        for (int u = 0; u < most_unknowns; ++u)
            if (belief.used(u) && u != static_cast<int>(Unknown::screws_now))
                common.push_back(u);
    }
    Deviations deviations(const std::vector<double>& x) const {
        Deviations z{};
        for (std::size_t i = 0; i < common.size(); ++i)
            z[static_cast<std::size_t>(common[i])] = x[i];
        z[static_cast<std::size_t>(Unknown::screws_now)] = screw_walk(x).empty() ? 0.0 : walked(x);
        return z;
    }
    // Turns beyond the count at each visit.
    std::vector<double> screw_walk(const std::vector<double>& x) const {
        std::vector<double> walk;
        double sum = 0.0;
        for (std::size_t i = common.size(); i < x.size(); ++i)
            walk.push_back(sum += screw_reading_turns * x[i]);
        return walk;
    }

  private:
    double walked(const std::vector<double>& x) const {
        double sum = 0.0;
        for (std::size_t i = common.size(); i < x.size(); ++i)
            sum += x[i];
        return sum;
    }
};

class Fit {
  public:
    explicit Fit(const Belief& prior)
        : playback_(prior), seen_(playback_.observations()), unknowns_(prior, playback_.visits()),
          x_(unknowns_.count()), used_(seen_.size(), true) {}

    bool run() {
        if (!play(x_, Settling::search, predicted_))
            return false;
        double damping = 0.0;
        bool differentiated_here = false; // else the derivatives are of the place before
        bool derivatives_serve = false;
        for (int step = 0; step < most_fit_steps; ++step, ++iterations_) {
            if (!derivatives_serve) {
                differentiate();
                differentiated_here = true;
            }
            const double before = cost(x_, predicted_);
            std::vector<double> next = stepped(damping), predicted;
            const bool better =
                play(next, Settling::near, predicted) && cost(next, predicted) <= before + negligible_cost;
            if (!better) {
                if (differentiated_here)
                    damping = damping == 0.0 ? 1e-2 : 10.0 * damping;
                derivatives_serve = differentiated_here;
                if (damping > 1e8)
                    return false;
                play(x_, Settling::near, predicted_); // what was found there, again
                continue;
            }
            double moved = 0.0;
            for (std::size_t i = 0; i < x_.size(); ++i)
                moved = std::max(moved, std::abs(next[i] - x_[i]));
            x_ = std::move(next);
            predicted_ = std::move(predicted);
            damping = damping < 1e-6 ? 0.0 : 0.1 * damping;
            if (moved < settled_step)
                return true;
            differentiated_here = false;
            derivatives_serve = moved < derivatives_good;
        }
        return false;
    }

    // Only for the spread, at the prior's mean: as if what is read were what is expected.
    bool expect() {
        if (!play(x_, Settling::search, predicted_))
            return false;
        for (std::size_t o = 0; o < seen_.size(); ++o) {
            seen_[o].value = predicted_[o];
            if (seen_[o].what == Observed::cents)
                seen_[o].sigma = tuner_sigma(predicted_[o]);
        }
        differentiate();
        return true;
    }
    // Of the log's entries this one alone.
    void use_only(int entry) {
        for (std::size_t o = 0; o < used_.size(); ++o)
            used_[o] = seen_[o].entry < 0 || seen_[o].entry == entry;
    }

    // How far each reading lies from what all others predict, in σ of both: of a fitted one its residual over
    // √(1 − leverage).
    std::vector<double> distances() const {
        const SymmetricMatrix inverse = Cholesky(hessian(0.0)).inverse();
        std::vector<double> all;
        for (std::size_t o = 0; o < used_.size(); ++o) {
            const double spread = quadratic(inverse, o);
            const double others = used_[o] ? 1.0 - weight(o) * spread : 1.0 + spread;
            all.push_back(std::abs(residual(o, predicted_)) / std::sqrt(std::max(others, 1e-9)));
        }
        return all;
    }

    // The bridge as the last entry left it.
    Strung left() {
        std::vector<double> predicted;
        play(x_, Settling::near, predicted);
        return playback_.left();
    }
    void leave_out(std::size_t observation) { used_[observation] = false; }
    bool is_used(std::size_t observation) const { return used_[observation]; }
    const std::vector<Observation>& seen() const { return seen_; }
    int visits() const { return unknowns_.visits; }
    const std::vector<double>& predicted() const { return predicted_; }
    int iterations() const { return iterations_; }
    double cost() const { return cost(x_, predicted_); }

    void teach(Belief& belief) const {
        const SymmetricMatrix inverse = Cholesky(hessian(0.0)).inverse();
        constexpr std::size_t size = most_unknowns;
        Covariance covariance(size * size);
        for (std::size_t i = 0; i < size; ++i)
            covariance[i * size + i] = 1.0;
        // Every fitted unknown goes to its own place, every visit's to the sum that is screws_now.
        std::vector<std::size_t> place;
        for (const int u : unknowns_.common)
            place.push_back(static_cast<std::size_t>(u));
        const auto screws = static_cast<std::size_t>(Unknown::screws_now);
        place.resize(unknowns_.count(), screws);
        for (const std::size_t p : place)
            covariance[p * size + p] = 0.0;
        for (std::size_t i = 0; i < place.size(); ++i)
            for (std::size_t j = 0; j < place.size(); ++j)
                covariance[place[i] * size + place[j]] += inverse.at(i, j);
        belief.condition(unknowns_.deviations(x_), std::move(covariance));
    }

  private:
    bool play(const std::vector<double>& x, Settling how, std::vector<double>& predicted) {
        return playback_.play(unknowns_.deviations(x), unknowns_.screw_walk(x), how, predicted);
    }

    double residual(std::size_t o, const std::vector<double>& predicted) const {
        const Observation& seen = seen_[o];
        const double off = (predicted[o] - seen.value) / seen.sigma;
        if (seen.stop < 0)
            return std::max(off, 0.0); // it should have gone at least as far down
        return seen.stop > 0 ? std::min(off, 0.0) : off;
    }

    double cost(const std::vector<double>& x, const std::vector<double>& predicted) const {
        double sum = 0.0;
        for (const double value : x)
            sum += value * value;
        for (std::size_t o = 0; o < used_.size(); ++o)
            if (used_[o])
                sum += loss(residual(o, predicted));
        return 0.5 * sum;
    }

    // Twice Huber's loss: the square up to `outlier_sigmas`, from there on a straight line.
    static double loss(double residual) {
        const double size = std::abs(residual);
        return size <= outlier_sigmas ? size * size : outlier_sigmas * (2.0 * size - outlier_sigmas);
    }
    double weight(std::size_t o) const {
        const double size = std::abs(residual(o, predicted_));
        return !used_[o] ? 0.0 : size <= outlier_sigmas ? 1.0 : outlier_sigmas / size;
    }

    void differentiate() {
        jacobian_.assign(used_.size(), std::vector<double>(x_.size()));
        std::vector<double> above, below;
        for (std::size_t i = 0; i < x_.size(); ++i) {
            std::vector<double> x = x_;
            x[i] = x_[i] + difference;
            if (!play(x, Settling::step, above))
                continue;
            x[i] = x_[i] - difference;
            if (!play(x, Settling::step, below))
                continue;
            for (std::size_t o = 0; o < used_.size(); ++o) {
                const bool silent = seen_[o].stop != 0 && residual(o, predicted_) == 0.0;
                if (!silent)
                    jacobian_[o][i] = std::clamp((above[o] - below[o]) / (2.0 * difference) / seen_[o].sigma,
                                                 -steepest, steepest);
            }
        }
    }

    SymmetricMatrix hessian(double damping) const {
        SymmetricMatrix matrix(x_.size());
        for (std::size_t i = 0; i < x_.size(); ++i)
            matrix.at(i, i) = 1.0 + damping;
        for (std::size_t o = 0; o < used_.size(); ++o)
            if (const double w = weight(o); w > 0.0)
                for (std::size_t i = 0; i < x_.size(); ++i)
                    for (std::size_t j = 0; j < x_.size(); ++j)
                        matrix.at(i, j) += w * jacobian_[o][i] * jacobian_[o][j];
        return matrix;
    }

    std::vector<double> stepped(double damping) const {
        std::vector<double> gradient = x_;
        for (std::size_t o = 0; o < used_.size(); ++o)
            if (const double w = weight(o); w > 0.0)
                for (std::size_t i = 0; i < x_.size(); ++i)
                    gradient[i] += w * jacobian_[o][i] * residual(o, predicted_);
        const std::vector<double> step = Cholesky(hessian(damping)).solve(std::move(gradient));
        std::vector<double> next = x_;
        for (std::size_t i = 0; i < x_.size(); ++i)
            next[i] -= step[i];
        return next;
    }

    double quadratic(const SymmetricMatrix& inverse, std::size_t o) const {
        double sum = 0.0;
        for (std::size_t i = 0; i < x_.size(); ++i)
            for (std::size_t j = 0; j < x_.size(); ++j)
                sum += jacobian_[o][i] * inverse.at(i, j) * jacobian_[o][j];
        return sum;
    }

    Playback playback_;
    std::vector<Observation> seen_;
    Unknowns unknowns_;
    std::vector<double> x_, predicted_;
    std::vector<std::vector<double>> jacobian_; // of the observations in units of their σ
    std::vector<bool> used_;
    int iterations_ = 0;
};

} // namespace

Calibration calibrate(const Setup& setup) {
    Calibration result{Belief(setup), true, 0, 0.0, {}, {}};
    const Belief prior(setup);
    Fit fit(prior);
    const std::vector<Observation>& seen = fit.seen();
    if (seen.empty() && fit.visits() == 0)
        return result;
    result.converged = fit.run();
    if (fit.predicted().empty() && !seen.empty())
        return result; // "now" itself has no answer; the report says so
    std::vector<double> distances = fit.distances();
    for (int out = 0; result.converged && out < most_left_out; ++out) {
        std::size_t worst = seen.size();
        for (std::size_t o = 0; o < seen.size(); ++o)
            if (fit.is_used(o) && distances[o] > outlier_sigmas &&
                (worst == seen.size() || distances[o] > distances[worst]))
                worst = o;
        if (worst == seen.size())
            break;
        fit.leave_out(worst);
        result.converged = fit.run();
        distances = fit.distances();
    }
    fit.teach(result.belief);
    if (!setup.log.empty())
        result.left = fit.left();
    result.iterations = fit.iterations();
    result.half_chi2 = fit.cost();
    for (std::size_t o = 0; o < seen.size(); ++o)
        result.readings.push_back({seen[o], fit.predicted()[o], !fit.is_used(o), distances[o]});
    return result;
}

std::optional<TestReading> best_test_reading(const Belief& belief, const Deviations& gradient) {
    const Setup& setup = belief.setup();
    if (!setup.now.in_tune || !setup.log.empty())
        return std::nullopt;
    // All of them in one log, each in tune before and after: played together, judged one by one.
    Setup with = setup;
    const auto strings = static_cast<int>(setup.now.strings.size());
    for (const ReadingKind kind : {ReadingKind::bend, ReadingKind::drop})
        for (int string = 1; string <= (kind == ReadingKind::bend ? highest_bent : strings); ++string) {
            Reading reading;
            reading.kind = kind;
            reading.string = string;
            reading.by_cents = test_cents;
            reading.strings = reading.tuning = Which::now;
            reading.springs = setup.now.springs;
            // What is read does not change the spread it leaves, to first order: any value serves.
            reading.cents.emplace(setup.now.strings.size(), 0.0);
            with.log.push_back(std::move(reading));
        }
    const Belief prior(with);
    Fit fit(prior);
    if (!fit.expect())
        return std::nullopt;
    const double now = belief.sigma_of(gradient);
    std::optional<TestReading> best;
    for (std::size_t entry = 0; entry < with.log.size(); ++entry) {
        fit.use_only(static_cast<int>(entry));
        Belief after = prior;
        fit.teach(after);
        const double sigma = after.sigma_of(gradient);
        const Reading& reading = with.log[entry];
        if (sigma < worth_taking * now && (!best || sigma < best->sigma_after))
            best = TestReading{reading.kind, reading.string, test_cents, sigma};
    }
    return best;
}

} // namespace counterpull
