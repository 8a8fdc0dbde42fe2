// What is always at hand: the bench, back and forward, sharing and the notebook.
#include "shell/views.h"
#include "shell/widget_parts.h"
#include "shell/widgets.h"

#include <imgui.h>

#include <cmath>

namespace counterpull {

namespace {

// An arrow that turns back, or forward.
void draw_turning_arrow(ImVec2 centre, bool back, ImU32 colour) {
    ImDrawList* draw = ImGui::GetWindowDrawList();
    constexpr float r = 7.0f, pi = 3.14159265f;
    const float way = back ? -1.0f : 1.0f;
    draw->PathArcTo(centre, r, back ? -0.9f * pi : -0.1f * pi, back ? 0.45f * pi : -1.45f * pi, 20);
    draw->PathStroke(colour, 0, 2.0f);
    const ImVec2 tip = {centre.x + way * (r + 0.5f), centre.y + 2.5f};
    draw->AddTriangleFilled({tip.x - 5.0f, tip.y - 5.0f}, {tip.x + 5.0f, tip.y - 5.0f}, {tip.x, tip.y + 2.5f},
                            colour);
}

// Stands where it stands, whether or not there is a step to take.
bool step_button(const Desk& desk, const char* id, const char* key, bool back, bool possible) {
    const float size = desk.theme.target();
    const bool pressed = pressable(desk, id, {size, size}) && possible;
    const Colours& c = desk.theme.colours;
    box(desk, possible ? face_of(desk) : c.paper, c.line);
    const ImVec2 low = low_of_item();
    draw_turning_arrow({low.x + 0.5f * size, low.y + 0.5f * size}, back, possible ? c.accent : c.line);
    desk.controls.declare({id, Role::button, desk.say(key), "", "", possible, low, high_of_item()});
    return pressed;
}

} // namespace

void draw_steps(const Desk& desk) {
    if (step_button(desk, "undo", "ui.undo", true, desk.bench.can_undo()))
        desk.bench.undo();
    ImGui::SameLine();
    if (step_button(desk, "redo", "ui.redo", false, desk.bench.can_redo()))
        desk.bench.redo();
}

void draw_keeping(const Desk& desk) {
    if (!desk.in_a_page)
        return;
    if (desk.bench.has_answer() && button(desk, "share", desk.say("ui.share")))
        desk.view.wish = "share";
    ImGui::SameLine();
    if (button(desk, "notebook", desk.say("ui.notebook")))
        desk.view.wish = "notebook";
}

void draw_bar(const Desk& desk) {
    draw_steps(desk);
    if (!desk.bench.has_answer())
        return;
    ImGui::SameLine();
    draw_bench_button(desk, "job.open", desk.narrow);
}

} // namespace counterpull
