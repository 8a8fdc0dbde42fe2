#include "engine/say/answer.h"

#include "engine/base/format.h"
#include "engine/base/put_in_order.h"
#include "engine/base/units.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

// The two sides of a tail differ by more than a ruler's error from here on.
constexpr double sides_differ_mm = 0.4;
constexpr std::size_t told_most = 3;

std::string places_in_words(const std::vector<PlacedSpring>& springs, int PlacedSpring::*place) {
    std::vector<int> places;
    for (const PlacedSpring& spring : springs)
        places.push_back(spring.*place + 1);
    put_in_order(places, std::less<int>());
    std::string text;
    for (const int number : places)
        text += (text.empty() ? "" : ", ") + std::to_string(number);
    return text;
}

std::string springs_key(const Setup& setup, const Advice& best) {
    const std::size_t fitted = fitted_springs(setup).size();
    if (best.springs.size() > fitted)
        return "add";
    if (best.springs.size() < fitted)
        return "remove";
    return is_under_way(setup) ? "more" : "same";
}

} // namespace

std::string turns_in_words(double turns, const Words& words) {
    // "1⅛ turns", but "1 turn" and "⅞ turn".
    const bool one = std::abs(turns) < 1.0 + least_turn;
    return words.say(Phrase(one ? "unit.turn" : "unit.turns").with("n", turns_in_eighths(turns)));
}

std::string range_in_words(double turns, double sigma, const Words& words) {
    const double reach = ninety_percent * sigma;
    const double low = std::abs(turns) - reach, high = std::abs(turns) + reach;
    if (low < least_turn)
        return reach < least_turn ? ""
                                  : words.say(Phrase("unit.give_or_take").with("n", turns_in_eighths(reach)));
    if (turns_in_eighths(low) == turns_in_eighths(high))
        return "";
    return words.say(
        Phrase("unit.range").with("low", turns_in_eighths(low)).with("high", turns_in_eighths(high)));
}

std::string hooks_in_words(const std::vector<PlacedSpring>& springs) {
    return places_in_words(springs, &PlacedSpring::hook);
}

std::string holes_in_words(const std::vector<PlacedSpring>& springs) {
    return places_in_words(springs, &PlacedSpring::hole);
}

Phrase answer_sentence(const Setup& setup, const Report& report, const Words& words) {
    const Advice& best = report.advice.front();
    if (!best.fits && best.only_springs_missing())
        return Phrase("answer.buy").with("count", best.springs.size()).with("owned", springs_owned(setup));
    if (!best.fits)
        return Phrase(setup.next.rest == RestWanted::floating ? "answer.cannot" : "answer.cannot_rest")
            .with("reason", words.say(best.reasons.front()));
    const double turns = *best.turns - report.turns_made;
    const std::string way = std::abs(turns) < least_turn ? "leave" : turns > 0.0 ? "tighten" : "loosen";
    return Phrase("answer." + springs_key(setup, best) + "." + way)
        .with("turns", turns_in_words(turns, words))
        .with("range", range_in_words(turns, best.turns_sigma, words));
}

Phrase sentence_of(const Alternative& alternative) {
    const char* key = alternative.change == Change::springs   ? "instead.springs"
                      : alternative.change == Change::strings ? "instead.strings"
                      : alternative.semitones < 0             ? "instead.lower"
                                                              : "instead.higher";
    return Phrase(key)
        .with("name", Parts{PresetName{alternative.preset}})
        .with("count", alternative.springs.size())
        .with("semitones", std::abs(alternative.semitones));
}

std::vector<Phrase> answer_details(const Setup& setup, const Report& report) {
    std::vector<Phrase> details;
    const Advice& best = report.advice.front();
    auto mm = [](double value) { return signed_millimetres(value, 1); };
    if (best.fits && best.moved > 0)
        details.push_back(Phrase("answer.where")
                              .with("hooks", hooks_in_words(best.springs))
                              .with("holes", holes_in_words(best.springs)));
    for (const Alternative& alternative : report.instead)
        details.push_back(sentence_of(alternative));
    if (report.before_retuning_tail_mm)
        details.push_back(Phrase("answer.before_retuning").with("tail", mm(*report.before_retuning_tail_mm)));
    if (auto after = back_in_tune(setup, report))
        details.push_back(std::move(*after));
    if (report.wedge && !is_correction(setup) && best.tail_sigma_m > unsure_tail_m)
        details.push_back({"answer.wedge"});
    if (setup.now.tail_sides_mm) {
        const double differ_mm = (*setup.now.tail_sides_mm)[0] - (*setup.now.tail_sides_mm)[1];
        if (std::abs(differ_mm) > sides_differ_mm)
            details.push_back(Phrase(differ_mm > 0.0 ? "answer.bass_side_up" : "answer.treble_side_up")
                                  .with("by", millimetres(std::abs(differ_mm), 1))
                                  .with("tail", mm(setup.now.tail_mm)));
    }
    const char* alone = report.untouched.outcome == RestKind::tail_up_stop     ? "answer.alone.up"
                        : report.untouched.outcome == RestKind::tail_down_stop ? "answer.alone.down"
                                                                               : "answer.alone.floats";
    details.push_back(Phrase(alone).with("tail", mm(report.untouched.tail_mm)));
    return details;
}

std::optional<Phrase> back_in_tune(const Setup& setup, const Report& report) {
    if (!report.next)
        return std::nullopt;
    if (setup.next.rest == RestWanted::on_the_body)
        return Phrase{"answer.on_the_body"};
    const double spread_m = ninety_percent * report.advice.front().tail_sigma_m;
    return Phrase("answer.back_in_tune")
        .with("tail", signed_millimetres(report.next->tail_mm, 1))
        .with("spread", millimetres(mm_from_metres(spread_m), 1));
}

std::optional<Phrase> test_reading_in_words(const Report& report) {
    if (!report.test_reading)
        return std::nullopt;
    const TestReading& test = *report.test_reading;
    return Phrase(test.kind == ReadingKind::bend ? "answer.test_bend" : "answer.test_drop")
        .with("string", test.string)
        .with("cents", number(test.by_cents, 0))
        .with("before", number(ninety_percent * report.advice.front().turns_sigma, 2))
        .with("after", number(ninety_percent * test.sigma_after, 2));
}

std::optional<Phrase> what_matters_most(const Report& report, const Words& words) {
    std::string things;
    for (std::size_t i = 0; i < report.worth.size() && i < told_most; ++i) {
        const Worth& worth = report.worth[i];
        if (worth.turns < least_turn)
            break;
        things +=
            (i > 0 ? ", " : "") + words.say(Phrase("answer.matters_item")
                                                .with("name", words.say(name_of(worth.unknown)))
                                                .with("turns", number(ninety_percent * worth.turns, 1)));
    }
    if (things.empty())
        return std::nullopt;
    return Phrase("answer.matters").with("things", things);
}

std::vector<const Advice*> told_choices(const Report& report) {
    constexpr int most_fitting = 5, most_to_buy = 2;
    int fitting = 0, to_buy = 0;
    std::vector<const Advice*> told;
    for (const Advice& advice : report.advice) {
        const bool as_it_is = advice.moved == 0;
        const bool told_anyway = advice.fits                     ? fitting++ < most_fitting
                                 : advice.only_springs_missing() ? to_buy++ < most_to_buy
                                                                 : false;
        if (told_anyway || as_it_is || told.empty())
            told.push_back(&advice);
    }
    return told;
}

std::string choice_in_words(const Advice& advice, const Words& words) {
    const std::string hooks = hooks_in_words(advice.springs), holes = holes_in_words(advice.springs);
    std::string text = words.say(Phrase(hooks == holes ? "choice.straight" : "choice.across")
                                     .with("count", advice.springs.size())
                                     .with("hooks", hooks)
                                     .with("holes", holes));
    const auto others = static_cast<int>(advice.springs.size()) - springs_needed(advice.springs);
    if (others > 0)
        text += words.say(Phrase("choice.other_kind").with("count", others));
    return text;
}

} // namespace counterpull
