// What is picked over the page: from the foot of a phone's screen, under its field on a desk. A list opens at
// what is chosen, and what is typed narrows it.
#pragma once

#include "shell/widgets.h"

namespace counterpull {

// Opens the list of the combobox that was drawn last.
void open_list(const Desk& desk, std::string_view id, std::string_view label, std::string_view current,
               const Lines& options);
// What was chosen from that list in the last frame.
std::optional<std::size_t> chosen_from_list(const Desk& desk, std::string_view id);

// Opens the springs on their hooks, to be put on and taken off.
void open_springs(const Desk& desk);

// Draws what is open; after the page, whose controls it covers.
void draw_sheet_over_page(const Desk& desk, ImVec2 screen);

// Whether every word and number typed stands in the text, in any order: "46-10" and "1046" find "10–46".
// Large and small letters are alike.
bool is_sought(std::string_view text, std::string_view typed);

} // namespace counterpull
