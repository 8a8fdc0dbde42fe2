// Spring arrangements compared: what each asks, how long it takes, how the arm will feel; any can be taken.
#include "engine/base/format.h"
#include "engine/base/units.h"
#include "engine/say/answer.h"
#include "shell/views.h"
#include "shell/widgets.h"

#include <imgui.h>

namespace counterpull {

namespace {

struct ChoiceText {
    Arrangement springs;
    bool fits = false, chosen = false;
    // `outlook` and `more` are "" where there is nothing to be said. `spoken` is all but `more`, `take` what
    // the button does.
    std::string head, turns, outlook, reasons, more;
    std::string id, spoken, take;
};

// The same arrangement has the same name wherever it stands in the list.
std::string id_of(const Arrangement& springs) {
    std::string id = "choice";
    for (const PlacedSpring& placed : springs)
        id += " " + std::to_string(placed.hook) + "-" + std::to_string(placed.hole) +
              (placed.spring ? "*" : "");
    return id;
}

std::string in_words(const Desk& desk, const std::vector<Phrase>& phrases) {
    std::string words;
    for (const Phrase& phrase : phrases)
        words += (words.empty() ? "" : "; ") + desk.say(phrase);
    return words;
}

ChoiceText text_of(const Desk& desk, const Advice& advice) {
    ChoiceText text;
    text.springs = advice.springs;
    text.fits = advice.fits();
    text.chosen = advice.chosen;
    text.head = desk.say(choice_of(advice.springs));
    text.take = std::string(desk.say("ui.take")) + ": " + text.head;
    if (advice.chosen || advice.recommended)
        (text.head += ": ") += desk.say(advice.chosen ? "choice.chosen" : "choice.recommended");
    text.turns = desk.say(turns_of(desk.bench.report(), advice));
    text.outlook = in_words(desk, outlook_of(desk.bench.report(), advice));
    text.reasons = in_words(desk, reasons_of(desk.bench.answered(), advice));
    text.id = id_of(advice.springs);
    if (advice.fits() && advice.bend_tail_m != 0.0)
        text.more = desk.say(Phrase("ui.choice_more")
                                 .with("in", number(advice.thread_in, 1))
                                 .with("out", number(advice.thread_out, 1))
                                 .with("force", newtons(advice.springs_after.front().force_n, 0))
                                 .with("length", millimetres(advice.springs_after.front().length_mm, 0))
                                 .with("bend", millimetres(mm_from_metres(advice.bend_tail_m), 1)));
    text.spoken = text.head + "; " + text.turns + "; ";
    if (!text.outlook.empty())
        (text.spoken += text.outlook) += "; ";
    text.spoken += text.reasons;
    return text;
}

void choose(const Desk& desk, std::optional<Arrangement> springs) {
    desk.bench.edit([&](Setup& s) { s.next.springs = std::move(springs); });
}

// Filled where it fits, a ring where it does not; the words say so too.
void draw_mark(const Desk& desk, ImVec2 at, bool fits) {
    ImDrawList* draw = ImGui::GetWindowDrawList();
    if (fits)
        draw->AddCircleFilled({at.x + 6.0f, at.y + 9.0f}, 5.0f, desk.theme.colours.accent);
    else
        draw->AddCircle({at.x + 6.0f, at.y + 9.0f}, 4.5f, desk.theme.colours.warning, 0, 1.8f);
}

void draw_choice(const Desk& desk, const ChoiceText& choice, float width) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    draw_mark(desk, at, choice.fits);
    ImGui::Indent(20.0f);
    paragraph(desk, choice.head, desk.theme.fonts.strong,
              choice.chosen ? desk.theme.colours.accent : desk.theme.colours.ink);
    const float head_width = ImGui::GetItemRectSize().x;
    const float turns_width = size_of(desk.theme.fonts.body, choice.turns).x;
    if (head_width + turns_width + 40.0f < width)
        text_at(desk.theme.fonts.body, {at.x + width - turns_width, at.y}, desk.theme.colours.ink,
                choice.turns);
    else
        body(desk, choice.turns);
    if (!choice.outlook.empty())
        body(desk, choice.outlook);
    faint(desk, choice.reasons);
    if (!choice.more.empty())
        faint(desk, choice.more);
    desk.controls.declare({choice.id + " said",
                           Role::status,
                           choice.head,
                           choice.spoken,
                           "",
                           true,
                           at,
                           {at.x + width, ImGui::GetItemRectMax().y}});
    if (choice.chosen) {
        if (button(desk, choice.id, desk.say("ui.as_recommended")))
            choose(desk, std::nullopt);
    } else if (button(desk, choice.id, desk.say("ui.take"), false, choice.take)) {
        choose(desk, choice.springs);
    }
    ImGui::Unindent(20.0f);
    space(6.0f);
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
    faint(desk, desk.say("ui.choices_note"));
    for (const ChoiceText& choice : choices)
        draw_choice(desk, choice, width);
}

void draw_chosen(const Desk& desk) {
    const auto& springs = desk.bench.setup().next.springs;
    if (!springs)
        return;
    body(desk, desk.kept("springs chosen", [&] {
        return desk.say(
            Phrase("ui.springs_chosen").with("count", springs->size()).with("hooks", hooks_of(*springs)));
    }));
    if (button(desk, "next.springs", desk.say("ui.as_recommended")))
        choose(desk, std::nullopt);
}

} // namespace counterpull
