#include "engine/report.h"

#include "engine/format.h"
#include "engine/units.h"

#include <nlohmann/json.hpp>

namespace counterpull {

namespace {

using nlohmann::ordered_json;

ordered_json number(double value) {
    return nine_digits(value);
}

ordered_json number(const std::optional<double>& value) {
    return value ? number(*value) : ordered_json(nullptr);
}

ordered_json placed_json(const std::vector<PlacedSpring>& springs) {
    ordered_json list = ordered_json::array();
    for (const PlacedSpring& placed : springs) {
        ordered_json entry = {{"hook", placed.hook}, {"hole", placed.hole}};
        if (placed.spring)
            entry["spring"] = {{"rate_n_mm", placed.spring->rate_n_mm},
                               {"free_length_mm", placed.spring->free_length_mm},
                               {"initial_tension_n", placed.spring->initial_tension_n},
                               {"longest_mm", placed.spring->longest_mm}};
        list.push_back(std::move(entry));
    }
    return list;
}

ordered_json spring_states_json(const std::vector<SpringState>& states) {
    ordered_json springs = ordered_json::array();
    for (const SpringState& spring : states)
        springs.push_back({{"force_n", number(spring.force_n)}, {"length_mm", number(spring.length_mm)}});
    return springs;
}

ordered_json state_json(const BridgeState& state) {
    ordered_json strings = ordered_json::array();
    for (const StringState& string : state.strings)
        strings.push_back({{"pitch_hz", number(string.pitch_hz)},
                           {"tension_n", number(string.tension_n)},
                           {"strength_used", number(string.strength_used)}});
    return {{"strings", std::move(strings)},
            {"total_tension_n", number(state.total_tension_n)},
            {"springs", spring_states_json(state.springs)},
            {"angle_deg", number(state.angle_deg)},
            {"tail_mm", number(state.tail_mm)}};
}

const char* outcome_name(RestKind kind) {
    switch (kind) {
    case RestKind::tail_up_stop:
        return "tail up stop";
    case RestKind::tail_down_stop:
        return "tail down stop";
    case RestKind::floats:
    case RestKind::spring_closed:
        break;
    }
    return "floats";
}

ordered_json phrases_json(const std::vector<Phrase>& phrases, const Words& words) {
    ordered_json list = ordered_json::array();
    for (const Phrase& phrase : phrases)
        list.push_back(words.say(phrase));
    return list;
}

ordered_json advice_json(const Report& report, const Words& words) {
    ordered_json list = ordered_json::array();
    for (const Advice& advice : report.advice) {
        std::optional<double> more = advice.turns;
        if (more)
            *more -= report.turns_made;
        list.push_back({{"springs", placed_json(advice.springs)},
                        {"turns", number(advice.turns)},
                        {"turns_sigma", advice.turns ? number(advice.turns_sigma) : nullptr},
                        {"more_turns", number(more)},
                        {"fits", advice.fits},
                        {"reasons", phrases_json(advice.reasons, words)},
                        {"springs_after", spring_states_json(advice.springs_after)},
                        {"turns_in_left", number(advice.thread_in)},
                        {"turns_out_left", number(advice.thread_out)},
                        {"per_turn_mm", number(mm_from_metres(advice.per_turn_m))},
                        {"tail_sigma_mm", number(mm_from_metres(advice.tail_sigma_m))},
                        {"bend_tail_mm", number(mm_from_metres(advice.bend_tail_m))}});
    }
    return list;
}

std::vector<Phrase> sentences_of(const std::vector<Alternative>& alternatives) {
    std::vector<Phrase> sentences;
    for (const Alternative& alternative : alternatives)
        sentences.push_back(sentence_of(alternative));
    return sentences;
}

} // namespace

std::string report_json(const Report& report, const Words& words) {
    const UntouchedState& untouched = report.untouched;
    ordered_json document = {
        {"format", "counterpull-report/1"},
        {"now", state_json(report.now)},
        {"untouched",
         {{"outcome", outcome_name(untouched.outcome)},
          {"angle_deg", number(untouched.angle_deg)},
          {"tail_mm", number(untouched.tail_mm)},
          {"per_turn_mm", number(untouched.per_turn_mm)}}},
        {"advice", advice_json(report, words)},
        {"instead", phrases_json(sentences_of(report.instead), words)},
        {"next", report.next ? state_json(*report.next) : ordered_json(nullptr)},
        // Not built yet.
        {"tuning_sheet", nullptr},
        {"fitted", nullptr},
        {"warnings", phrases_json(report.warnings, words)},
    };
    return document.dump(1) + "\n";
}

} // namespace counterpull
