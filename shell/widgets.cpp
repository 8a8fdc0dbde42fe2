#include "shell/widgets.h"

#include "shell/sheet_over_page.h"
#include "shell/widget_parts.h"

#include <imgui.h>

#include <cmath>

namespace counterpull {

namespace {

// The arrow of a list that opens (down) or a section (right when closed).
void arrow(const Desk& desk, ImVec2 centre, bool down) {
    ImDrawList* draw = ImGui::GetWindowDrawList();
    const float r = 4.5f;
    const ImU32 colour = desk.theme.colours.accent;
    if (down)
        draw->AddTriangleFilled({centre.x - r, centre.y - 0.6f * r}, {centre.x + r, centre.y - 0.6f * r},
                                {centre.x, centre.y + 0.8f * r}, colour);
    else
        draw->AddTriangleFilled({centre.x - 0.6f * r, centre.y - r}, {centre.x - 0.6f * r, centre.y + r},
                                {centre.x + 0.8f * r, centre.y}, colour);
}

} // namespace

void space(float height) {
    ImGui::Dummy({0.0f, height});
}

void rule(const Desk& desk) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    ImGui::GetWindowDrawList()->AddLine(at, {at.x + ImGui::GetContentRegionAvail().x, at.y},
                                        desk.theme.colours.line);
    space(1.0f);
}

bool button(const Desk& desk, std::string_view id, std::string_view label, bool primary,
            std::string_view spoken) {
    ImFont* font = desk.theme.fonts.strong;
    const ImVec2 size = {size_of(font, label).x + 28.0f, desk.theme.target()};
    const bool pressed = pressable(desk, id, size);
    const Colours& c = desk.theme.colours;
    box(desk, primary ? c.accent : face_of(desk), primary ? c.accent : c.line);
    centred(desk, label, primary ? c.on_accent : c.accent, font);
    declare(desk, id, Role::button, spoken.empty() ? label : spoken);
    return pressed;
}

bool toggle(const Desk& desk, std::string_view id, std::string_view label, bool& on) {
    const Colours& c = desk.theme.colours;
    const float width = std::fmin(ImGui::GetContentRegionAvail().x, widest_row), track = 44.0f, knob = 9.0f;
    const float text_width = width - track - 12.0f;
    const float height = std::fmax(desk.theme.target(), size_of(desk.theme.fonts.body, label, text_width).y);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const bool pressed = pressable(desk, id, {width, height});
    if (pressed)
        on = !on;
    const ImVec2 text = size_of(desk.theme.fonts.body, label, text_width);
    text_at(desk.theme.fonts.body, {at.x, at.y + 0.5f * (height - text.y)}, c.ink, label, text_width);
    ImDrawList* draw = ImGui::GetWindowDrawList();
    const ImVec2 low = {at.x + width - track, at.y + 0.5f * height - 12.0f},
                 high = {low.x + track, low.y + 24.0f};
    draw->AddRectFilled(low, high, on ? c.accent : c.sheet, 12.0f);
    draw->AddRect(low, high, on ? c.accent : c.faint, 12.0f, 0, 1.5f);
    draw->AddCircleFilled({on ? high.x - 12.0f : low.x + 12.0f, low.y + 12.0f}, knob,
                          on ? c.on_accent : c.faint);
    declare(desk, id, Role::checkbox, label, on ? "on" : "off");
    return pressed;
}

bool section(const Desk& desk, std::string_view id, std::string_view title, std::string_view summary) {
    const Colours& c = desk.theme.colours;
    const Fonts& fonts = desk.theme.fonts;
    bool open = desk.view.open_sections.contains(id);
    const float width = ImGui::GetContentRegionAvail().x;
    const float title_height = fonts.strong->FontSize;
    const float summary_height =
        open || summary.empty() ? 0.0f : size_of(fonts.small, summary, width - 26.0f).y + 2.0f;
    const float height = std::fmax(desk.theme.target() + 4.0f, title_height + summary_height + 14.0f);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    if (pressable(desk, id, {width, height})) {
        open = !open;
        if (open)
            desk.view.open_sections.emplace(id);
        else
            desk.view.open_sections.erase(desk.view.open_sections.find(id));
    }
    if (ImGui::IsItemHovered())
        ImGui::GetWindowDrawList()->AddRectFilled({at.x - 6, at.y}, {at.x + width + 6, at.y + height}, c.wash,
                                                  desk.theme.radius());
    const float top = at.y + 0.5f * (height - title_height - summary_height);
    arrow(desk, {at.x + 7.0f, top + 0.5f * title_height}, open);
    text_at(fonts.strong, {at.x + 22.0f, top}, c.ink, title);
    if (summary_height > 0.0f)
        text_at(fonts.small, {at.x + 22.0f, top + title_height + 2.0f}, c.faint, summary, width - 26.0f);
    desk.controls.check_fit(title, size_of(fonts.strong, title).x, width - 22.0f);
    declare(desk, id, Role::heading, title, open ? "open" : "closed");
    return open;
}

std::optional<std::size_t> picked(const Desk& desk, std::string_view id, std::string_view label,
                                  std::string_view current, const Lines& options, bool pressed) {
    std::optional<std::size_t> chosen = chosen_from_list(desk, id);
    const auto request = desk.controls.take_request(id);
    for (std::size_t i = 0; request && i < options.size(); ++i)
        if (options[i] == *request)
            chosen = i;
    if (pressed || (request && !chosen))
        open_list(desk, id, label, current, options);
    desk.controls.declare(
        {id, Role::combobox, label, current, {}, true, low_of_item(), high_of_item(), Typed::text, options});
    return chosen;
}

std::optional<std::size_t> choice(const Desk& desk, std::string_view id, std::string_view label,
                                  std::string_view current, const Lines& options) {
    const Colours& c = desk.theme.colours;
    const Fonts& fonts = desk.theme.fonts;
    const float width = std::fmin(ImGui::GetContentRegionAvail().x, widest_row);
    paragraph(desk, label, fonts.small, c.faint);
    ImGui::SetCursorPosY(ImGui::GetCursorPosY() - 4.0f);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const bool pressed = invisible_button(id, {width, desk.theme.target()});
    focus_frame(desk, id);
    const bool open = desk.view.sheet.id == id;
    box(desk, face_of(desk), open ? c.accent : c.line);
    desk.controls.check_fit(current, size_of(fonts.body, current).x, width - 40.0f);
    ImGui::PushClipRect(at, {at.x + width - 28.0f, at.y + desk.theme.target()}, true);
    text_at(fonts.body, {at.x + 12.0f, at.y + 0.5f * (desk.theme.target() - fonts.body->FontSize)}, c.ink,
            current);
    ImGui::PopClipRect();
    arrow(desk, {at.x + width - 18.0f, at.y + 0.5f * desk.theme.target()}, true);
    return picked(desk, id, label, current, options, pressed);
}

void card(const Desk& desk, const char* id, const std::function<void()>& contents) {
    const Colours& c = desk.theme.colours;
    ImGui::PushStyleColor(ImGuiCol_ChildBg, c.sheet);
    ImGui::PushStyleColor(ImGuiCol_Border, c.line);
    ImGui::PushStyleVar(ImGuiStyleVar_ChildRounding, desk.theme.radius());
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, ImVec2(16.0f, 12.0f));
    ImGui::BeginChild(id, {0.0f, 0.0f}, ImGuiChildFlags_Border | fitted_sheet,
                      ImGuiWindowFlags_NoScrollbar | ImGuiWindowFlags_NoScrollWithMouse);
    contents();
    ImGui::EndChild();
    ImGui::PopStyleVar(2);
    ImGui::PopStyleColor(2);
}

} // namespace counterpull
