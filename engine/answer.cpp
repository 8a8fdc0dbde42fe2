#include "engine/answer.h"

#include "engine/format.h"
#include "engine/units.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

// Less than this is not worth a screwdriver: it rounds to no eighth of a turn.
constexpr double no_turn = 1.0 / 16.0;

std::string places_in_words(const std::vector<PlacedSpring>& springs, int PlacedSpring::*place) {
    std::vector<int> places;
    for (const PlacedSpring& spring : springs)
        places.push_back(spring.*place + 1);
    std::sort(places.begin(), places.end());
    std::string text;
    for (const int number : places)
        text += (text.empty() ? "" : ", ") + std::to_string(number);
    return text;
}

std::string springs_key(const Setup& setup, const Advice& best) {
    if (best.springs.size() > setup.now.springs.size())
        return "add";
    return best.springs.size() < setup.now.springs.size() ? "remove" : "same";
}

} // namespace

std::string turns_in_words(double turns, const Words& words) {
    // "1⅛ turns", but "1 turn" and "⅞ turn".
    const bool one = std::abs(turns) < 1.0 + no_turn;
    return words.say(one ? "unit.turn" : "unit.turns", {{"n", turns_in_eighths(turns)}});
}

std::string hooks_in_words(const std::vector<PlacedSpring>& springs) {
    return places_in_words(springs, &PlacedSpring::hook);
}

std::string holes_in_words(const std::vector<PlacedSpring>& springs) {
    return places_in_words(springs, &PlacedSpring::hole);
}

Phrase answer_sentence(const Setup& setup, const Report& report, const Words& words) {
    const Advice& best = report.advice.front();
    if (!best.fits && best.springs_missing && best.reasons.size() == 1)
        return {"answer.buy",
                {{"count", std::to_string(best.springs.size())},
                 {"owned", std::to_string(springs_owned(setup))}}};
    if (!best.fits)
        return {setup.next.rest == RestWanted::floating ? "answer.cannot" : "answer.cannot_rest",
                {{"reason", words.say(best.reasons.front())}}};
    const double turns = *best.turns - report.turns_made;
    const std::string way = std::abs(turns) < no_turn ? "leave" : turns > 0.0 ? "tighten" : "loosen";
    return {"answer." + springs_key(setup, best) + "." + way, {{"turns", turns_in_words(turns, words)}}};
}

std::vector<Phrase> answer_details(const Report& report) {
    std::vector<Phrase> details;
    const Advice& best = report.advice.front();
    if (best.fits && best.springs_moved > 0)
        details.push_back(
            {"answer.where",
             {{"hooks", hooks_in_words(best.springs)}, {"holes", holes_in_words(best.springs)}}});
    if (report.before_retuning_tail_mm)
        details.push_back(
            {"answer.before_retuning", {{"tail", with_sign(*report.before_retuning_tail_mm, 1)}}});
    if (report.next)
        details.push_back({"answer.back_in_tune", {{"tail", with_sign(report.next->tail_mm, 1)}}});
    const char* alone = report.untouched.outcome == RestKind::tail_up_stop     ? "answer.alone.up"
                        : report.untouched.outcome == RestKind::tail_down_stop ? "answer.alone.down"
                                                                               : "answer.alone.floats";
    details.push_back({alone, {{"tail", with_sign(report.untouched.tail_mm, 1)}}});
    return details;
}

} // namespace counterpull
