// Text in the page's faces. Lines break between words only: "−5.4 mm" never after its point.
#pragma once

#include "shell/desk.h"

#include <string>
#include <string_view>

namespace counterpull {

// The text as the faces can draw it, until the next call: where they lack a letter, the platform draws the
// word (drawn_words.h).
std::string_view drawable(const Desk& desk, const ImFont& font, std::string_view text);

// The text with line breaks where it must wrap; as it is where `width` is 0. A word longer than a line is
// cut.
std::string wrapped(ImFont* font, std::string_view text, float width);
ImVec2 size_of(ImFont* font, std::string_view text, float width = 0.0f);
// Draws at a place of the screen, wrapped where `width` is given; takes no room in the layout.
void text_at(ImFont* font, ImVec2 at, ImU32 colour, std::string_view text, float width = 0.0f);

// The same, with the words of the trade in it explained.
void marked_text(const Desk& desk, ImFont* font, ImVec2 at, ImU32 colour, std::string_view text, float width);

// Paragraphs take the width there is.
void paragraph(const Desk& desk, std::string_view text, ImFont* font, ImU32 colour);
void body(const Desk& desk, std::string_view text);
void faint(const Desk& desk, std::string_view text);
void warning(const Desk& desk, std::string_view text);

} // namespace counterpull
