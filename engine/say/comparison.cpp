#include "engine/say/comparison.h"

#include "engine/advice/advice.h"
#include "engine/base/format.h"
#include "engine/say/answer.h"
#include "engine/say/names.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

// How much more the strings pull after the change, as a share; nothing where it is not known what they do
// now.
std::optional<double> pull_more(const Report& report) {
    const auto& now = report.now.total_tension_n;
    const auto& after = report.carried_out.total_tension_n;
    if (!now || !after || *now <= 0.0)
        return std::nullopt;
    return *after / *now - 1.0;
}

Phrase because_of_pull(const char* key, double more) {
    return Phrase(key).with("percent", number(100.0 * std::abs(more), 0));
}

// What stands in the way of the springs that are on it, or what makes them the worse choice.
std::optional<Phrase> against_as_it_is(const Report& report) {
    const auto& advice = report.solution.advice;
    const auto as_it_is =
        std::find_if(advice.begin(), advice.end(), [](const Advice& each) { return each.moved == 0; });
    if (as_it_is == advice.end())
        return std::nullopt;
    if (!as_it_is->fits())
        return main_reason(report.setup(), *as_it_is);
    if (as_it_is->measure_first && !report.solution.advised().measure_first)
        return Phrase{"reason.measure_first"};
    if (as_it_is->work.minutes > report.solution.advised().work.minutes)
        return Phrase{"why.more_work"};
    return std::nullopt;
}

} // namespace

std::vector<Compared> before_and_after(const Report& report) {
    if (!report.next)
        return {};
    const Advice& advised = report.solution.advised();
    std::vector<Compared> rows;
    rows.push_back({"compared.springs", {Part(report.now.placed.size())}, {Part(advised.springs.size())}});
    const double turns = report.solution.more_turns();
    if (std::abs(turns) >= least_turn)
        rows.push_back(
            {"compared.screws",
             {Phrase{"compared.as_they_are"}},
             {Phrase(turns > 0.0 ? "compared.tighter" : "compared.looser").with("turns", Turns{turns})}});
    if (report.now.total_tension_n && report.next->total_tension_n)
        rows.push_back({"text.pull",
                        {newtons(*report.now.total_tension_n, 0)},
                        {newtons(*report.next->total_tension_n, 0)}});
    rows.push_back({"text.tail",
                    {signed_millimetres(report.now.tail_mm, 1)},
                    {signed_millimetres(report.next->tail_mm, 1)}});
    if (const auto harder = arm_harder(report, advised))
        rows.push_back({"compared.arm", {Phrase{"compared.arm_now"}}, {compared_arm(*harder)}});
    return rows;
}

std::optional<Phrase> why_so(const Report& report) {
    const Setup& setup = report.setup();
    const Advice& advised = report.solution.advised();
    const auto more = pull_more(report);
    if (!report.next || !more || is_under_way(setup) || advised.chosen ||
        setup.next.rest != RestWanted::floating)
        return std::nullopt;
    const auto springs =
        static_cast<int>(advised.springs.size()) - static_cast<int>(setup.now.springs.size());
    const double turns = report.solution.more_turns();
    const bool pulls_more = *more > told_pull, pulls_less = *more < -told_pull;
    if ((springs > 0 && pulls_less) || (springs < 0 && pulls_more)) {
        const auto against = against_as_it_is(report);
        if (!against)
            return std::nullopt;
        return because_of_pull(springs > 0 ? "why.spring_more" : "why.spring_less", *more)
            .with("count", setup.now.springs.size())
            .with("reason", *against);
    }
    if (springs > 0 && turns < -least_turn)
        return Phrase{"why.looser_with_more"};
    if (springs < 0 && turns > least_turn)
        return Phrase{"why.tighter_with_fewer"};
    const double high_mm = setup.now.tail_mm - setup.next.tail_mm;
    if (springs == 0 && turns > least_turn && pulls_less && high_mm > level_tail_mm)
        return because_of_pull("why.tighter", *more).with("by", millimetres(high_mm, 1));
    if (springs == 0 && turns < -least_turn && pulls_more && high_mm < -level_tail_mm)
        return because_of_pull("why.looser", *more).with("by", millimetres(-high_mm, 1));
    return std::nullopt;
}

} // namespace counterpull
