#include "shell/text.h"

#include "shell/terms.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

float width_of(const ImFont* font, const char* begin, const char* end) {
    return font->CalcTextSizeA(font->FontSize, FLT_MAX, 0.0f, begin, end).x;
}

// The end of as much of a word as fits; one character at least.
const char* fitting(const ImFont* font, const char* begin, const char* end, float width) {
    const char* last = begin;
    for (const char* at = begin; at < end;) {
        do
            ++at;
        while (at < end && (*at & 0xC0) == 0x80); // the rest of a UTF-8 character
        if (last > begin && width_of(font, begin, at) > width)
            break;
        last = at;
    }
    return last;
}

// Whether something ends with a digit or with a part of a turn (⅛ ¼ ⅜ ½ ⅝ ¾ ⅞).
bool ends_with_number(std::string_view text) {
    for (const std::string_view part : {"⅛", "¼", "⅜", "½", "⅝", "¾", "⅞"})
        if (text.ends_with(part))
            return true;
    return !text.empty() && text.back() >= '0' && text.back() <= '9';
}

// The end of a word. A number keeps what follows it, which may be its unit, where both have room.
const char* end_of_word(const ImFont* font, const char* word, const char* end, float wrap) {
    const char* after = std::find_if(word, end, [](char c) { return c == ' ' || c == '\n'; });
    if (wrap <= 0.0f || after == end || *after == '\n' ||
        !ends_with_number({word, static_cast<std::size_t>(after - word)}))
        return after;
    const char* with_next = end_of_word(font, after + 1, end, wrap);
    return width_of(font, word, with_next) <= wrap ? with_next : after;
}

// Calls `line(begin, end, width)` for every line of the text: as it is where `wrap` is 0.
template <class Line>
void for_lines(const ImFont* font, std::string_view text, float wrap, Line&& line) {
    if (text.empty())
        text = ""; // a view of nothing has no address
    const char* end = text.data() + text.size();
    const float blank = font->GetCharAdvance(' ');
    const char* begun = nullptr; // the line so far
    const char* ended = nullptr;
    float used = 0.0f;
    auto put = [&] {
        line(begun ? begun : end, begun ? ended : end, used);
        begun = nullptr;
        used = 0.0f;
    };
    for (const char* word = text.data(); word <= end;) {
        const char* after = end_of_word(font, word, end, wrap);
        float size = width_of(font, word, after);
        if (wrap > 0.0f && used > 0.0f && used + blank + size > wrap)
            put();
        else if (begun)
            used += blank;
        while (wrap > 0.0f && size > wrap && !begun) {
            const char* cut = fitting(font, word, after, wrap);
            if (cut == after)
                break;
            line(word, cut, width_of(font, word, cut));
            word = cut;
            size = width_of(font, word, after);
        }
        if (!begun)
            begun = word;
        ended = after;
        used += size;
        if (after < end && *after == '\n')
            put();
        word = after + 1;
    }
    put();
}

bool in_sight(const ImDrawList& draw, float top, float height) {
    return top + height >= draw.GetClipRectMin().y && top <= draw.GetClipRectMax().y;
}

// Draws the lines that are in sight, and returns the size of all. With a desk, the words of the trade in them
// are marked.
ImVec2 draw_lines(const Desk* desk, ImFont* font, ImVec2 at, ImU32 colour, std::string_view text,
                  float wrap) {
    ImDrawList& draw = *ImGui::GetWindowDrawList();
    ImVec2 size;
    for_lines(font, text, wrap, [&](const char* begin, const char* end, float width) {
        if (in_sight(draw, at.y + size.y, font->FontSize)) {
            draw.AddText(font, font->FontSize, {at.x, at.y + size.y}, colour, begin, end);
            if (desk)
                mark_terms(*desk, font, {at.x, at.y + size.y},
                           std::string_view(begin, static_cast<std::size_t>(end - begin)));
        }
        size = {std::fmax(size.x, width), size.y + font->FontSize};
    });
    return size;
}

} // namespace

std::string_view drawable(const Desk& desk, const ImFont& font, std::string_view text) {
    return desk.in_a_page ? desk.view.drawn_words.shown(font, text) : text;
}

std::string wrapped(ImFont* font, std::string_view text, float width) {
    std::string out;
    for_lines(font, text, width,
              [&](const char* begin, const char* end, float) { out.append(begin, end) += '\n'; });
    out.pop_back();
    return out;
}

ImVec2 size_of(ImFont* font, std::string_view text, float width) {
    ImVec2 size;
    for_lines(font, text, width, [&](const char*, const char*, float line) {
        size = {std::fmax(size.x, line), size.y + font->FontSize};
    });
    return size;
}

void marked_text(const Desk& desk, ImFont* font, ImVec2 at, ImU32 colour, std::string_view text,
                 float width) {
    draw_lines(&desk, font, at, colour, text, width);
}

void text_at(ImFont* font, ImVec2 at, ImU32 colour, std::string_view text, float width) {
    draw_lines(nullptr, font, at, colour, text, width);
}

void paragraph(const Desk& desk, std::string_view text, ImFont* font, ImU32 colour) {
    const ImVec2 size = draw_lines(&desk, font, ImGui::GetCursorScreenPos(), colour,
                                   drawable(desk, *font, text), ImGui::GetContentRegionAvail().x);
    ImGui::Dummy({std::ceil(size.x), size.y});
}

void body(const Desk& desk, std::string_view text) {
    paragraph(desk, text, desk.theme.fonts.body, desk.theme.colours.ink);
}

void faint(const Desk& desk, std::string_view text) {
    paragraph(desk, text, desk.theme.fonts.small, desk.theme.colours.faint);
}

void warning(const Desk& desk, std::string_view text) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    ImGui::Indent(16.0f);
    paragraph(desk, text, desk.theme.fonts.small, desk.theme.colours.warning);
    ImGui::Unindent(16.0f);
    const float bottom = ImGui::GetItemRectMax().y;
    ImGui::GetWindowDrawList()->AddRectFilled({at.x, at.y + 2}, {at.x + 4, bottom},
                                              desk.theme.colours.warning, 2.0f);
}

} // namespace counterpull
