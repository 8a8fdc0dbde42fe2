// The look: a bench sheet. Calm paper and ink, one accent, one warning colour; light and dark.
// Sizes in CSS pixels; colours as Dear ImGui packs them.
#pragma once

#include "shell/drawn_words.h"
#include "shell/fonts.h"

#include <imgui.h>

namespace counterpull {

struct Colours {
    ImU32 paper;  // the page
    ImU32 sheet;  // what lies on it: cards, fields
    ImU32 ink;    // text
    ImU32 faint;  // secondary text; still at least 4.5 : 1 on paper and sheet
    ImU32 line;   // rules and borders
    ImU32 accent; // what can be pressed, the bridge after the change
    ImU32 on_accent;
    ImU32 wash;    // a tint of the accent, behind what is chosen or hovered
    ImU32 warning; // refused values, cautions
    ImU32 wood;    // the body in the drawings
    ImU32 metal;   // springs, claw, screws
    ImU32 ghost;   // the bridge left alone
};

const Colours& light_colours();
const Colours& dark_colours();
// From three colours that a reader's system demands.
Colours demanded_colours(ImU32 paper, ImU32 ink, ImU32 accent);

struct Fonts {
    ImFont* body = nullptr;   // 16 px
    ImFont* strong = nullptr; // 16 px, semibold
    ImFont* small = nullptr;  // 14 px
    ImFont* answer = nullptr; // 23 px, semibold
    ImFont* large = nullptr;  // 88 px, notes and numbers only; there while it is needed
};

struct Theme {
    Colours colours = light_colours();
    Fonts fonts;
    bool dark = false;
    bool touch = false;                                    // coarse pointer: larger targets
    float target() const { return touch ? 46.0f : 34.0f; } // least height of what can be pressed
    float gap() const { return 8.0f; }
    float radius() const { return 6.0f; }
};

// A colour with another opacity, 0 to 1.
ImU32 faded(ImU32 colour, float opacity);

// Loads the faces that were cut for the project, with those of the language and the words that were drawn
// beside them, at whole pixel sizes; with `large`, what the bench shows from afar.
void load_fonts(Fonts& fonts, float rasterizer_density, const LanguageFaces& of_language,
                const DrawnWords& drawn, bool large);

// Puts the theme into Dear ImGui's style.
void apply(const Theme& theme);

} // namespace counterpull
