#include "engine/advice/pass_plan.h"

#include "engine/advice/tuning_sheet.h"
#include "engine/base/pitch.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

// So far a string goes unheard and is still known.
constexpr double hardly_moved_cents = 3.0;

using Places = std::vector<std::size_t>;
using Moments = std::vector<PassMoment>;

bool was_tuned(const Moments& moments, std::size_t string) {
    return std::any_of(moments.begin(), moments.end(),
                       [&](const PassMoment& moment) { return moment.tuned == string; });
}
bool was_heard(const Moments& moments, std::size_t string) {
    return std::any_of(moments.begin(), moments.end(),
                       [&](const PassMoment& moment) { return moment.shown_cents[string].has_value(); });
}
// It was heard, not only as it was tuned itself, and has hardly moved since.
bool is_known(const HeardPass& heard, const Moments& moments, std::size_t string) {
    for (std::size_t k = moments.size(); k-- > 0;)
        if (moments[k].shown_cents[string] && (moments[k].tuned != string || k + 1 == moments.size()))
            return std::abs(heard.cents.back()[string] - heard.cents[k][string]) <= hardly_moved_cents;
    return false;
}
// How many tunings ago a string was tuned last; the longest where it was not.
std::size_t since_tuned(const Moments& moments, std::size_t string) {
    const auto last = std::find_if(moments.rbegin(), moments.rend(),
                                   [&](const PassMoment& moment) { return moment.tuned == string; });
    return static_cast<std::size_t>(last - moments.rbegin());
}

// A guitar as it was heard, and how to go on.
class Plan {
  public:
    Plan(const HeardPass& heard, const ClawSetting& claw, const Moments& moments)
        : heard_(heard), claw_(claw), moments_(moments) {
        choose();
    }

    // Those to be tuned.
    const Places& order() const { return order_; }
    Aims aims() const { return one_pass(heard_.assembly, claw_, heard_.strung, wanted_, order_); }

    bool ends_at_stop() const { return ends_at_stop_; }

    // The string with the furthest to go first.
    void furthest_first() {
        const std::vector<double> to_go =
            cents_shown(heard_.assembly, heard_.strung.lengths_m, Attitude(end_rad_));
        const auto old = std::find_if_not(order_.begin(), order_.end(),
                                          [&](std::size_t string) { return is_new(string); });
        std::stable_sort(order_.begin(), old, [&](std::size_t a, std::size_t b) {
            return std::abs(to_go[a]) > std::abs(to_go[b]);
        });
    }
    // The aims again, none further than is asked of anyone.
    std::vector<double> limited_aims() const {
        std::vector<double> cents;
        Strung strung = heard_.strung;
        for (const std::size_t i : order_) {
            const StringOnBridge& string = heard_.assembly.strings[i];
            Strung there = strung;
            there.lengths_m[i] = wanted_[i];
            there = settled(heard_.assembly, claw_, there);
            const double aim = cents_shown(string, wanted_[i], Attitude(there.angle_rad));
            cents.push_back(std::clamp(aim, -most_aim_cents, most_sharp_cents(string)));
            if (cents.back() != aim)
                there = brought_to(heard_.assembly, claw_, strung, i, cents.back());
            strung = there;
        }
        return cents;
    }

  private:
    bool is_new(std::size_t string) const { return !was_tuned(moments_, string); }

    // Where all should stand at pitch: who is not known to, else who was heard off against all before.
    std::vector<bool> to_be_heard() const {
        const auto& shown = moments_.back().shown_cents;
        std::vector<bool> these(shown.size());
        std::size_t furthest = 0;
        for (std::size_t i = 0; i < these.size(); ++i) {
            these[i] = !is_known(heard_, moments_, i);
            if (std::abs(shown[i].value_or(0.0)) > std::abs(shown[furthest].value_or(0.0)))
                furthest = i;
        }
        if (std::none_of(these.begin(), these.end(), [](bool one) { return one; }))
            these[furthest] = true;
        return these;
    }
    // Whatever would stand off most when those chosen are at pitch is chosen too, until none stands off.
    void choose() {
        const std::size_t strings = heard_.cents.back().size();
        Tuners tuners = untouched(heard_.strung.lengths_m);
        std::vector<bool> chosen(strings);
        auto choose = [&](std::size_t string) {
            chosen[string] = true;
            tuners.pitch_hz[string] = heard_.assembly.strings[string].frequency_hz;
        };
        for (std::size_t i = 0; i < strings; ++i)
            if (is_new(i) && !was_heard(moments_, i))
                choose(i); // nobody knows
        for (;;) {
            const Rest end = rest(heard_.assembly, tuners, claw_, heard_.strung.angle_rad);
            end_rad_ = end.angle_rad;
            ends_at_stop_ = end.at_stop();
            wanted_ = lengths_as_tuned(heard_.assembly, tuners, Attitude(end_rad_));
            const std::vector<double> cents = cents_shown(heard_.assembly, wanted_, Attitude(end_rad_));
            const auto most = std::max_element(cents.begin(), cents.end(),
                                               [](double a, double b) { return std::abs(a) < std::abs(b); });
            const auto furthest = static_cast<std::size_t>(most - cents.begin());
            if (std::abs(*most) <= left_alone_cents || chosen[furthest])
                break;
            choose(furthest);
        }
        if (std::none_of(chosen.begin(), chosen.end(), [](bool one) { return one; }))
            chosen = to_be_heard();
        for (std::size_t i = 0; i < strings; ++i)
            if (chosen[i])
                order_.push_back(i);
        std::stable_sort(order_.begin(), order_.end(), [&](std::size_t a, std::size_t b) {
            return since_tuned(moments_, a) > since_tuned(moments_, b);
        });
    }

    const HeardPass& heard_;
    ClawSetting claw_;
    const Moments& moments_;
    Places order_;
    double end_rad_ = 0.0; // where the bridge stands when these are at pitch
    bool ends_at_stop_ = false;
    StringLengths wanted_{};
};

} // namespace

PassPlan pass_plan(const HeardPass& heard, const ClawSetting& claw, const Moments& moments, bool may_rest) {
    Plan plan(heard, claw, moments);
    const Aims aims = plan.aims();
    std::vector<double> cents = aims.cents;
    if (why_gentler(aims, may_rest)) {
        plan.furthest_first();
        cents = plan.limited_aims();
    }
    PassPlan found;
    found.ends_at_stop = plan.ends_at_stop();
    for (std::size_t n = 0; n < cents.size(); ++n)
        found.aims.push_back({plan.order()[n], cents[n]});
    return found;
}

bool all_stand(const HeardPass& heard, const Moments& moments, double cents, double heard_cents) {
    const std::vector<double>& now = heard.cents.back();
    for (std::size_t i = 0; i < now.size(); ++i)
        if (!is_known(heard, moments, i) || std::abs(now[i]) > cents ||
            std::abs(moments.back().shown_cents[i].value_or(0.0)) > heard_cents)
            return false;
    return true;
}

double most_sharp_cents(const StringOnBridge& string) {
    const double strong_hz =
        pitch_at_tension_hz(string.mechanics, aim_strength * string.mechanics.breaking_load_n,
                            speaking_length_m(string, Attitude(0.0)));
    return std::clamp(cents_between(string.frequency_hz, strong_hz), 0.0, most_aim_cents);
}

Strung brought_to(const Assembly& assembly, const ClawSetting& claw, Strung strung, std::size_t string,
                  double cents) {
    const Tuners tuners = one_at_pitch(strung.lengths_m, static_cast<int>(string),
                                       assembly.strings[string].frequency_hz * std::exp2(cents / 1200.0));
    strung.angle_rad = rest(assembly, tuners, claw, strung.angle_rad).angle_rad;
    strung.lengths_m = lengths_as_tuned(assembly, tuners, Attitude(strung.angle_rad));
    return strung;
}

} // namespace counterpull
