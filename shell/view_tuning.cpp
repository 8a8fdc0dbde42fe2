// Tuning in one pass: big, one string at a time, then the whole table.
#include "engine/base/format.h"
#include "engine/say/names.h"
#include "shell/views.h"
#include "shell/widgets.h"

#include <imgui.h>

#include <algorithm>

namespace counterpull {

namespace {

const char* start_key(SheetStart start) {
    switch (start) {
    case SheetStart::as_the_turn_leaves:
        return "ui.start_turn";
    case SheetStart::brought_up_roughly:
        return "ui.start_rough";
    case SheetStart::from_readings:
        break;
    }
    return "ui.start_readings";
}

// One string of one pass: what is said while it is tuned, and its row in the table.
struct AimText {
    std::string head, aim, row;
};
struct TuningText {
    std::string start, why, replaces; // the last two "" where there is nothing to be said
    Lines passes;                     // their heads
    std::vector<std::vector<AimText>> aims;
};

void say_aims(const Desk& desk, const Step& step, std::size_t pass, bool one_of_several, TuningText& text) {
    text.passes.push_back(desk.say(Phrase("ui.pass").with("pass", pass)));
    auto& aims = text.aims.emplace_back();
    for (const Aim& aim : step.aims) {
        const Pitch& note = desk.bench.answered().next.tuning[aims.size()];
        const Amount hz = number(aim.hz, 2);
        aims.push_back({desk.say(Phrase(one_of_several ? "ui.tune_string_of_pass" : "ui.tune_string")
                                     .with("string", aim.string)
                                     .with("pass", pass)),
                        desk.say(shown_by_tuner(note, aim.cents)) + desk.say(beside_shown(note, aim.cents)) +
                            "  " + desk.say(hz) + " Hz",
                        desk.say(Phrase("ui.aim_row")
                                     .with("string", aim.string)
                                     .with("shown", shown_by_tuner(note, aim.cents))
                                     .with("beside", beside_shown(note, aim.cents))
                                     .with("hz", hz))});
    }
}

TuningText text_of(const Desk& desk, const TuningSheet& sheet, bool wedge) {
    TuningText text;
    text.start = desk.say(wedge ? "ui.start_wedge" : start_key(sheet.start));
    const bool several = !wedge && sheet.why_gentler;
    if (several)
        text.why = desk.say(why_in_words(*sheet.why_gentler));
    if (!wedge)
        text.replaces = sheet.plain_passes
                            ? desk.say(Phrase("ui.replaces").with("count", *sheet.plain_passes))
                            : std::string(desk.say("ui.replaces_many"));
    for (const Step& step : steps(desk.bench.report(), {wedge, false}))
        if (step.kind == StepKind::tune && step.how == TuneHow::aimed)
            say_aims(desk, step, text.aims.size() + 1, several, text);
    return text;
}

} // namespace

void draw_tuning(const Desk& desk) {
    const Report& report = desk.bench.report();
    if (!report.tuning) {
        body(desk, desk.say("ui.no_tuning"));
        return;
    }
    const bool wedge = desk.way().wedge;
    const TuningText& text = desk.kept(wedge ? "tuning with a wedge" : "tuning",
                                       [&] { return text_of(desk, *report.tuning, wedge); });
    if (text.aims.empty()) { // the job tunes round by round
        body(desk, desk.kept("tuning plainly", [&] {
            return desk.say(Phrase("sheet.tune").with("notes", notes_of(desk.bench.answered().next.tuning)));
        }));
        return;
    }
    const auto strings = static_cast<int>(desk.bench.answered().next.tuning.size());
    const int aims = strings * static_cast<int>(text.aims.size());
    int& step = desk.view.tuning_step;
    step = std::clamp(step, 0, aims - 1);
    body(desk, text.start);
    if (!text.why.empty())
        warning(desk, text.why);
    if (!text.replaces.empty())
        body(desk, text.replaces);
    space(6.0f);

    const auto& [head, aim, row] =
        text.aims[static_cast<std::size_t>(step / strings)][static_cast<std::size_t>(step % strings)];
    paragraph(desk, head, desk.theme.fonts.strong, desk.theme.colours.faint);
    const ImVec2 low = ImGui::GetCursorScreenPos();
    paragraph(desk, aim, desk.theme.fonts.answer, desk.theme.colours.ink);
    desk.controls.declare({"pass.aim", Role::status, head, aim, "", true, low, ImGui::GetItemRectMax()});
    // Arrow keys go on and back too, while nothing is typed.
    const bool keys = desk.view.editing.empty() && !ImGui::GetIO().NavVisible;
    if (button(desk, "pass.back", desk.say("ui.back")) ||
        (keys && ImGui::IsKeyPressed(ImGuiKey_LeftArrow, false)))
        step = std::max(0, step - 1);
    ImGui::SameLine();
    const bool last = step + 1 == aims;
    if (button(desk, "pass.next", desk.say(last ? "ui.from_first_again" : "ui.next_string"), !last))
        step = last ? 0 : step + 1;
    else if (keys && ImGui::IsKeyPressed(ImGuiKey_RightArrow, false))
        step = std::min(aims - 1, step + 1);
    space(8.0f);
    for (std::size_t p = 0; p < text.aims.size(); ++p) {
        if (text.aims.size() > 1)
            faint(desk, text.passes[p]);
        for (const AimText& each : text.aims[p])
            body(desk, each.row);
    }
}

} // namespace counterpull
