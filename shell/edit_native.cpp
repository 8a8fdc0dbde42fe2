// Typing in a desktop window: into a line drawn in place of the field.
#include "shell/widget_parts.h"

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

} // namespace counterpull
