#include "engine/say/answer.h"

#include "engine/advice/steps.h"
#include "engine/base/format.h"
#include "engine/base/put_in_order.h"
#include "engine/base/units.h"

#include <algorithm>
#include <cmath>
#include <cstdlib>

namespace counterpull {

namespace {

constexpr std::size_t told_most = 3;
// Turns below this are told as hours on a clock's face, of which a turn has twelve.
constexpr double small_turns = 0.45, hours_a_turn = 12.0;

// How many springs more than are fitted.
int springs_more(const Setup& setup, const Advice& best) {
    return static_cast<int>(best.springs.size()) - static_cast<int>(fitted_springs(setup).size());
}

// The same, stiffer or softer, by the keys that say it.
Phrase arm_said(double harder, const char* same, const char* stiffer, const char* softer) {
    if (std::abs(harder) <= felt_share)
        return {same};
    constexpr double step = 5.0; // percent
    return Phrase(harder > 0.0 ? stiffer : softer)
        .with("percent", number(step * std::round(100.0 * std::abs(harder) / step), 0));
}

std::string springs_key(const Setup& setup, int more) {
    return more > 0 ? "add" : more < 0 ? "remove" : is_under_way(setup) ? "more" : "same";
}

} // namespace

Phrase answer_sentence(const Report& report) {
    const Setup& setup = report.setup();
    const Advice& best = report.solution.advised();
    if (best.chosen && !best.fits())
        return Phrase("answer.not_as_chosen").with("reason", main_reason(setup, best));
    if (best.only_springs_missing())
        return Phrase("answer.buy")
            .with("count", best.springs.size())
            .with("owned", static_cast<int>(best.springs.size()) - springs_needed(best.springs) +
                               springs_owned(setup));
    if (!best.fits())
        return Phrase(setup.next.rest == RestWanted::floating ? "answer.cannot" : "answer.cannot_rest")
            .with("reason", main_reason(setup, best));
    const double turns = report.solution.more_turns();
    const std::string way = std::abs(turns) < least_turn ? "leave" : turns > 0.0 ? "tighten" : "loosen";
    const int more = springs_more(setup, best);
    return Phrase("answer." + springs_key(setup, more) + "." + way)
        .with("count", std::abs(more))
        .with("turns", Turns{turns})
        .with("range", TurnsRange{turns, ninety_percent * best.turns_sigma});
}

std::vector<Phrase> answer_details(const Report& report) {
    std::vector<Phrase> details;
    const Setup& setup = report.setup();
    const Advice& best = report.solution.advised();
    auto mm = [](double value) { return signed_millimetres(value, 1); };
    if (best.fits() && best.moved > 0)
        details.push_back(Phrase("answer.where")
                              .with("hooks", hooks_of(best.springs))
                              .with("holes", holes_of(best.springs)));
    if (best.fits() && !setup.log.empty() && std::abs(*best.turns) >= least_turn)
        details.push_back(Phrase(*best.turns > 0.0 ? "answer.in_all_tighter" : "answer.in_all_looser")
                              .with("turns", Turns{*best.turns}));
    if (const Advice& recommended = report.solution.recommended(); !best.fits() && recommended.fits())
        details.push_back(Phrase("answer.recommended")
                              .with("springs", choice_of(recommended.springs))
                              .with("turns", turns_of(report, recommended)));
    // Turns this small are told by a clock's hand, too.
    if (const double turns = std::abs(report.solution.more_turns());
        best.fits() && turns >= least_turn && turns < small_turns)
        details.push_back(Phrase("answer.clock")
                              .with("turns", Turns{turns})
                              .with("hours", Amount{hours_a_turn * std::round(8.0 * turns) / 8.0, 1,
                                                    Measure::number, false, false, true})
                              .with("decimal", number(turns, 2)));
    for (const Alternative& alternative : report.instead)
        details.push_back(sentence_of(alternative));
    if (report.before_retuning_tail_mm && std::abs(report.solution.more_turns()) >= least_turn)
        details.push_back(Phrase("answer.before_retuning").with("tail", mm(*report.before_retuning_tail_mm)));
    if (auto after = back_in_tune(report))
        details.push_back(std::move(*after));
    if (usual_way(report).wedge)
        details.push_back(
            Phrase(best.measure_first ? "answer.wedge_anywhere" : "answer.wedge")
                .with("spread", millimetres(mm_from_metres(ninety_percent * best.tail_sigma_m), 1)));
    if (const double differ_mm = sides_differ_mm(setup); differ_mm != 0.0)
        details.push_back(Phrase(differ_mm > 0.0 ? "answer.bass_side_up" : "answer.treble_side_up")
                              .with("by", millimetres(std::abs(differ_mm), 1))
                              .with("tail", mm(setup.now.tail_mm)));
    const char* alone = report.untouched.outcome == RestKind::tail_up_stop     ? "answer.alone.up"
                        : report.untouched.outcome == RestKind::tail_down_stop ? "answer.alone.down"
                                                                               : "answer.alone.floats";
    details.push_back(Phrase(alone).with("tail", mm(report.untouched.tail_mm)));
    return details;
}

double sides_differ_mm(const Setup& setup) {
    constexpr double told_mm = 0.4;
    if (!setup.now.tail_sides_mm)
        return 0.0;
    const double differ_mm = (*setup.now.tail_sides_mm)[0] - (*setup.now.tail_sides_mm)[1];
    return std::abs(differ_mm) > told_mm ? differ_mm : 0.0;
}

std::optional<Phrase> back_in_tune(const Report& report) {
    if (!report.next)
        return std::nullopt;
    if (report.setup().next.rest == RestWanted::on_the_body)
        return Phrase{"answer.on_the_body"};
    const Advice& advised = report.solution.advised();
    const Amount tail = signed_millimetres(report.next->tail_mm, 1);
    if (advised.measure_first)
        return Phrase("answer.back_anywhere").with("tail", tail);
    return Phrase("answer.back_in_tune")
        .with("tail", tail)
        .with("spread", millimetres(mm_from_metres(ninety_percent * advised.tail_sigma_m), 1));
}

NotesOfTest notes_of_test(const TestReading& test, const Setup& setup) {
    const Pitch from = setup.now.tuning[setup.now.tuning.size() - static_cast<std::size_t>(test.string)];
    const int semitones = static_cast<int>(std::lround(test.by_cents / 100.0));
    return {from, pitch_of_key(key_number(from) + (test.kind == ReadingKind::drop ? -semitones : semitones))};
}

Phrase sentence_of(const TestReading& test, const Report& report) {
    const Advice& advised = report.solution.advised();
    const NotesOfTest notes = notes_of_test(test, report.setup());
    return Phrase(test.kind == ReadingKind::bend ? "answer.test_bend" : "answer.test_drop")
        .with("string", test.string)
        .with("from", notes.from)
        .with("to", notes.to)
        .with("before", number(ninety_percent * advised.turns_sigma, 2))
        .with("after", number(ninety_percent * test.sigma_after, 2));
}

std::optional<Phrase> what_matters_most(const Report& report) {
    List things;
    for (std::size_t i = 0; i < report.worth.size() && i < told_most; ++i) {
        const Worth& worth = report.worth[i];
        if (worth.turns < least_turn)
            break;
        things.things.push_back({Phrase("answer.matters_item")
                                     .with("name", name_of(worth.unknown))
                                     .with("turns", number(ninety_percent * worth.turns, 1))});
    }
    if (things.things.empty())
        return std::nullopt;
    return Phrase("answer.matters").with("things", std::move(things));
}

std::vector<const Advice*> told_choices(const Report& report) {
    constexpr int most_fitting = 5, most_to_buy = 2;
    int fitting = 0, to_buy = 0;
    std::vector<const Advice*> told;
    for (const Advice& advice : report.solution.advice) {
        const bool as_it_is = advice.moved == 0;
        const bool told_anyway = advice.fits()                   ? fitting++ < most_fitting
                                 : advice.only_springs_missing() ? to_buy++ < most_to_buy
                                                                 : false;
        if (told_anyway || as_it_is || advice.recommended || told.empty())
            told.push_back(&advice);
    }
    return told;
}

Parts choice_of(const Arrangement& springs) {
    const List hooks = hooks_of(springs), holes = holes_of(springs);
    Parts choice = {Phrase(hooks == holes ? "choice.straight" : "choice.across")
                        .with("count", springs.size())
                        .with("hooks", hooks)
                        .with("holes", holes)};
    const auto others = static_cast<int>(springs.size()) - springs_needed(springs);
    if (others > 0)
        choice.emplace_back(Phrase("choice.other_kind").with("count", others));
    return choice;
}

Phrase turns_of(const Report& report, const Advice& advice) {
    if (!advice.turns)
        return {"text.nowhere"};
    const double turns = report.solution.more_turns(advice);
    const char* key = std::abs(turns) < least_turn ? "text.turns_none"
                      : turns < 0.0                ? "text.turns_out"
                                                   : "text.turns_in";
    return Phrase(key)
        .with("turns", Turns{turns})
        .with("decimal", number(std::abs(turns), 2))
        .with("spread", number(ninety_percent * advice.turns_sigma, 2));
}

Phrase time_in_words(double minutes) {
    // From how many minutes on they are told to so many; past the last it is only told that it is more.
    constexpr double to_tens = 27.5, to_halves = 65.0, most = 180.0, more = 210.0;
    const double step = minutes < to_tens ? 5.0 : minutes < to_halves ? 10.0 : 30.0;
    const double told = std::max(step, step * std::round(minutes / step));
    return Phrase("choice.time").with("minutes", number(told > most ? more : told, 0));
}

std::optional<double> arm_harder(const Report& report, const Advice& advice) {
    const double now = report.solution.arm_now_nm_per_rad.value_or(0.0);
    if (now <= 0.0 || advice.arm_nm_per_rad <= 0.0)
        return std::nullopt;
    return advice.arm_nm_per_rad / now - 1.0;
}

Phrase compared_arm(double harder) {
    return arm_said(harder, "compared.arm_now", "compared.arm_stiffer", "compared.arm_softer");
}

std::vector<Phrase> outlook_of(const Report& report, const Advice& advice) {
    std::vector<Phrase> outlook;
    if (!advice.fits())
        return outlook;
    const bool done = is_under_way(report.setup()) && advice.moved == 0 &&
                      std::abs(report.solution.more_turns(advice)) < least_turn;
    if (!done)
        outlook.push_back(time_in_words(advice.work.minutes));
    if (const auto harder = arm_harder(report, advice))
        outlook.push_back(arm_said(*harder, "choice.arm_same", "choice.arm_stiffer", "choice.arm_softer"));
    return outlook;
}

} // namespace counterpull
