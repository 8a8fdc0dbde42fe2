#include "engine/say/answer.h"

#include "engine/document/json_text.h"
#include "engine/say/work_sheet.h"

namespace counterpull {

namespace {

Json in_words(const std::vector<Phrase>& phrases, const Words& words) {
    Json list = Json::array();
    for (const Phrase& phrase : phrases)
        list.push_back(words.say(phrase));
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
