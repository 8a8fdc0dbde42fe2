#include "engine/say/answer.h"

#include "engine/document/json_text.h"
#include "engine/say/string_search_text.h"
#include "engine/say/work_sheet.h"

namespace counterpull {

namespace {

Json in_words(const std::vector<Phrase>& phrases, const Words& words) {
    Json list = Json::array();
    for (const Phrase& phrase : phrases)
        list.push_back(words.say(phrase));
    return list;
}

// Hooks and holes across the bay, and which springs are on them, for a drawing from behind.
Json hooks_of(const Report& report, const Words& words) {
    const auto placed = [](const Arrangement& springs) {
        Json list = Json::array();
        for (const PlacedSpring& spring : springs)
            list.push_back({spring.hook, spring.hole});
        return list;
    };
    const BaySetup& bay = report.setup().guitar.bay;
    return object_of({{"title", std::string(words.text("ui.back_view"))},
                      {"bass", std::string(words.text("sheet.bass"))},
                      {"hook_mm", bay.hook_mm},
                      {"hole_mm", bay.hole_mm},
                      {"now_title", std::string(words.text("text.now"))},
                      {"now", placed(report.solution.springs())},
                      {"next_title", std::string(words.text("text.after"))},
                      {"next", placed(report.carried_out.placed)}});
}

// The heads of a table to be filled in by hand: turns, tail, and what each string shows, lowest first.
Json room_for_readings(const Report& report, const Words& words) {
    Json heads = Json::array(
        {std::string(words.text("ui.turns_made")),
         std::string(words.text("ui.tail_read")) + ", " + unit_name(Measure::length, words.units())});
    const auto& tuning = report.setup().next.tuning;
    for (std::size_t i = 0; i < tuning.size(); ++i)
        heads.push_back(std::to_string(tuning.size() - i) + " " + words.say(tuning[i]));
    return object_of({{"title", std::string(words.text("sheet.room"))}, {"heads", std::move(heads)}});
}

Json strung(const Report& report, const Words& words) {
    Json list = Json::array();
    const auto add = [&](const char* key, const auto& side) {
        if (!side.strings.empty() && !side.tuning.empty())
            list.push_back(words.say(Phrase(key)
                                         .with("gauges", gauges_in_words(side.strings))
                                         .with("notes", notes_of(side.tuning))
                                         .with("tail", signed_millimetres(side.tail_mm, 1))));
    };
    add("text.strung_now", report.setup().now);
    add("text.strung_next", report.setup().next);
    return list;
}

} // namespace

std::string SheetStep::said(const Words& words) const {
    std::string all;
    for (const Phrase& sentence : text)
        all += (all.empty() ? "" : " ") + words.say(sentence);
    return all;
}

std::string sheet_text(const WorkSheet& sheet, const Words& words) {
    std::string text;
    if (!sheet.at_hand.empty())
        text += "  " + std::string(words.text("sheet.at_hand")) + "\n";
    for (const Phrase& thing : sheet.at_hand)
        text += "  - " + words.say(thing) + "\n";
    int number = 0;
    for (const SheetStep& step : sheet.steps) {
        text += (number < 9 ? "   " : "  ") + std::to_string(number + 1) + ". " + step.said(words) + "\n";
        ++number;
        for (const Phrase& caution : step.cautions)
            text += "      ! " + words.say(caution) + "\n";
        if (step.blank)
            text += "      > " + words.say(*step.blank) + " ________\n";
    }
    if (!sheet.back.empty())
        text += "  " + std::string(words.text("sheet.back")) + "\n";
    for (const Phrase& line : sheet.back)
        text += "  - " + words.say(line) + "\n";
    return text;
}

std::string sheet_json(const Report& report, const WorkSheet& sheet, const Words& words) {
    Json steps = Json::array();
    for (const SheetStep& step : sheet.steps)
        steps.push_back(object_of({{"text", step.said(words)},
                                   {"cautions", in_words(step.cautions, words)},
                                   {"blank", step.blank ? words.say(*step.blank) : ""}}));
    const Json all = object_of({{"title", report.setup().title},
                                {"answer", words.say(answer_sentence(report))},
                                {"strung", strung(report, words)},
                                {"hooks", hooks_of(report, words)},
                                {"readings", room_for_readings(report, words)},
                                {"details", in_words(answer_details(report), words)},
                                {"at_hand_title", std::string(words.text("sheet.at_hand"))},
                                {"at_hand", in_words(sheet.at_hand, words)},
                                {"steps", std::move(steps)},
                                {"back_title", std::string(words.text("sheet.back"))},
                                {"back", in_words(sheet.back, words)},
                                {"closing", std::string(words.text("text.closing"))}});
    return all.dump();
}

} // namespace counterpull
