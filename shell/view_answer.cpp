#include "engine/base/format.h"
#include "engine/base/units.h"
#include "engine/say/answer.h"
#include "engine/say/refusal.h"
#include "shell/entry.h"
#include "shell/views.h"
#include "shell/widgets.h"

#include <imgui.h>

#include <algorithm>

namespace counterpull {

namespace {

// A refused value is told at its field; fields may be folded away, so it is told here too, with its path.
void draw_refusals(const Desk& desk) {
    warning(desk, desk.say(desk.bench.has_answer() ? "ui.outdated" : "ui.no_answer"));
    for (const Problem& problem : desk.bench.problems().told)
        warning(desk, sentence_of(problem, desk.words));
}

std::string reasons_in_words(const Desk& desk, const Advice& advice) {
    std::string text;
    for (const Phrase& reason : reasons_of(desk.bench.answered(), advice))
        text += (text.empty() ? "" : "; ") + desk.words.say(reason);
    return text;
}

std::string turns_of(const Desk& desk, const Advice& advice) {
    if (!advice.turns)
        return std::string(desk.say("text.nowhere"));
    const Parts turns = {Turns{*advice.turns},
                         " (",
                         number(std::abs(*advice.turns), 2),
                         " ± ",
                         number(ninety_percent * advice.turns_sigma, 2),
                         ")"};
    return desk.say(Phrase(*advice.turns < 0.0 ? "text.turns_out" : "text.turns_in").with("turns", turns));
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

namespace {

struct ChoiceText {
    bool fits;
    std::string head, turns, reasons, more; // the last "" where there is nothing to be said
};

ChoiceText text_of(const Desk& desk, const Advice& advice) {
    ChoiceText text{advice.fits(), desk.say(choice_of(advice)), turns_of(desk, advice),
                    reasons_in_words(desk, advice), ""};
    if (advice.fits() && advice.bend_tail_m != 0.0)
        text.more = desk.say(Phrase("ui.choice_more")
                                 .with("in", number(advice.thread_in, 1))
                                 .with("out", number(advice.thread_out, 1))
                                 .with("force", newtons(advice.springs_after.front().force_n, 0))
                                 .with("length", millimetres(advice.springs_after.front().length_mm, 0))
                                 .with("bend", millimetres(mm_from_metres(advice.bend_tail_m), 1)));
    return text;
}

} // namespace

void draw_choices(const Desk& desk) {
    const float width = ImGui::GetContentRegionAvail().x;
    const auto& choices = desk.kept("choices", [&] {
        std::vector<ChoiceText> texts;
        for (const Advice* told : told_choices(desk.bench.report()))
            texts.push_back(text_of(desk, *told));
        return texts;
    });
    for (const ChoiceText& choice : choices) {
        const ImVec2 at = ImGui::GetCursorScreenPos();
        // Filled where it fits, a ring where it does not; the words say so too.
        const ImU32 mark = choice.fits ? desk.theme.colours.accent : desk.theme.colours.warning;
        ImDrawList* draw = ImGui::GetWindowDrawList();
        if (choice.fits)
            draw->AddCircleFilled({at.x + 6.0f, at.y + 9.0f}, 5.0f, mark);
        else
            draw->AddCircle({at.x + 6.0f, at.y + 9.0f}, 4.5f, mark, 0, 1.8f);
        ImGui::Indent(20.0f);
        paragraph(desk, choice.head, desk.theme.fonts.strong, desk.theme.colours.ink);
        const float head_width = ImGui::GetItemRectSize().x;
        const float turns_width = size_of(desk.theme.fonts.body, choice.turns).x;
        if (head_width + turns_width + 40.0f < width)
            text_at(desk.theme.fonts.body, {at.x + width - turns_width, at.y}, desk.theme.colours.ink,
                    choice.turns);
        else
            body(desk, choice.turns);
        faint(desk, choice.reasons);
        if (!choice.more.empty())
            faint(desk, choice.more);
        ImGui::Unindent(20.0f);
        space(2.0f);
    }
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
