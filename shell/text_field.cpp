// A field for text.
#include "shell/widget_parts.h"
#include "shell/widgets.h"

#include <imgui.h>

namespace counterpull {

std::optional<std::string> text_field(const Desk& desk, std::string_view id, std::string_view label,
                                      std::string_view text, float width) {
    const Colours& c = desk.theme.colours;
    const ImVec2 size = {width > 0.0f ? width : ImGui::GetContentRegionAvail().x, desk.theme.target()};
    std::optional<std::string> typed;
    if (desk.view.editing == id) {
        if (edit_line(desk, id, size))
            typed = desk.view.edit_text;
    } else {
        const bool pressed = invisible_button(id, size);
        focus_frame(desk, id);
        if (ImGui::IsItemHovered())
            ImGui::SetMouseCursor(ImGuiMouseCursor_TextInput);
        box(desk, face_of(desk), c.line);
        ImFont* font = desk.theme.fonts.body;
        const std::string_view shown = drawable(desk, *font, text.empty() ? label : text);
        const ImVec2 low = low_of_item(), high = high_of_item();
        ImGui::PushClipRect(low, {high.x - 8.0f, high.y}, true);
        text_at(font, {low.x + 12.0f, low.y + 0.5f * (size.y - font->FontSize)},
                text.empty() ? c.faint : c.ink, shown);
        ImGui::PopClipRect();
        if (pressed && !desk.theme.touch) // on touch the page lays a real field over this one
            begin_edit(desk, id, text);
    }
    if (auto request = desk.controls.take_request(id))
        typed = std::move(request);
    desk.controls.declare(
        {id, Role::textbox, label, text, "", true, low_of_item(), high_of_item(), Typed::text});
    return typed;
}

} // namespace counterpull
