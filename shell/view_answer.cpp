#include "engine/base/format.h"
#include "engine/base/units.h"
#include "engine/say/answer.h"
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

// Back and forward through what was edited.
void draw_steps(const Desk& desk) {
    const bool back = desk.bench.can_undo(), forward = desk.bench.can_redo();
    if (back && button(desk, "undo", desk.say("ui.undo")))
        desk.bench.undo();
    if (back && forward)
        ImGui::SameLine();
    if (forward && button(desk, "redo", desk.say("ui.redo")))
        desk.bench.redo();
}

void draw_answer(const Desk& desk, bool pinned) {
    if (!desk.bench.has_answer()) {
        draw_refusals(desk);
        if (!pinned)
            draw_steps(desk);
        return;
    }
    const Setup& setup = desk.bench.answered();
    const Report& report = desk.bench.report();
    if (!pinned && !setup.title.empty())
        faint(desk, setup.title);
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
    if (outdated) {
        draw_refusals(desk);
        return;
    }
    if (pinned && !after.empty())
        faint(desk, after);
}

void draw_details(const Desk& desk) {
    struct Said {
        Lines details, warnings;
        std::optional<std::string> after; // one of the details, which a phone has pinned
    };
    const Said& said = desk.kept("details", [&] {
        const Report& report = desk.bench.report();
        Said texts;
        for (const Phrase& detail : answer_details(report))
            texts.details.push_back(desk.say(detail));
        if (const auto matters = what_matters_most(report))
            texts.details.push_back(desk.say(*matters));
        for (const Warning& told : report.warnings)
            texts.warnings.push_back(desk.say(sentence_of(told)));
        if (const auto after = back_in_tune(report))
            texts.after = desk.say(*after);
        return texts;
    });
    for (const std::string& detail : said.details)
        if (!desk.narrow || detail != said.after)
            body(desk, detail);
    for (const std::string& text : said.warnings)
        warning(desk, text);
    faint(desk, desk.say("ui.assumed"));
    if (desk.in_a_page) {
        if (button(desk, "share", desk.say("ui.share")))
            desk.view.wish = "share";
        ImGui::SameLine();
        if (button(desk, "notebook", desk.say("ui.notebook")))
            desk.view.wish = "notebook";
    }
    draw_steps(desk);
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
