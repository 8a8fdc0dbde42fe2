#include "engine/base/format.h"
#include "engine/base/units.h"
#include "engine/say/answer.h"
#include "engine/say/comparison.h"
#include "shell/entry.h"
#include "shell/refusals.h"
#include "shell/views.h"
#include "shell/widgets.h"

#include <imgui.h>

#include <algorithm>

namespace counterpull {

namespace {

// A refused value is told at its field; fields may be folded away, so it is told here too, with their names.
void draw_refusals(const Desk& desk) {
    warning(desk, desk.say(desk.bench.has_answer() ? "ui.outdated" : "ui.no_answer"));
    const Lines& refused = desk.kept("refused", [&] {
        Lines all;
        for (const Problem& problem : desk.bench.refused())
            all.push_back(refusal_in_words(problem, desk.bench.setup(), desk.words));
        return all;
    });
    for (std::size_t i = 0; i < refused.size(); ++i) {
        const ImVec2 low = ImGui::GetCursorScreenPos();
        warning(desk, refused[i]);
        desk.controls.declare({"refused[" + std::to_string(i) + "]", Role::status, desk.say("ui.refused"),
                               refused[i], "", true, low, ImGui::GetItemRectMax()});
    }
}

} // namespace

const std::string& answer_in_words(const Workbench& bench, const Words& words, Kept& kept) {
    return kept.of("answer", bench.revision(), [&] {
        return bench.has_answer() ? words.say(answer_sentence(bench.report()))
                                  : std::string(words.text("ui.no_answer"));
    });
}

void draw_answer(const Desk& desk) {
    if (!desk.bench.has_answer())
        return draw_refusals(desk);
    const Report& report = desk.bench.report();
    const std::string& sentence = answer_in_words(desk.bench, desk.words, desk.view.kept);
    const std::string& after = desk.kept("after the answer", [&] {
        const auto tail = back_in_tune(report);
        return tail ? desk.say(*tail) : std::string();
    });
    const bool outdated = desk.bench.outdated();
    const ImVec2 low = ImGui::GetCursorScreenPos();
    paragraph(desk, sentence, desk.theme.fonts.answer,
              outdated ? desk.theme.colours.faint : desk.theme.colours.ink);
    desk.controls.declare({"answer", Role::status, desk.say("ui.answer"), sentence,
                           outdated ? desk.say("ui.outdated") : "", !outdated, low, ImGui::GetItemRectMax()});
    if (outdated)
        return draw_refusals(desk);
    if (!after.empty())
        faint(desk, after);
}

void draw_details(const Desk& desk) {
    struct Said {
        std::string why; // "" where nothing surprises
        Lines details, warnings;
        Lines heads;
        std::vector<Lines> rows; // before and after
    };
    const Said& said = desk.kept("details", [&] {
        const Report& report = desk.bench.report();
        Said texts;
        if (const auto why = why_so(report))
            texts.why = desk.say(*why);
        const auto pinned = back_in_tune(report);
        for (const Phrase& detail : answer_details(report))
            if (detail != pinned)
                texts.details.push_back(desk.say(detail));
        if (const auto matters = what_matters_most(report))
            texts.details.push_back(desk.say(*matters));
        for (const Warning& told : report.warnings)
            texts.warnings.push_back(desk.say(sentence_of(told)));
        texts.heads = {"", std::string(desk.say("text.now")), std::string(desk.say("text.after"))};
        for (const Compared& row : before_and_after(report))
            texts.rows.push_back({std::string(desk.say(row.name)), desk.say(row.now), desk.say(row.after)});
        return texts;
    });
    if (!said.why.empty())
        paragraph(desk, said.why, desk.theme.fonts.strong, desk.theme.colours.ink);
    if (!said.rows.empty()) {
        table(desk, "compared", desk.say("ui.compared"), said.heads, said.rows);
        space(4.0f);
    }
    for (const std::string& detail : said.details)
        body(desk, detail);
    for (const std::string& text : said.warnings)
        warning(desk, text);
    faint(desk, desk.say("ui.assumed"));
}

void draw_pulls(const Desk& desk) {
    const auto& rows = desk.kept("pulls of each", [&] {
        const Setup& setup = desk.bench.answered();
        const Report& report = desk.bench.report();
        auto pull = [&](const std::optional<double>& n) {
            return n ? desk.say(newtons(*n, 1)) : std::string("–");
        };
        std::vector<Lines> all;
        const std::size_t count = strings_of(setup);
        for (std::size_t i = 0; i < count; ++i) {
            const StringState& now = report.now.strings[i];
            const StringState& next = report.carried_out.strings[i];
            all.push_back({std::to_string(count - i),
                           i < setup.now.tuning.size() ? desk.say(setup.now.tuning[i]) : "–",
                           pull(now.tension_n), desk.say(setup.next.tuning[i]), pull(next.tension_n),
                           desk.say(number(100.0 * next.strength_used.value_or(0.0), 0)) + " %"});
        }
        all.push_back({std::string(desk.say("ui.together")), "", pull(report.now.total_tension_n), "",
                       pull(report.carried_out.total_tension_n), ""});
        return all;
    });
    table(desk, "pulls", desk.say("ui.pulls"),
          desk.texts("heads of pulls",
                     {"ui.string", "text.now", "ui.pull", "ui.next_short", "ui.pull", "ui.strength"}),
          rows);
}

void draw_footer(const Desk& desk) {
    space(4.0f);
    faint(desk, desk.say("text.closing"));
    space(8.0f);
}

} // namespace counterpull
