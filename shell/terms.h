// Words of the trade, each explained where it is first in sight: by hovering over it, or by a touch.
#pragma once

#include "shell/desk.h"

#include <string_view>

namespace counterpull {

// Marks the words of the trade in a line that has just been drawn at `at`, those that were not yet met in
// this frame.
void mark_terms(const Desk& desk, const ImFont* font, ImVec2 at, std::string_view line);
// Draws the explanation of the one that is pointed at, over the page.
void draw_term(const Desk& desk, ImVec2 screen);

} // namespace counterpull
