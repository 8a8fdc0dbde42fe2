#include "engine/advice/heard_pass.h"

#include "engine/belief/chain.h"
#include "engine/mechanics/cholesky.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace counterpull {

namespace {

// 1 σ: of a value heard; of a string that was not heard as the pass began, and of one that was tuned and not
// heard.
constexpr double heard_sigma_cents = 0.5, begin_sigma_cents = 50.0, aimed_sigma_cents = 1.5;
// 1 σ of a string's axial stiffness beside what all have in common: of a wound one whose core is estimated,
// of any other (choices of ours).
constexpr double own_core_share = 0.06, own_share = 0.02;
// Of what friction may hold, what it may take up as one string is tuned.
constexpr double friction_taken_up = 0.25;
// And 1 σ at least, N·m: a bridge said to come back exactly still leaves numbers to reckon with.
constexpr double least_friction_nm = 1e-5;
// A value this many σ off counts half.
constexpr double doubted_sigmas = 3.0;
constexpr int most_steps = 6;
constexpr double settled_step = 1e-3; // cents or spreads
constexpr double longest_step = 2.0;  // of what is believed, spreads

using Row = std::vector<double>; // by each number sought

// Where the numbers sought stand: what is not known of the guitar in units of its spread, the own stiffness
// of strings, cents as the pass begins, then for each moment what the string was tuned to and the torque that
// was taken up.
struct Numbering {
    std::size_t strings, moments;
    std::size_t stiffness(std::size_t string) const { return most_unknowns + string; }
    std::size_t begin(std::size_t string) const { return most_unknowns + strings + string; }
    std::size_t tuned(std::size_t moment) const { return begin(strings) + 2 * (moment - 1); }
    std::size_t friction(std::size_t moment) const { return tuned(moment) + 1; }
    std::size_t count() const { return begin(strings) + 2 * (moments - 1); }
};

Deviations deviations_of(const std::vector<double>& numbers) {
    Deviations z{};
    std::copy_n(numbers.begin(), z.size(), z.begin());
    return z;
}

Assembly assembly_of(const PassBegin& begin, const std::vector<double>& numbers, const Numbering& at) {
    Assembly assembly = begin.belief.assembly(begin.fitting, deviations_of(numbers));
    for (std::size_t i = 0; i < at.strings; ++i)
        assembly.strings[i].mechanics.axial_stiffness_n *= std::exp(numbers[at.stiffness(i)]);
    return assembly;
}

double pitch_hz(const StringOnBridge& string, double cents) {
    return string.frequency_hz * std::exp2(cents / 1200.0);
}

// The pass played through with some numbers, and how the cents shown move with each of them.
class Played {
  public:
    Played(const PassBegin& begin, const std::vector<PassMoment>& moments, double angle_rad,
           const std::vector<double>& numbers)
        : at_{begin.begin_cents.size(), moments.size()}, claw_(begin.claw), numbers_(numbers),
          assembly_(assembly_of(begin, numbers, at_)),
          chain_(begin.belief, begin.fitting, assembly_, deviations_of(numbers), Columns::all()),
          lengths_by_(at_.strings, Row(at_.count())), torque_by_(at_.count()),
          on_the_body_(begin.belief.setup().next.rest == RestWanted::on_the_body) {
        strung_.angle_rad = angle_rad;
        begin_there();
        for (std::size_t k = 1; k < moments.size(); ++k)
            go_on(k, moments[k].tuned);
    }

    const std::vector<double>& cents(std::size_t moment) const { return cents_[moment]; }
    const Row& by(std::size_t moment, std::size_t string) const {
        return cents_by_[moment * at_.strings + string];
    }
    HeardPass last() const { return {assembly_, strung_, cents_}; }

  private:
    struct OfString {
        StringPartials cents, torque;
    };
    Attitude attitude() const { return Attitude(strung_.angle_rad); }
    std::vector<OfString> partials() const {
        std::vector<OfString> all;
        for (std::size_t i = 0; i < at_.strings; ++i)
            all.push_back({cents_partials(assembly_.strings[i], strung_.lengths_m[i], attitude()),
                           torque_partials_free(assembly_.strings[i], strung_.lengths_m[i], attitude())});
        return all;
    }
    // By what describes the string, its length and the attitude left as they are.
    void add_string(std::size_t string, const StringPartials& by, Row& row) const {
        StringPartials common = by; // the core moves the stiffness that the string's own share multiplies
        common.axial_stiffness *= std::exp(numbers_[at_.stiffness(string)]);
        chain_.add(string, common, 1.0, row);
        row[at_.stiffness(string)] +=
            by.axial_stiffness * assembly_.strings[string].mechanics.axial_stiffness_n;
    }
    // n, where the cents shown are the number sought at `place`: C_n dn = dc − C_y dy − C_θ dθ.
    Row length_by(std::size_t string, const OfString& of, std::size_t place, const Row& angle_by) const {
        Row by(at_.count());
        add_string(string, of.cents, by);
        add_scaled(of.cents.angle, angle_by, by);
        for (double& value : by)
            value /= -of.cents.unstretched;
        by[place] += 1.0 / of.cents.unstretched;
        return by;
    }
    // Of the net torque at this attitude, by all but the attitude.
    Row torque_by(const std::vector<OfString>& of) const {
        Row by = torque_by_;
        add_spring_torque(assembly_, chain_, claw_, attitude(), 1.0, by);
        for (std::size_t i = 0; i < at_.strings; ++i) {
            add_scaled(of[i].torque.unstretched, lengths_by_[i], by);
            add_string(i, of[i].torque, by);
        }
        return by;
    }
    void show(const std::vector<OfString>& of, const Row& angle_by) {
        cents_.push_back(cents_shown(assembly_, strung_.lengths_m, attitude()));
        for (std::size_t i = 0; i < at_.strings; ++i) {
            Row by(at_.count());
            add_scaled(of[i].cents.unstretched, lengths_by_[i], by);
            add_scaled(of[i].cents.angle, angle_by, by);
            add_string(i, of[i].cents, by);
            cents_by_.push_back(std::move(by));
        }
    }

    // All strings sound what they are taken to; what holds the bridge there stays with it, but on the body.
    void begin_there() {
        Tuners tuners;
        for (std::size_t i = 0; i < at_.strings; ++i)
            tuners.pitch_hz[i] = pitch_hz(assembly_.strings[i], numbers_[at_.begin(i)]);
        strung_.lengths_m = lengths_as_tuned(assembly_, tuners, attitude());
        const std::vector<OfString> of = partials();
        const Row still(at_.count());
        for (std::size_t i = 0; i < at_.strings; ++i)
            lengths_by_[i] = length_by(i, of[i], at_.begin(i), still);
        if (!on_the_body_) {
            assembly_.unexplained_nm -=
                net_torque_free(assembly_, strung_.lengths_m, claw_, strung_.angle_rad).value;
            add_scaled(-1.0, torque_by(of), torque_by_);
        }
        show(of, still);
    }

    void go_on(std::size_t moment, std::optional<std::size_t> tuned) {
        assembly_.unexplained_nm += numbers_[at_.friction(moment)];
        torque_by_[at_.friction(moment)] += 1.0;
        Tuners tuners = untouched(strung_.lengths_m);
        if (tuned)
            tuners.pitch_hz[*tuned] = pitch_hz(assembly_.strings[*tuned], numbers_[at_.tuned(moment)]);
        const Rest rest = rest_near(assembly_, tuners, claw_, strung_.angle_rad, strung_.angle_rad);
        strung_.angle_rad = rest.angle_rad;
        strung_.lengths_m = lengths_as_tuned(assembly_, tuners, attitude());
        // The net torque stays zero; its slope by θ is with the string tuned kept at its pitch.
        const std::vector<OfString> of = partials();
        Row angle_by(at_.count());
        double slope = net_torque_free(assembly_, strung_.lengths_m, claw_, rest.angle_rad).slope;
        if (tuned) {
            lengths_by_[*tuned] = length_by(*tuned, of[*tuned], at_.tuned(moment), angle_by);
            slope -= of[*tuned].torque.unstretched * of[*tuned].cents.angle / of[*tuned].cents.unstretched;
        }
        if (!rest.at_stop())
            add_scaled(-1.0 / slope, torque_by(of), angle_by);
        if (tuned)
            lengths_by_[*tuned] = length_by(*tuned, of[*tuned], at_.tuned(moment), angle_by);
        show(of, angle_by);
    }

    Numbering at_;
    ClawSetting claw_;
    const std::vector<double>& numbers_;
    Assembly assembly_;
    Chain chain_;
    Strung strung_;
    std::vector<Row> lengths_by_; // of each string
    Row torque_by_;               // of the torque that neither springs nor strings explain
    bool on_the_body_;
    std::vector<std::vector<double>> cents_; // by moment
    std::vector<Row> cents_by_;              // by moment and string
};

// What is thought of the numbers before anything is heard: their means, and the information on them.
struct Prior {
    std::vector<double> mean;
    SymmetricMatrix information;
};

void add_belief(const Belief& belief, Prior& prior) {
    std::copy(belief.mean().begin(), belief.mean().end(), prior.mean.begin());
    const Deviations& standing = belief.standing();
    const std::size_t count = standing.size();
    SymmetricMatrix covariance(count);
    for (std::size_t i = 0; i < count && !belief.covariance().empty(); ++i)
        for (std::size_t j = 0; j < count; ++j)
            covariance.at(i, j) = belief.covariance()[i * count + j];
    const Cholesky factor(covariance);
    const bool conditioned = factor.positive_definite();
    const SymmetricMatrix inverse = conditioned ? factor.inverse() : covariance;
    for (std::size_t i = 0; i < count; ++i)
        for (std::size_t j = 0; j <= i; ++j)
            prior.information.at(i, j) =
                conditioned ? inverse.at(i, j) : standing[i] * standing[j] + (i == j ? 1.0 : 0.0);
}

Prior prior_of(const PassBegin& begin, const std::vector<PassMoment>& moments, const Numbering& at) {
    constexpr double anything = 1e3; // cents: what was heard says it all
    Prior prior{std::vector<double>(at.count()), SymmetricMatrix(at.count())};
    auto set = [&](std::size_t place, double mean, double sigma) {
        prior.mean[place] = mean;
        prior.information.at(place, place) = 1.0 / (sigma * sigma);
    };
    add_belief(begin.belief, prior);
    for (std::size_t i = 0; i < at.strings; ++i) {
        const auto& heard = moments.front().shown_cents[i];
        const StringSetup& string = begin.fitting.strings[i];
        set(at.stiffness(i), 0.0, string.wound && !string.core_in ? own_core_share : own_share);
        set(at.begin(i), heard.value_or(begin.begin_cents[i]), heard ? anything : begin_sigma_cents);
    }
    for (std::size_t k = 1; k < moments.size(); ++k) {
        const auto& tuned = moments[k].tuned;
        const auto heard = tuned ? moments[k].shown_cents[*tuned] : std::nullopt;
        set(at.tuned(k), heard.value_or(moments[k].aimed_cents), heard ? anything : aimed_sigma_cents);
        const double friction_nm = friction_sigma_nm(begin.belief.setup().guitar);
        set(at.friction(k), 0.0, std::max(friction_taken_up * friction_nm, least_friction_nm));
    }
    return prior;
}

// One step to where all that was heard is met best; a value is doubted the more the further it lies off.
std::optional<std::vector<double>> step_of(const Played& played, const std::vector<PassMoment>& moments,
                                           const Prior& prior, const std::vector<double>& numbers) {
    const std::size_t count = numbers.size();
    SymmetricMatrix normal = prior.information;
    std::vector<double> right(count);
    for (std::size_t a = 0; a < count; ++a)
        for (std::size_t b = 0; b <= a; ++b) {
            const double information = prior.information.at(a, b);
            right[a] += information * (prior.mean[b] - numbers[b]);
            if (a != b)
                right[b] += information * (prior.mean[a] - numbers[a]);
        }
    for (std::size_t k = 0; k < moments.size(); ++k)
        for (std::size_t j = 0; j < moments[k].shown_cents.size(); ++j) {
            if (!moments[k].shown_cents[j])
                continue;
            const double off = *moments[k].shown_cents[j] - played.cents(k)[j];
            const double doubt = off / (doubted_sigmas * heard_sigma_cents);
            const double weight = 1.0 / (heard_sigma_cents * heard_sigma_cents * (1.0 + doubt * doubt));
            const Row& by = played.by(k, j);
            for (std::size_t a = 0; a < count; ++a) {
                if (by[a] == 0.0)
                    continue;
                right[a] += weight * by[a] * off;
                for (std::size_t b = 0; b <= a; ++b)
                    normal.at(a, b) += weight * by[a] * by[b];
            }
        }
    const Cholesky factor(normal);
    if (!factor.positive_definite())
        return std::nullopt;
    return factor.solve(std::move(right));
}

// Where the tail stands as the pass begins: where such strings would be held.
double angle_at_begin(const PassBegin& begin, const std::vector<double>& numbers, const Numbering& at) {
    const Assembly assembly = assembly_of(begin, numbers, at);
    Tuners tuners;
    for (std::size_t i = 0; i < at.strings; ++i)
        tuners.pitch_hz[i] = pitch_hz(assembly.strings[i], numbers[at.begin(i)]);
    return rest(assembly, tuners, begin.claw, begin.angle_rad).angle_rad;
}

} // namespace

std::optional<HeardPass> heard_pass(const PassBegin& begin, const std::vector<PassMoment>& moments) {
    const Numbering at{begin.begin_cents.size(), moments.size()};
    const Prior prior = prior_of(begin, moments, at);
    std::vector<double> numbers = prior.mean;
    const double angle_rad = angle_at_begin(begin, numbers, at);
    for (int i = 0; i < most_steps; ++i) {
        const auto step = step_of(Played(begin, moments, angle_rad, numbers), moments, prior, numbers);
        if (!step)
            return std::nullopt;
        double most = 0.0;
        for (std::size_t n = 0; n < numbers.size(); ++n) {
            const double by =
                n < most_unknowns ? std::clamp((*step)[n], -longest_step, longest_step) : (*step)[n];
            if (!std::isfinite(by))
                return std::nullopt;
            numbers[n] += by;
            most = std::max(most, std::abs(by));
        }
        if (most < settled_step)
            break;
    }
    return Played(begin, moments, angle_rad, numbers).last();
}

} // namespace counterpull
