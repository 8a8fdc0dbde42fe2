// What widgets are made of. All but `pressable` speak of the item drawn last.
#pragma once

#include "shell/desk.h"

#include <imgui.h>

#include <string_view>

namespace counterpull {

ImVec2 low_of_item();
ImVec2 high_of_item();
// Dear ImGui's own, for a name of any kind of text.
bool invisible_button(std::string_view id, ImVec2 size);
void declare(const Desk& desk, std::string_view id, Role role, std::string_view label,
             std::string_view value = {});
// Where the keyboard is: a frame that does not lean on colour.
void focus_frame(const Desk& desk, std::string_view id);
// A pressable area; true when pressed by any means, again and again while held where it repeats.
bool pressable(const Desk& desk, std::string_view id, ImVec2 size, bool repeat = false);
// The ground that tells whether the pointer is over it.
ImU32 face_of(const Desk& desk);
void box(const Desk& desk, ImU32 face, ImU32 edge);
// A field is typed into from now on, beginning with `text`.
void begin_edit(const Desk& desk, std::string_view path, std::string_view text);
// The text line of a field being typed into. True while the text changes; ends the edit on Enter or on
// leaving.
bool edit_line(const Desk& desk, std::string_view path, ImVec2 size);
void centred(const Desk& desk, std::string_view text, ImU32 colour, ImFont* font);

} // namespace counterpull
