// The work sheet: steps in order, cautions where they bite, blanks for readings.
#include "engine/say/work_sheet.h"
#include "shell/views.h"
#include "shell/widgets.h"

#include <imgui.h>

namespace counterpull {

namespace {

// The sheet in words.
struct StepText {
    std::string number, text;
    Lines cautions;
    std::string blank; // "" none
};
struct SheetText {
    Lines at_hand, back;
    std::vector<StepText> steps;
};

SheetText text_of(const Desk& desk, const WorkSheet& sheet) {
    SheetText text;
    for (const Phrase& thing : sheet.at_hand)
        text.at_hand.push_back(desk.say(thing));
    for (const SheetStep& step : sheet.steps) {
        StepText& said = text.steps.emplace_back();
        said.number = std::to_string(text.steps.size());
        said.text = step.said(desk.words);
        for (const Phrase& caution : step.cautions)
            said.cautions.push_back(desk.say(caution));
        if (step.blank)
            said.blank = desk.say(*step.blank) + " ______";
    }
    for (const Phrase& line : sheet.back)
        text.back.push_back(desk.say(line));
    return text;
}

// The number of a step and the step beside it.
void draw_step(const Desk& desk, const StepText& step) {
    constexpr float indent = 30.0f;
    text_at(desk.theme.fonts.strong, ImGui::GetCursorScreenPos(), desk.theme.colours.accent, step.number);
    ImGui::Indent(indent);
    body(desk, step.text);
    for (const std::string& caution : step.cautions)
        warning(desk, caution);
    if (!step.blank.empty())
        faint(desk, step.blank);
    ImGui::Unindent(indent);
    space(4.0f);
}

} // namespace

void draw_sheet(const Desk& desk) {
    const Report& report = desk.bench.report();
    draw_bench_button(desk, "job.open_sheet");
    const bool wedge_possible = report.wedge.has_value();
    bool wedge = desk.way().wedge;
    if (wedge_possible && toggle(desk, "worksheet.wedge", desk.say("sheet.with_wedge"), wedge))
        desk.view.wedge = wedge;
    if (wedge_possible)
        faint(desk, desk.say(wedge ? "ui.wedge_note" : "ui.no_wedge_note"));
    const SheetText& sheet = desk.kept(wedge ? "sheet with a wedge" : "sheet",
                                       [&] { return text_of(desk, work_sheet(report, desk.way())); });
    if (sheet.steps.empty())
        body(desk, desk.say("ui.no_sheet"));
    if (!sheet.at_hand.empty())
        paragraph(desk, desk.say("sheet.at_hand"), desk.theme.fonts.strong, desk.theme.colours.ink);
    for (const std::string& thing : sheet.at_hand)
        body(desk, thing);
    space(6.0f);
    for (const StepText& step : sheet.steps)
        draw_step(desk, step);
    if (!sheet.back.empty())
        paragraph(desk, desk.say("sheet.back"), desk.theme.fonts.strong, desk.theme.colours.ink);
    for (const std::string& line : sheet.back)
        body(desk, line);
    space(6.0f);
    if (desk.in_a_page && report.next && button(desk, "worksheet.print", desk.say("ui.print")))
        desk.view.wish = "print";
}

} // namespace counterpull
