#include "shell/widget_parts.h"

#include "shell/text.h"

#include <imgui.h>
#include <imgui_internal.h>

namespace counterpull {

ImVec2 low_of_item() {
    return ImGui::GetItemRectMin();
}
ImVec2 high_of_item() {
    return ImGui::GetItemRectMax();
}

bool invisible_button(std::string_view id, ImVec2 size) {
    ImGui::PushID(id.data(), id.data() + id.size());
    const bool pressed = ImGui::InvisibleButton("", size);
    ImGui::PopID();
    return pressed;
}

void declare(const Desk& desk, std::string_view id, Role role, std::string_view label,
             std::string_view value) {
    desk.controls.declare({id, role, label, value, "", true, low_of_item(), high_of_item()});
}

void focus_frame(const Desk& desk, std::string_view id) {
    // What is typed into beside the canvas stays in sight, whatever moves meanwhile.
    if (desk.view.typing == id)
        ImGui::ScrollToItem(ImGuiScrollFlags_KeepVisibleEdgeY);
    const bool shown = desk.view.shown == id;
    if (shown && desk.view.show_begins) {
        desk.view.show_begins = false;
        ImGui::ScrollToItem(ImGuiScrollFlags_KeepVisibleEdgeY);
    }
    if (!shown && (!ImGui::IsItemFocused() || !ImGui::GetIO().NavVisible))
        return;
    const ImVec2 low = low_of_item(), high = high_of_item();
    ImGui::GetWindowDrawList()->AddRect({low.x - 3, low.y - 3}, {high.x + 3, high.y + 3},
                                        desk.theme.colours.ink, desk.theme.radius() + 3, 0, 2.0f);
}

bool pressable(const Desk& desk, std::string_view id, ImVec2 size, bool repeat) {
    if (repeat)
        ImGui::PushButtonRepeat(true);
    const bool pressed = invisible_button(id, size);
    if (repeat)
        ImGui::PopButtonRepeat();
    focus_frame(desk, id);
    if (ImGui::IsItemHovered())
        ImGui::SetMouseCursor(ImGuiMouseCursor_Hand);
    return desk.controls.take_request(id).has_value() || pressed;
}

ImU32 face_of(const Desk& desk) {
    const Colours& c = desk.theme.colours;
    return ImGui::IsItemHovered() || ImGui::IsItemActive() ? c.wash : c.sheet;
}

void box(const Desk& desk, ImU32 face, ImU32 edge) {
    ImDrawList* draw = ImGui::GetWindowDrawList();
    draw->AddRectFilled(low_of_item(), high_of_item(), face, desk.theme.radius());
    draw->AddRect(low_of_item(), high_of_item(), edge, desk.theme.radius());
}

void centred(const Desk& desk, std::string_view text, ImU32 colour, ImFont* font) {
    const ImVec2 low = low_of_item(), high = high_of_item(), size = size_of(font, text);
    text_at(font, {low.x + 0.5f * (high.x - low.x - size.x), low.y + 0.5f * (high.y - low.y - size.y)},
            colour, text);
    desk.controls.check_fit(text, size.x, high.x - low.x);
}

} // namespace counterpull
