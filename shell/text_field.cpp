// Text that is typed: into any field, and into a field of its own.
#include "shell/widget_parts.h"
#include "shell/widgets.h"

#include <imgui.h>

namespace counterpull {

namespace {

int grow_text(ImGuiInputTextCallbackData* data) {
    auto* text = static_cast<std::string*>(data->UserData);
    text->resize(static_cast<std::size_t>(data->BufTextLen));
    data->Buf = text->data();
    return 0;
}

} // namespace

void begin_edit(const Desk& desk, std::string_view path, std::string_view text) {
    desk.view.editing = path;
    desk.view.edit_text = text;
    desk.view.edit_begins = true;
}

bool edit_line(const Desk& desk, std::string_view path, ImVec2 size) {
    ImGui::SetNextItemWidth(size.x);
    const float pad = 0.5f * (size.y - desk.theme.fonts.body->FontSize);
    ImGui::PushStyleVar(ImGuiStyleVar_FramePadding, ImVec2(8.0f, pad));
    if (desk.view.edit_begins)
        ImGui::SetKeyboardFocusHere();
    std::string& text = desk.view.edit_text;
    ImGui::PushID(path.data(), path.data() + path.size());
    const bool changed = ImGui::InputText(
        "##edit", text.data(), text.capacity() + 1,
        ImGuiInputTextFlags_AutoSelectAll | ImGuiInputTextFlags_CallbackResize, grow_text, &text);
    ImGui::PopID();
    ImGui::PopStyleVar();
    const bool begun = !desk.view.edit_begins;
    if (ImGui::IsItemActive())
        desk.view.edit_begins = false;
    if (begun && (ImGui::IsItemDeactivated() || !ImGui::IsItemActive()))
        desk.view.editing.clear();
    return changed;
}

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
        const std::string_view shown = text.empty() ? label : text;
        ImFont* font = desk.theme.fonts.body;
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
