#include "shell/text.h"

#include <imgui.h>

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

} // namespace

std::string wrapped(ImFont* font, const std::string& text, float width) {
    if (width <= 0.0f)
        return text;
    std::string out;
    const float blank = font->GetCharAdvance(' ');
    float used = 0.0f; // of the line so far
    const char* end = text.data() + text.size();
    for (const char* word = text.data(); word <= end;) {
        const char* after = word;
        while (after < end && *after != ' ' && *after != '\n')
            ++after;
        float size = width_of(font, word, after);
        if (used > 0.0f && used + blank + size > width) {
            out += '\n';
            used = 0.0f;
        } else if (word > text.data() && word[-1] == ' ' && !out.empty() && out.back() != '\n') {
            out += ' ';
            used += blank;
        }
        while (used + size > width && after > word) {
            const char* cut = fitting(font, word, after, width);
            if (cut == after)
                break;
            out.append(word, cut).append("\n");
            word = cut;
            size = width_of(font, word, after);
        }
        out.append(word, after);
        used += size;
        if (after < end && *after == '\n') {
            out += '\n';
            used = 0.0f;
        }
        word = after + 1;
    }
    return out;
}

ImVec2 size_of(ImFont* font, const std::string& text, float width) {
    return font->CalcTextSizeA(font->FontSize, FLT_MAX, 0.0f, wrapped(font, text, width).c_str());
}

void text_at(ImFont* font, ImVec2 at, ImU32 colour, const std::string& text, float width) {
    ImGui::GetWindowDrawList()->AddText(font, font->FontSize, at, colour, wrapped(font, text, width).c_str());
}

void paragraph(const Desk&, const std::string& text, ImFont* font, ImU32 colour) {
    ImGui::PushFont(font);
    ImGui::PushStyleColor(ImGuiCol_Text, colour);
    ImGui::TextUnformatted(wrapped(font, text, ImGui::GetContentRegionAvail().x).c_str());
    ImGui::PopStyleColor();
    ImGui::PopFont();
}

void body(const Desk& desk, const std::string& text) {
    paragraph(desk, text, desk.theme.fonts.body, desk.theme.colours.ink);
}

void faint(const Desk& desk, const std::string& text) {
    paragraph(desk, text, desk.theme.fonts.small, desk.theme.colours.faint);
}

void warning(const Desk& desk, const std::string& text) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    ImGui::Indent(16.0f);
    paragraph(desk, text, desk.theme.fonts.small, desk.theme.colours.warning);
    ImGui::Unindent(16.0f);
    const float bottom = ImGui::GetItemRectMax().y;
    ImGui::GetWindowDrawList()->AddRectFilled({at.x, at.y + 2}, {at.x + 4, bottom},
                                              desk.theme.colours.warning, 2.0f);
}

} // namespace counterpull
