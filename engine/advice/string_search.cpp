#include "engine/advice/string_search.h"

#include "engine/advice/arrangements.h"
#include "engine/base/put_in_order.h"
#include "engine/document/presets.h"

#include <algorithm>
#include <cmath>
#include <limits>

namespace counterpull {

namespace {

// Only the three highest strings are ever plain (common practice).
constexpr std::size_t most_plain = 3;
constexpr double far = std::numeric_limits<double>::infinity();

// What one string adds to a set.
struct Part {
    double cost = 0.0;                                         // (T/T_ref − 1)²
    double level = 0.0, above = 0.0, below = 0.0, slope = 0.0; // torques at θ, θ₊, θ₋, and dτ/dθ
    Part operator+(const Part& b) const {
        return {cost + b.cost, level + b.level, above + b.above, below + b.below, slope + b.slope};
    }
};

struct Candidate {
    Part part;
    int gauge = 0; // index into the sorted gauges
    double tension_n = 0.0;
    double strength_used = 0.0;
};

// Least and most that the strings from one on can add.
struct Bounds {
    Part least{0.0, 0.0, 0.0, 0.0, 0.0};
    Part most{0.0, 0.0, 0.0, 0.0, 0.0};
};

struct Wanted {
    Part springs;                    // torque of springs and weight, claw untouched
    double eased = 0.0, tight = 0.0; // at θ, a quarter turn out and in
};

// Thick to thin, wound before plain: a set takes gauges in this order.
bool comes_before(const StringSetup& a, const StringSetup& b) {
    return a.wound != b.wound ? a.wound : a.gauge_in > b.gauge_in;
}

class Search {
  public:
    Search(std::vector<std::vector<Candidate>> by_string, const Wanted& wanted, std::size_t most)
        : by_string_(std::move(by_string)), wanted_(wanted), most_(most), bounds_(by_string_.size() + 1),
          taken_(by_string_.size()) {
        for (std::size_t i = by_string_.size(); i-- > 0;) {
            Bounds own{{far, far, far, far, far}, {-far, -far, -far, -far, -far}};
            for (const Candidate& c : by_string_[i]) {
                own.least = each(own.least, c.part, [](double a, double b) { return std::min(a, b); });
                own.most = each(own.most, c.part, [](double a, double b) { return std::max(a, b); });
            }
            bounds_[i] = {own.least + bounds_[i + 1].least, own.most + bounds_[i + 1].most};
        }
    }

    struct Found {
        double cost;
        std::vector<const Candidate*> strings;
    };
    const std::vector<Found>& run() {
        descend(0, {});
        return found_;
    }

  private:
    template <class F>
    static Part each(const Part& a, const Part& b, F&& f) {
        return {f(a.cost, b.cost), f(a.level, b.level), f(a.above, b.above), f(a.below, b.below),
                f(a.slope, b.slope)};
    }

    // Whether sums from `least` to `most` may still keep the balance.
    bool may_hold(const Part& least, const Part& most) const {
        const Part& s = wanted_.springs;
        if (least.slope + s.slope >= 0.0)
            return false;
        const bool level = least.above + s.above <= 0.0 && most.below + s.below >= 0.0;
        const bool quarter = least.level + wanted_.tight <= 0.0 && most.level + wanted_.eased >= 0.0;
        return level || quarter;
    }

    void descend(std::size_t string, const Part& sum) {
        if (string == by_string_.size()) {
            keep(sum.cost);
            return;
        }
        const Bounds& rest = bounds_[string + 1];
        for (const Candidate& c : by_string_[string]) { // least cost first
            const Part with = sum + c.part;
            if (with.cost + rest.least.cost >= worst())
                return;
            if (string > 0 && c.gauge < taken_[string - 1]->gauge)
                continue;
            if (!may_hold(with + rest.least, with + rest.most))
                continue;
            taken_[string] = &c;
            descend(string + 1, with);
        }
    }

    double worst() const { return found_.size() < most_ ? far : found_.back().cost; }
    void keep(double cost) {
        const auto place = std::upper_bound(found_.begin(), found_.end(), cost,
                                            [](double c, const Found& found) { return c < found.cost; });
        found_.insert(place, {cost, taken_});
        if (found_.size() > most_)
            found_.pop_back();
    }

    std::vector<std::vector<Candidate>> by_string_;
    Wanted wanted_;
    std::size_t most_;
    std::vector<Bounds> bounds_; // of string i and all above it
    std::vector<const Candidate*> taken_;
    std::vector<Found> found_; // by cost
};

// The set-up with other strings wanted.
Assembly assembly_with(const Belief& belief, const std::vector<StringSetup>& strings) {
    const Setup& setup = belief.setup();
    return belief.assembly(
        {strings, setup.next.tuning, setup.next.offset_cents, fitted_springs(setup), Which::next});
}

// The strings by now, and how the bridge stands on them.
std::pair<Assembly, double> by_now(const Solution& solution) {
    const Setup& setup = solution.setup();
    if (!setup.log.empty() && solution.calibration.left)
        return {solution.belief().assembly(fitting_of(setup, setup.log.back())),
                solution.calibration.left->angle_rad};
    return {solution.belief().assembly(fitting_now(setup)), angle_of_tail_rad(setup, setup.now.tail_mm)};
}

std::vector<double> reference_tensions(const Belief& belief, const Assembly& now, double angle_rad,
                                       double held_nm, Feel feel) {
    const Setup& setup = belief.setup();
    const std::size_t count = setup.next.strings.size();
    std::vector<double> present;
    const Attitude attitude(angle_rad);
    for (const StringOnBridge& string : now.strung())
        present.push_back(tension_at_pitch_n(string, attitude));
    double mean = 0.0;
    for (const double tension : present)
        mean += tension / static_cast<double>(count);
    if (present.empty()) {
        double arms = 0.0;
        const Assembly next = assembly_with(belief, setup.next.strings);
        for (const StringOnBridge& string : next.strung())
            arms -= reach(string.nut(), string.saddle(), 0.0, attitude).per_rad_m;
        mean = held_nm / arms;
    }
    if (feel == Feel::present && !present.empty())
        return present;
    std::vector<double> tensions(count, mean);
    if (feel == Feel::progressive)
        for (std::size_t i = 0; i < count; ++i)
            tensions[i] *= 1.0 + progressive_share *
                                     (1.0 - 2.0 * static_cast<double>(i) / static_cast<double>(count - 1));
    return tensions;
}

Part springs_of(const Assembly& bare, const ClawSetting& claw, const Attitude& level, const Attitude& above,
                const Attitude& below) {
    auto torque = [&](const Attitude& at) {
        const Sample springs = spring_torque(bare, claw, at), weight = weight_torque(bare, at);
        return Sample{springs.value + weight.value, springs.slope + weight.slope};
    };
    const Sample here = torque(level);
    return {0.0, here.value, torque(above).value, torque(below).value, here.slope};
}

} // namespace

std::vector<FoundSet> sets_that_keep_the_balance(const Solution& solution,
                                                 std::span<const StringSetup> gauges,
                                                 const SearchOptions& options) {
    const Belief& belief = solution.belief();
    const ClawSetting& claw = solution.claw_by_now;
    const Setup& setup = belief.setup();
    std::vector<StringSetup> sorted(gauges.begin(), gauges.end());
    put_in_order(sorted, comes_before);
    const std::size_t count = setup.next.strings.size();
    const double angle = angle_of_tail_rad(setup, setup.next.tail_mm);
    const Assembly bare = assembly_with(belief, setup.next.strings);
    const double tail_m = tail_at_angle_m(bare.bridge, angle);
    const Attitude level(angle);
    const Attitude above(angle_at_tail_rad(bare.bridge, tail_m + level_tail_m));
    const Attitude below(angle_at_tail_rad(bare.bridge, tail_m - level_tail_m));
    Wanted wanted;
    wanted.springs = springs_of(bare, claw, level, above, below);
    wanted.tight =
        spring_torque(bare, claw.turned(kept_turns), level).value + weight_torque(bare, level).value;
    wanted.eased =
        spring_torque(bare, claw.turned(-kept_turns), level).value + weight_torque(bare, level).value;
    const auto [present, stands_rad] = by_now(solution);
    const std::vector<double> reference =
        reference_tensions(belief, present, stands_rad, -wanted.springs.level, options.feel);

    std::vector<std::vector<Candidate>> by_string(count);
    for (std::size_t g = 0; g < sorted.size(); ++g) {
        // The same string in every place: one assembly tries it everywhere.
        const Assembly tried = assembly_with(belief, std::vector<StringSetup>(count, sorted[g]));
        for (std::size_t i = 0; i < count; ++i) {
            const StringOnBridge& string = tried.strings[i];
            Candidate c;
            c.gauge = static_cast<int>(g);
            c.tension_n = tension_at_pitch_n(string, level);
            c.strength_used = c.tension_n / string.mechanics.breaking_load_n;
            if (c.tension_n <= 0.0 || c.strength_used >= comfortable_strength)
                continue;
            if (!sorted[g].wound && i + most_plain < count)
                continue;
            const Sample here = string_torque_at_pitch(string, level);
            c.part = {std::pow(c.tension_n / reference[i] - 1.0, 2), here.value,
                      string_torque_at_pitch(string, above).value,
                      string_torque_at_pitch(string, below).value, here.slope};
            by_string[i].push_back(c);
        }
    }
    for (std::vector<Candidate>& candidates : by_string)
        put_in_order(candidates,
                     [](const Candidate& a, const Candidate& b) { return a.part.cost < b.part.cost; });

    std::vector<FoundSet> sets;
    Search search(std::move(by_string), wanted, options.most); // the candidates found live in it
    for (const Search::Found& found : search.run()) {
        FoundSet set;
        for (const Candidate* c : found.strings) {
            set.strings.push_back(sorted[static_cast<std::size_t>(c->gauge)]);
            set.tension_n.push_back(c->tension_n);
            set.strength_used.push_back(c->strength_used);
        }
        const Assembly assembly = assembly_with(belief, set.strings);
        const Rest rest = rest_at_pitch(assembly, claw, stands_rad);
        set.tail_m = tail_at_angle_m(assembly.bridge, rest.angle_rad);
        set.turns = turns_for_attitude(assembly, claw, angle).at;
        set.level = std::abs(set.tail_m - tail_m) <= level_tail_m;
        set.unevenness = std::sqrt(found.cost / static_cast<double>(count));
        sets.push_back(std::move(set));
    }
    return sets;
}

std::vector<FoundSet> strings_to_buy(const Solution& solution, const SearchOptions& options) {
    return sets_that_keep_the_balance(solution, presets().gauges, options);
}

} // namespace counterpull
