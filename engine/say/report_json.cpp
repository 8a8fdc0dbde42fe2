#include "engine/say/report_json.h"

#include "engine/base/units.h"
#include "engine/document/json_text.h"
#include "engine/say/answer.h"
#include "engine/say/springs_json.h"

namespace counterpull {

namespace {

Json spring_states_json(const std::vector<SpringState>& states) {
    Json springs = Json::array();
    for (const SpringState& spring : states)
        springs.push_back(object_of(
            {{"force_n", json_number(spring.force_n)}, {"length_mm", json_number(spring.length_mm)}}));
    return springs;
}

Json state_json(const BridgeState& state) {
    Json strings = Json::array();
    for (const StringState& string : state.strings)
        strings.push_back(object_of({{"pitch_hz", json_number(string.pitch_hz)},
                                     {"tension_n", json_number(string.tension_n)},
                                     {"strength_used", json_number(string.strength_used)}}));
    return object_of({{"strings", std::move(strings)},
                      {"total_tension_n", json_number(state.total_tension_n)},
                      {"springs", spring_states_json(state.springs)},
                      {"angle_deg", json_number(state.angle_deg)},
                      {"tail_mm", json_number(state.tail_mm)}});
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

Json phrases_json(const std::vector<Phrase>& phrases, const Words& words) {
    Json list = Json::array();
    for (const Phrase& phrase : phrases)
        list.push_back(words.say(phrase));
    return list;
}

Json work_json(const Advice& advice) {
    const auto known = [&](double value) { return advice.turns ? json_number(value) : Json(nullptr); };
    return object_of({{"visits", known(advice.work.visits)},
                      {"minutes", known(advice.work.minutes)},
                      {"way", advice.work.way.wedge ? "wedge" : "plain"},
                      {"test", advice.work.way.test}});
}

Json fit_json(const Calibration& calibration) {
    if (calibration.starts == 0)
        return nullptr;
    return object_of({{"converged", calibration.converged},
                      {"sigmas", json_number(calibration.worst)},
                      {"starts", calibration.starts}});
}

Json advice_json(const Report& report, const Words& words) {
    Json list = Json::array();
    for (const Advice& advice : report.solution.advice) {
        std::optional<double> more = advice.turns;
        if (more)
            *more -= report.solution.turns_made();
        list.push_back(object_of({{"springs", placed_json(advice.springs)},
                                  {"chosen", advice.chosen},
                                  {"work", work_json(advice)},
                                  {"turns", json_number(advice.turns)},
                                  {"turns_sigma", advice.turns ? json_number(advice.turns_sigma) : nullptr},
                                  {"more_turns", json_number(more)},
                                  {"fits", advice.fits()},
                                  {"reasons", phrases_json(reasons_of(report.setup(), advice), words)},
                                  {"springs_after", spring_states_json(advice.springs_after)},
                                  {"turns_in_left", json_number(advice.thread_in)},
                                  {"turns_out_left", json_number(advice.thread_out)},
                                  {"per_turn_mm", json_number(mm_from_metres(advice.per_turn_m))},
                                  {"tail_sigma_mm", json_number(mm_from_metres(advice.tail_sigma_m))},
                                  {"bend_tail_mm", json_number(mm_from_metres(advice.bend_tail_m))}}));
    }
    return list;
}

template <class Told>
Json sentences_json(const std::vector<Told>& all, const Words& words) {
    Json list = Json::array();
    for (const Told& told : all)
        list.push_back(words.say(sentence_of(told)));
    return list;
}

Json numbers(const std::vector<double>& values) {
    Json list = Json::array();
    for (const double value : values)
        list.push_back(json_number(value));
    return list;
}

// Told for a mere correction: with another tuning wanted strings show what is not near any of its notes.
Json watch_json(const TuningSheet& sheet, const Setup& setup) {
    if (!sheet.watch || !is_correction(setup))
        return nullptr;
    return object_of({{"string", sheet.aim_cents.size() - static_cast<std::size_t>(*sheet.watch)},
                      {"cents", json_number(sheet.watch_cents)}});
}

Json tuning_json(const std::optional<TuningSheet>& sheet, const Setup& setup, const Words& words) {
    if (!sheet)
        return nullptr;
    Json gentler = nullptr;
    if (sheet->why_gentler) {
        Json passes = Json::array();
        for (const std::vector<double>& pass : sheet->gentler_cents)
            passes.push_back(numbers(pass));
        gentler = object_of(
            {{"why", words.say(why_in_words(*sheet->why_gentler))}, {"aim_cents", std::move(passes)}});
    }
    return object_of({{"start", std::string(name_of(sheet->start))},
                      {"aim_cents", numbers(sheet->aim_cents)},
                      {"plain_passes", sheet->plain_passes ? Json(*sheet->plain_passes) : Json(nullptr)},
                      {"aim_hz", numbers(sheet->aim_hz)},
                      {"begin_cents", numbers(sheet->begin_cents)},
                      {"watch", watch_json(*sheet, setup)},
                      {"gentler", std::move(gentler)}});
}

// The last part of the path under guitar: "rate_n_mm".
std::string key_of(Unknown unknown) {
    const std::string_view path = path_of(unknown);
    return std::string(path.substr(path.rfind('.') + 1));
}

Json fitted_json(const std::vector<FittedValue>& fitted) {
    Json object = Json::object();
    for (const FittedValue& value : fitted)
        object[key_of(value.unknown)] =
            object_of({{"value", json_number(value.value)}, {"sigma", json_number(value.sigma)}});
    return object;
}

const char* name_of(Observed what) {
    switch (what) {
    case Observed::tail:
        return "tail_mm";
    case Observed::cents:
        return "cents";
    case Observed::spring:
        break;
    }
    return "spring_mm";
}

Json readings_json(const std::vector<FittedReading>& readings) {
    Json list = Json::array();
    for (const FittedReading& reading : readings)
        list.push_back(object_of({{"entry", reading.observation.entry},
                                  {"what", name_of(reading.observation.what)},
                                  {"index", reading.observation.index},
                                  {"read", json_number(reading.observation.value)},
                                  {"expected", json_number(reading.predicted)},
                                  {"left_out", reading.trust == Trust::left_out}}));
    return list;
}

Json test_reading_json(const std::optional<TestReading>& test) {
    if (!test)
        return nullptr;
    return object_of({{"reading", test->kind == ReadingKind::bend ? "bend" : "drop"},
                      {"string", test->string},
                      {"by_cents", json_number(test->by_cents)},
                      {"turns_sigma_after", json_number(test->sigma_after)}});
}

} // namespace

std::string report_json(const Report& report, const Words& words) {
    const UntouchedState& untouched = report.untouched;
    const Json document = object_of({
        {"format", "counterpull-report/1"},
        {"now", state_json(report.now)},
        {"untouched", object_of({{"outcome", outcome_name(untouched.outcome)},
                                 {"angle_deg", json_number(untouched.angle_deg)},
                                 {"tail_mm", json_number(untouched.tail_mm)},
                                 {"per_turn_mm", json_number(untouched.per_turn_mm)}})},
        {"advice", advice_json(report, words)},
        {"instead", sentences_json(report.instead, words)},
        {"next", report.next ? state_json(*report.next) : Json(nullptr)},
        {"tuning_sheet", tuning_json(report.tuning, report.setup(), words)},
        {"fitted", fitted_json(report.fitted)},
        {"fit", fit_json(report.solution.calibration)},
        {"readings", readings_json(report.solution.calibration.readings)},
        {"test_reading", test_reading_json(best_test_reading(report.solution))},
        {"warnings", sentences_json(report.warnings, words)},
    });
    return document.dump(1) + "\n";
}

} // namespace counterpull
