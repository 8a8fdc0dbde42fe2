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

// One string of one pass: what is said while it is tuned, and its row in the table.
struct AimText {
    std::string head, aim, row;
};
struct TuningText {
    std::string why, replaces; // the first "" where one pass will do
    Lines passes;              // their heads
    std::vector<std::vector<AimText>> aims;
};

TuningText text_of(const Desk& desk, const Setup& setup, const Report& report) {
    const TuningSheet& sheet = *report.tuning;
    const std::vector<std::vector<double>> passes = passes_of(sheet);
    TuningText text;
    if (sheet.why_gentler)
        text.why = desk.say(why_in_words(*sheet.why_gentler));
    text.replaces = sheet.plain_passes ? desk.say(Phrase("ui.replaces").with("count", *sheet.plain_passes))
                                       : std::string(desk.say("ui.replaces_many"));
    for (std::size_t p = 0; p < passes.size(); ++p) {
        text.passes.push_back(desk.say(Phrase("ui.pass").with("pass", p + 1)));
        auto& aims = text.aims.emplace_back();
        for (std::size_t i = 0; i < passes[p].size(); ++i) {
            const double cents = passes[p][i];
            const double hz = report.next->strings[i].pitch_hz.value_or(0.0) * std::exp2(cents / 1200.0);
            const std::size_t string = passes[p].size() - i;
            aims.push_back({desk.say(Phrase(passes.size() > 1 ? "ui.tune_string_of_pass" : "ui.tune_string")
                                         .with("string", string)
                                         .with("pass", p + 1)),
                            desk.say(setup.next.tuning[i]) + "  " +
                                desk.say(Phrase("ui.cents").with("cents", signed_number(cents, 0))) + "  " +
                                desk.say(number(hz, 2)) + " Hz",
                            desk.say(Phrase("ui.aim_row")
                                         .with("string", string)
                                         .with("note", Parts{setup.next.tuning[i]})
                                         .with("cents", signed_number(cents, 0))
                                         .with("hz", number(hz, 2)))});
        }
    }
    return text;
}

} // namespace

void draw_tuning(const Desk& desk) {
    const Setup& setup = desk.bench.answered();
    const Report& report = desk.bench.report();
    if (!report.tuning) {
        body(desk, desk.say("ui.no_tuning"));
        return;
    }
    const TuningText& text = desk.kept("tuning", [&] { return text_of(desk, setup, report); });
    const auto strings = static_cast<int>(setup.next.tuning.size());
    const int steps = strings * static_cast<int>(text.aims.size());
    int& step = desk.view.tuning_step;
    step = std::clamp(step, 0, steps - 1);
    body(desk, desk.say(start_key(report.tuning->start)));
    if (!text.why.empty())
        warning(desk, text.why);
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
    if (button(desk, "pass.next", desk.say("ui.next_string"), true) ||
        (keys && ImGui::IsKeyPressed(ImGuiKey_RightArrow, false)))
        step = std::min(steps - 1, step + 1);
    space(8.0f);
    for (std::size_t p = 0; p < text.aims.size(); ++p) {
        if (text.aims.size() > 1)
            faint(desk, text.passes[p]);
        for (const AimText& each : text.aims[p])
            body(desk, each.row);
    }
}

} // namespace counterpull
