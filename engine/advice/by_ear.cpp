#include "engine/advice/by_ear.h"

#include "engine/advice/pass_plan.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

// By all that was heard within the first of these, and heard there at the last moment within the second, is
// done: then 98 of 100 guitars truly stand within `by_ear_cents`.
constexpr double known_cents = 1.8, heard_cents = 3.0;
// What is further off is no tuning, but a string not brought up or not understood.
constexpr double most_heard_cents = 1200.0;
// A bridge that runs onto a stop is not chased for longer.
constexpr std::size_t most_rounds = 3;
// A pass longer than that goes by its newest moments.
constexpr std::size_t most_moments = 32;

using Moments = std::vector<PassMoment>;

class ByEar {
  public:
    ByEar(const Report& report, const Step& step, const std::vector<HeardInPass>& pass)
        : report_(report), step_(step), pass_(pass), strings_(report.setup().next.strings.size()) {}

    std::vector<Aim> aims() const {
        if (pass_.empty())
            return step_.aims;
        if (step_.wedged || !report_.next)
            return own_aims(step_.aims);
        if (step_.how == TuneHow::rough)
            return own_aims(brought_up().aims);
        const PassBegin begin = pass_begin();
        const Moments moments = all_moments(begin);
        const auto heard = heard_pass(begin, moments);
        if (!heard)
            return own_aims(step_.aims);
        if (all_stand(*heard, moments, known_cents, heard_cents))
            return {};
        return planned(*heard, begin, moments);
    }

    bool runs_to_stop() const {
        if (tunings() == 0 || step_.wedged || step_.how == TuneHow::rough || !report_.next || may_rest())
            return false;
        const PassBegin begin = pass_begin();
        const Moments moments = all_moments(begin);
        const auto heard = heard_pass(begin, moments);
        return heard && pass_plan(*heard, begin.claw, moments, false).ends_at_stop;
    }

    std::vector<double> expected() const {
        if (pass_.empty() || step_.wedged || step_.how == TuneHow::rough || !report_.next)
            return begin_cents();
        const PassBegin begin = pass_begin();
        const Moments moments = all_moments(begin);
        const auto heard = heard_pass(begin, moments);
        if (!heard)
            return begin.begin_cents;
        const std::vector<Aim> aims = planned(*heard, begin, moments);
        if (aims.empty())
            return heard->cents.back();
        const Strung then = brought_to(heard->assembly, begin.claw, heard->strung, place(aims.front().string),
                                       aims.front().cents);
        return cents_shown(heard->assembly, then.lengths_m, Attitude(then.angle_rad));
    }

  private:
    std::size_t place(int string) const { return strings_ - static_cast<std::size_t>(string); }
    std::optional<std::size_t> place_of(int string) const {
        return string >= 1 && static_cast<std::size_t>(string) <= strings_ ? std::optional(place(string))
                                                                           : std::nullopt;
    }
    Aim aim(std::size_t place, double cents) const {
        return {static_cast<int>(strings_ - place), cents,
                *report_.carried_out.strings[place].pitch_hz * std::exp2(cents / 1200.0)};
    }
    static std::optional<double> heard_at(const HeardInPass& moment, std::size_t place) {
        if (place >= moment.shown_cents.size())
            return std::nullopt;
        const auto& cents = moment.shown_cents[place];
        return cents && std::abs(*cents) <= most_heard_cents ? cents : std::nullopt;
    }

    // Each string once; in tuning plainly until it was heard there.
    std::vector<Aim> own_aims(const std::vector<Aim>& aims) const {
        std::vector<Aim> left;
        for (const Aim& aim : aims) {
            const auto cents = heard_at(pass_.back(), place(aim.string));
            const bool there = cents && std::abs(*cents - aim.cents) <= by_ear_cents;
            const bool had = step_.how != TuneHow::plain &&
                             std::any_of(pass_.begin(), pass_.end(), [&](const HeardInPass& moment) {
                                 return moment.tuned == aim.string;
                             });
            if (!there && !had)
                left.push_back(aim);
        }
        return left;
    }
    // From slack, sharp by what the tail will take of it, as far as is allowed; and what all show then.
    struct Rough {
        std::vector<Aim> aims;
        std::vector<double> after_cents;
    };
    Rough brought_up() const {
        const Assembly assembly = report_.solution.assembly_advised();
        const ClawSetting claw = claw_advised();
        const StringLengths wanted =
            lengths_at_pitch(assembly, Attitude(report_.solution.advised().angle_rad));
        Strung strung = slack(assembly);
        Rough rough;
        for (std::size_t i = 0; i < strings_; ++i) {
            Strung there = strung;
            there.lengths_m[i] = wanted[i];
            there = settled(assembly, claw, there);
            const double sharp = cents_shown(assembly.strings[i], wanted[i], Attitude(there.angle_rad));
            rough.aims.push_back(aim(i, std::clamp(sharp, 0.0, most_sharp_cents(assembly.strings[i]))));
            strung = brought_to(assembly, claw, strung, i, rough.aims.back().cents);
        }
        rough.after_cents = cents_shown(assembly, strung.lengths_m, Attitude(strung.angle_rad));
        return rough;
    }

    ClawSetting claw_advised() const {
        return report_.solution.claw.turned(*report_.solution.advised().turns);
    }
    PassBegin pass_begin() const {
        const Solution& solution = report_.solution;
        return {solution.belief(), fitting_next(report_.setup(), solution.advised().springs), claw_advised(),
                solution.advised().angle_rad, begin_cents()};
    }
    std::vector<double> begin_cents() const {
        if (step_.wedged || step_.how != TuneHow::aimed || step_.pass > 1 || !report_.tuning)
            return std::vector<double>(strings_);
        return report_.tuning->start == SheetStart::brought_up_roughly ? brought_up().after_cents
                                                                       : report_.tuning->begin_cents;
    }
    Moments all_moments(const PassBegin& begin) const {
        Moments moments;
        for (std::size_t k = pass_.size() > most_moments ? pass_.size() - most_moments : 0; k < pass_.size();
             ++k)
            moments.push_back(moment(pass_[k], begin, moments));
        return moments;
    }
    // `before`: the moments before this one. A string that was tuned and not heard stands where it was to.
    PassMoment moment(const HeardInPass& heard, const PassBegin& begin, const Moments& before) const {
        PassMoment moment;
        for (std::size_t i = 0; i < strings_; ++i)
            moment.shown_cents.push_back(heard_at(heard, i));
        if (before.empty())
            return moment;
        moment.tuned = place_of(heard.tuned);
        if (!moment.tuned || moment.shown_cents[*moment.tuned])
            return moment;
        if (const auto then = heard_pass(begin, before))
            for (const Aim& aim : planned(*then, begin, before))
                if (aim.string == heard.tuned)
                    moment.aimed_cents = aim.cents;
        return moment;
    }

    bool may_rest() const { return report_.setup().next.rest == RestWanted::on_the_body; }
    std::size_t tunings() const {
        return static_cast<std::size_t>(std::count_if(pass_.begin(), pass_.end(), [&](const auto& moment) {
            return place_of(moment.tuned).has_value();
        }));
    }
    std::vector<Aim> planned(const HeardPass& heard, const PassBegin& begin, const Moments& moments) const {
        const PassPlan plan = pass_plan(heard, begin.claw, moments, may_rest());
        if (plan.ends_at_stop && !may_rest()) {
            const std::vector<Aim> own = own_aims(step_.aims);
            if (!own.empty() || tunings() >= most_rounds * strings_)
                return own;
        }
        std::vector<Aim> told;
        for (const PlannedAim& planned : plan.aims)
            told.push_back(aim(planned.string, planned.cents));
        return told;
    }

    const Report& report_;
    const Step& step_;
    const std::vector<HeardInPass>& pass_;
    std::size_t strings_;
};

} // namespace

std::vector<Aim> aims_by_ear(const Report& report, const Step& step, const std::vector<HeardInPass>& pass) {
    return step.kind == StepKind::tune ? ByEar(report, step, pass).aims() : std::vector<Aim>{};
}

std::vector<double> expected_by_ear(const Report& report, const Step& step,
                                    const std::vector<HeardInPass>& pass) {
    return step.kind == StepKind::tune ? ByEar(report, step, pass).expected() : std::vector<double>{};
}

bool runs_to_stop(const Report& report, const Step& step, const std::vector<HeardInPass>& pass) {
    return step.kind == StepKind::tune && ByEar(report, step, pass).runs_to_stop();
}

std::vector<double> shown_when_turned(const Report& report, const Step& step) {
    const auto& sheet = report.tuning;
    const bool watched = step.kind == StepKind::turn_until && sheet && sheet->watch &&
                         step.cents == sheet->watch_cents &&
                         step.string == static_cast<int>(report.setup().next.strings.size()) - *sheet->watch;
    return watched ? sheet->turned_cents : std::vector<double>{};
}

} // namespace counterpull
