#include "engine/say/report_text.h"

#include "engine/base/units.h"
#include "engine/say/answer.h"
#include "engine/say/string_search_text.h"
#include "engine/say/text_table.h"
#include "engine/say/work_sheet.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

// In both: tables of pulls are read in either.
std::string pull(double force_n, const Words& words) {
    return words.say(number(force_n, 1)) + " N (" + words.say(number(force_n / newtons_per_lbf, 1)) + " lbf)";
}

std::string attitude_table(const Report& report, const Words& words) {
    auto mm = [&](double value) { return words.say(signed_millimetres(value, 2)); };
    auto degrees = [&](double value) { return words.say(signed_number(value, 2)) + "°"; };
    TextTable table;
    std::vector<std::string> head = {"", std::string(words.text("text.now")),
                                     std::string(words.text("text.left_alone"))};
    std::vector<std::string> tail = {std::string(words.text("text.tail")), mm(report.now.tail_mm),
                                     mm(report.untouched.tail_mm)};
    std::vector<std::string> tilt = {std::string(words.text("text.tilt")), degrees(report.now.angle_deg),
                                     degrees(report.untouched.angle_deg)};
    if (report.next) {
        head.push_back(std::string(words.text("text.after")));
        tail.push_back(mm(report.next->tail_mm));
        tilt.push_back(degrees(report.next->angle_deg));
    }
    table.row(std::move(head));
    table.row(std::move(tail));
    table.row(std::move(tilt));
    return table.text();
}

std::string notes_in_words(const Report& report, const Advice& advice, const Words& words) {
    std::string notes = advice.chosen ? std::string(words.text("choice.chosen")) : "";
    auto add = [&](const std::vector<Phrase>& phrases) {
        for (const Phrase& phrase : phrases)
            notes += (notes.empty() ? "" : "; ") + words.say(phrase);
    };
    add(outlook_of(report, advice));
    add(reasons_of(report.setup(), advice));
    return notes;
}

std::string choices_table(const Report& report, const Words& words) {
    TextTable table;
    for (const Advice* told : told_choices(report)) {
        const Advice& advice = *told;
        table.row({(advice.fits() ? "+ " : "- ") + words.say(choice_of(advice.springs)),
                   words.say(turns_of(report, advice))},
                  notes_in_words(report, advice, words));
    }
    return table.text();
}

std::vector<std::string> string_cells(const StringSetup& string, const Pitch& pitch, const StringState& state,
                                      const Words& words) {
    std::vector<std::string> cells = {words.say(pitch), words.say(number(string.gauge_in, 4)),
                                      std::string(words.text(string.wound ? "text.wound" : "text.plain"))};
    cells.push_back(state.tension_n ? pull(*state.tension_n, words) : "");
    cells.push_back(state.strength_used ? words.say(number(100.0 * *state.strength_used, 0)) + " %" : "");
    return cells;
}

std::string string_table(const std::vector<StringSetup>& strings, const std::vector<Pitch>& tuning,
                         const BridgeState& state, const Words& words) {
    TextTable table;
    for (std::size_t i = 0; i < strings.size() && i < tuning.size(); ++i)
        table.row(string_cells(strings[i], tuning[i], state.strings[i], words));
    std::string text = table.text();
    if (state.total_tension_n)
        text +=
            "  " + std::string(words.text("text.pull")) + ": " + pull(*state.total_tension_n, words) + "\n";
    return text;
}

std::string strung(const char* key, const std::vector<StringSetup>& strings, const std::vector<Pitch>& tuning,
                   double tail_mm, const Words& words) {
    return words.say(Phrase(key)
                         .with("gauges", gauges_in_words(strings))
                         .with("notes", notes_of(tuning))
                         .with("tail", signed_millimetres(tail_mm, 1))) +
           "\n";
}

} // namespace

std::string answer_text(const Report& report, const Words& words) {
    std::string out = words.say(answer_sentence(report)) + "\n";
    for (const Phrase& detail : answer_details(report))
        out += words.say(detail) + "\n";
    if (const auto matters = what_matters_most(report))
        out += words.say(*matters) + "\n";
    if (const auto test = best_test_reading(report.solution))
        out += words.say(sentence_of(*test, report)) + "\n";
    for (const Warning& warning : report.warnings)
        out += "! " + words.say(sentence_of(warning)) + "\n";
    return out;
}

std::string forum_text(const Report& report, const Words& words) {
    const Setup& setup = report.setup();
    std::string out = setup.title.empty() ? "" : setup.title + "\n";
    if (setup.now.in_tune)
        out += strung("text.strung_now", setup.now.strings, setup.now.tuning, setup.now.tail_mm, words);
    out += strung("text.strung_next", setup.next.strings, setup.next.tuning, setup.next.tail_mm, words);
    return out + answer_text(report, words);
}

std::string report_text(const Report& report, const Words& words) {
    const Setup& setup = report.setup();
    std::string out = setup.title.empty() ? "" : setup.title + "\n\n";
    out += answer_text(report, words);
    auto heading = [&](std::string_view key) { return "\n" + std::string(words.text(key)) + "\n"; };
    out += "\n" + attitude_table(report, words);
    if (report.untouched.per_turn_mm)
        out += "  " + std::string(words.text("text.one_turn")) + ": " +
               words.say(signed_millimetres(*report.untouched.per_turn_mm, 1)) + "\n";
    out += heading("text.choices") + choices_table(report, words);
    if (setup.now.in_tune)
        out += heading("text.strings_now") +
               string_table(setup.now.strings, setup.now.tuning, report.now, words);
    out += heading("text.strings_next") +
           string_table(setup.next.strings, setup.next.tuning, report.carried_out, words);
    if (const std::string sheet = sheet_text(work_sheet(report, usual_way(report)), words); !sheet.empty())
        out += heading("sheet.title") + sheet;
    out += "\n" + std::string(words.text("text.closing")) + "\n";
    return out;
}

} // namespace counterpull
