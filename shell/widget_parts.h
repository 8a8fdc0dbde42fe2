// What widgets are made of. All but `pressable` speak of the item drawn last.
#pragma once

#include "shell/desk.h"

#include <imgui.h>

#include <string>

namespace counterpull {

ImVec2 low_of_item();
ImVec2 high_of_item();
void declare(const Desk& desk, const std::string& id, Role role, const std::string& label,
             const std::string& value = {});
// Where the keyboard is: a frame that does not lean on colour.
void focus_frame(const Desk& desk, const std::string& id);
// A pressable area; true when pressed by any means, again and again while held where it repeats.
bool pressable(const Desk& desk, const std::string& id, ImVec2 size, bool repeat = false);
// The ground that tells whether the pointer is over it.
ImU32 face_of(const Desk& desk);
void box(const Desk& desk, ImU32 face, ImU32 edge);
void centred(const Desk& desk, const std::string& text, ImU32 colour, ImFont* font);

} // namespace counterpull
