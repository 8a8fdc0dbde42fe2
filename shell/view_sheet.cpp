// The work sheet: steps in order, cautions where they bite, blanks for readings.
#include "engine/say/work_sheet.h"
#include "shell/views.h"
#include "shell/widgets.h"

#include <imgui.h>

namespace counterpull {

namespace {

// A square to tick and the step beside it.
void draw_step(const Desk& desk, int number, const SheetStep& step) {
    constexpr float indent = 30.0f;
    const Colours& c = desk.theme.colours;
    const ImVec2 at = ImGui::GetCursorScreenPos();
    ImGui::GetWindowDrawList()->AddText(desk.theme.fonts.strong, desk.theme.fonts.strong->FontSize, at,
                                        c.accent, std::to_string(number).c_str());
    ImGui::Indent(indent);
    body(desk, desk.words.say(step.text));
    for (const Phrase& caution : step.cautions)
        warning(desk, desk.words.say(caution));
    if (step.blank)
        faint(desk, desk.words.say(*step.blank) + " ______");
    ImGui::Unindent(indent);
    space(4.0f);
}

} // namespace

void draw_sheet(const Desk& desk) {
    const Report& report = desk.bench.report();
    if (!report.next) {
        body(desk, desk.say("ui.no_sheet"));
        return;
    }
    const bool wedge_possible = report.wedge.has_value();
    bool wedge = desk.view.way.value_or(usual_way(report)) == SheetWay::wedge && wedge_possible;
    if (wedge_possible && toggle(desk, "worksheet.wedge", desk.say("sheet.with_wedge"), wedge))
        desk.view.way = wedge ? SheetWay::wedge : SheetWay::plain;
    if (wedge_possible)
        faint(desk, desk.say(wedge ? "ui.wedge_note" : "ui.no_wedge_note"));
    const WorkSheet sheet = work_sheet(report, wedge ? SheetWay::wedge : SheetWay::plain);
    if (!sheet.buy.empty())
        paragraph(desk, desk.say("sheet.buy"), desk.theme.fonts.strong, desk.theme.colours.ink);
    for (const Phrase& thing : sheet.buy)
        body(desk, desk.words.say(thing));
    space(6.0f);
    int number = 0;
    for (const SheetStep& step : sheet.steps)
        draw_step(desk, ++number, step);
    if (!sheet.back.empty())
        paragraph(desk, desk.say("sheet.back"), desk.theme.fonts.strong, desk.theme.colours.ink);
    for (const Phrase& line : sheet.back)
        body(desk, desk.words.say(line));
    space(6.0f);
    if (desk.in_a_page && button(desk, "worksheet.print", desk.say("ui.print")))
        desk.view.wish = "print";
}

} // namespace counterpull
