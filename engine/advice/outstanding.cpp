#include "engine/advice/outstanding.h"

#include "engine/base/format.h"
#include "engine/base/units.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

// Off by more than this no reading is only in doubt; so much is turned for it at the least.
constexpr double clearly_off_mm = 1.25, least_for_off = 0.125;
// In one visit the tuner stops the claw so often at most; what is left then the next visit takes.
constexpr int most_stopped = 2;

const WedgeWay* wedge_of(const Report& report, const AtBench& at) {
    const auto& way = report.wedge;
    const bool has_thread = way && way->turns + at.wedge_extra <= report.setup().guitar.bay.turns_in_left;
    return has_thread ? &*way : nullptr;
}

} // namespace

Outstanding::Outstanding(const Report& report, const AtBench& at, Way way)
    : setup_(report.setup()), report_(report), best_(report.solution.advised()), at_(at),
      wedge_(at.wedged || (way.wedge && !at.wedge_pulled) ? wedge_of(report, at) : nullptr) {}

bool Outstanding::is_last(ReadingKind kind) const {
    return last() && last()->kind == kind && is_on_strings(*last(), Which::next) &&
           is_in_tuning(*last(), Which::next);
}

bool Outstanding::all_in_tune() const {
    return !last() || !last()->cents ||
           std::all_of(last()->cents->begin(), last()->cents->end(),
                       [](const auto& c) { return std::abs(c.value_or(0.0)) <= finished_cents; });
}

bool Outstanding::is_level() const {
    if (!at_.read || at_.imagined)
        return at_.read;
    if (!is_last(ReadingKind::in_tune) || !last()->tail_mm || !all_in_tune())
        return false;
    if (setup_.next.rest == RestWanted::on_the_body)
        return *last()->tail_mm <= setup_.guitar.bridge.tail_limits_mm[0] + level_tail_mm;
    return std::abs(off_mm()) <= level_tail_mm || (report_.next && std::abs(off_mm()) <= clearly_off_mm &&
                                                   !springs_differ() && std::abs(more()) <= least_turn);
}

double Outstanding::target() const {
    return wedge_ && !at_.wedge_pulled ? wedge_->turns + at_.wedge_extra : *best_.turns;
}

double Outstanding::more() const {
    const double left = target() - at_.turns();
    // Whatever is believed, a screw is turned for a tail that is clearly off.
    if (at_.read && !at_.imagined && setup_.next.rest == RestWanted::floating && !springs_differ() &&
        is_last(ReadingKind::in_tune) && last()->tail_mm && std::abs(off_mm()) > clearly_off_mm)
        return std::copysign(std::max(std::abs(left), least_for_off), off_mm());
    // On the body it must hold: where it was read to have lifted, a quarter turn more.
    const bool lifted = at_.read && setup_.next.rest == RestWanted::on_the_body;
    return lifted ? std::max(left, held_extra_turns) : left;
}

bool Outstanding::is_watched() const {
    return report_.tuning && report_.tuning->watch && at_.as_logged && !(at_.imagined && at_.freed);
}

bool Outstanding::stays_up() const {
    if (at_.slack || at_.slacken_first || (wedge_ && !at_.wedge_pulled) || springs_differ() || new_strings())
        return false;
    const bool little = more() < 0.0 ? more() >= -few_turns_out || at_.freed : more() <= few_turns;
    return little && (is_watched() || (eases_as_told() && report_.wedge));
}

bool Outstanding::turns_due() const {
    if (!stays_up())
        return std::abs(more()) >= least_turn && (at_.slack || at_.read || at_.as_logged);
    return std::abs(more()) >= (at_.in_visit ? least_stopped_turn : least_turn) && at_.stopped < most_stopped;
}

bool Outstanding::reads_again() const {
    return at_.read && at_.readings == 1 && all_in_tune() && is_last(ReadingKind::in_tune) &&
           last()->tail_mm && setup_.next.rest == RestWanted::floating && !springs_differ() &&
           std::abs(more() * mm_from_metres(best_.per_turn_m)) <= level_tail_mm;
}

bool Outstanding::comes_down() const {
    return new_strings() || at_.broken > 0 || springs_differ() ||
           (turns_due() && !stays_up() && !reads_again());
}

bool Outstanding::nut_is_forced() const {
    return setup_.guitar.nut_locked && (comes_down() || at_.slack || needs_an_open_nut(setup_));
}

std::size_t Outstanding::aims_to_take() const {
    const auto& sheet = report_.tuning;
    if (!sheet || at_.freed)
        return 0;
    const bool as_taken = sheet->start == SheetStart::brought_up_roughly ? at_.rough
                          : sheet->start == SheetStart::from_readings    ? at_.as_logged || at_.aimed > 0
                                                                         : !at_.came_down;
    return !as_taken ? 0 : sheet->why_gentler ? sheet->gentler_cents.size() : 1;
}

bool Outstanding::looks() const {
    return at_.in_visit && !at_.looked && !at_.freed && !at_.plain &&
           setup_.next.rest == RestWanted::floating && (at_.came_down || at_.visits == 1);
}

} // namespace counterpull
