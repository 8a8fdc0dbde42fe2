// Tuning in one pass: big, one string at a time, then the whole table.
#include "engine/base/format.h"
#include "engine/say/names.h"
#include "shell/views.h"
#include "shell/widgets.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

// The passes asked for: one, or the two gentler ones.
std::vector<std::vector<double>> passes_of(const TuningSheet& sheet) {
    if (sheet.why_gentler)
        return sheet.gentler_cents;
    return {1, sheet.aim_cents};
}

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

} // namespace

void draw_tuning(const Desk& desk) {
    const Setup& setup = desk.bench.answered();
    const Report& report = desk.bench.report();
    if (!report.tuning) {
        body(desk, desk.say("ui.no_tuning"));
        return;
    }
    const TuningSheet& sheet = *report.tuning;
    const std::vector<std::vector<double>> passes = passes_of(sheet);
    const auto strings = static_cast<int>(setup.next.tuning.size());
    const int steps = strings * static_cast<int>(passes.size());
    int& step = desk.view.tuning_step;
    step = std::clamp(step, 0, steps - 1);
    body(desk, desk.say(start_key(sheet.start)));
    if (sheet.why_gentler)
        warning(desk, desk.words.say(why_in_words(*sheet.why_gentler)));
    body(desk, sheet.plain_passes ? desk.say(Phrase("ui.replaces").with("count", *sheet.plain_passes))
                                  : desk.say("ui.replaces_many"));
    space(6.0f);

    const auto string = static_cast<std::size_t>(step % strings);
    const auto pass = static_cast<std::size_t>(step / strings);
    const double cents = passes[pass][string];
    const double hz = report.next->strings[string].pitch_hz.value_or(0.0) * std::exp2(cents / 1200.0);
    const std::string head = desk.say(Phrase(passes.size() > 1 ? "ui.tune_string_of_pass" : "ui.tune_string")
                                          .with("string", strings - static_cast<int>(string))
                                          .with("pass", pass + 1));
    const std::string aim = desk.say(setup.next.tuning[string]) + "  " +
                            desk.say(Phrase("ui.cents").with("cents", signed_number(cents, 0))) + "  " +
                            desk.say(number(hz, 2)) + " Hz";
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
    if (button(desk, "pass.next", desk.say("ui.next_string"), true) ||
        (keys && ImGui::IsKeyPressed(ImGuiKey_RightArrow, false)))
        step = std::min(steps - 1, step + 1);
    space(8.0f);
    for (std::size_t p = 0; p < passes.size(); ++p) {
        if (passes.size() > 1)
            faint(desk, desk.say(Phrase("ui.pass").with("pass", p + 1)));
        for (std::size_t i = 0; i < passes[p].size(); ++i)
            body(desk, desk.say(Phrase("ui.aim_row")
                                    .with("string", passes[p].size() - i)
                                    .with("note", Parts{setup.next.tuning[i]})
                                    .with("cents", signed_number(passes[p][i], 0))
                                    .with("hz", number(report.next->strings[i].pitch_hz.value_or(0.0) *
                                                           std::exp2(passes[p][i] / 1200.0),
                                                       2))));
    }
}

} // namespace counterpull
