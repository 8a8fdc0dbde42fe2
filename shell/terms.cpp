#include "shell/terms.h"

#include "shell/text.h"

#include <imgui.h>

#include <algorithm>
#include <array>
#include <cctype>

namespace counterpull {

namespace {

// Keys: the word, and with ".is" after it what it means.
constexpr std::array keys = {"term.claw",   "term.tail",       "term.block",     "term.pivot",
                             "term.wedge",  "term.arm",        "term.scale",     "term.knife_edge",
                             "term.saddle", "term.nut",        "term.cent",      "term.wound",
                             "term.relief", "term.fine_tuner", "term.intonation"};
static_assert(keys.size() <= 32); // ViewState::terms_met

struct Term {
    std::string key, word, meaning, told;
};

const std::vector<Term>& terms_of(const Desk& desk) {
    return desk.kept("terms", [&] {
        std::vector<Term> all;
        for (const std::string key : keys) {
            Term term{key, std::string(desk.say(key)), std::string(desk.say(key + ".is")), {}};
            term.told = term.word + ": " + term.meaning;
            all.push_back(std::move(term));
        }
        return all;
    });
}

// Whether a letter stands at a place: of ASCII, or of those that Latin languages have beside it (UTF-8 begins
// U+00C0 to U+024F with C3 to C9); signs and blanks that are not of ASCII are none.
bool is_letter_at(std::string_view line, std::size_t at) {
    while (at > 0 && at < line.size() && (line[at] & 0xC0) == 0x80)
        --at;
    const auto c = static_cast<unsigned char>(at < line.size() ? line[at] : ' ');
    return std::isalnum(c) || (c >= 0xC3 && c <= 0xC9);
}

bool is_same(char a, char b) {
    return std::tolower(static_cast<unsigned char>(a)) == std::tolower(static_cast<unsigned char>(b));
}

// The endings that make a word its plural or another case, of one letter.
constexpr std::string_view endings = "aeinsuy";

// Where a word begins in a line, in its own form or with an ending; npos where it does not.
std::size_t find_word(std::string_view line, std::string_view word) {
    for (std::size_t at = 0; at + word.size() <= line.size(); ++at) {
        if (at > 0 && is_letter_at(line, at - 1))
            continue;
        if (!std::equal(word.begin(), word.end(), line.begin() + static_cast<std::ptrdiff_t>(at), is_same))
            continue;
        std::size_t end = at + word.size();
        end += end < line.size() && endings.find(line[end]) != std::string_view::npos;
        if (!is_letter_at(line, end))
            return at;
    }
    return std::string_view::npos;
}

float width_of(const ImFont* font, std::string_view text) {
    return font->CalcTextSizeA(font->FontSize, FLT_MAX, 0.0f, text.data(), text.data() + text.size()).x;
}

void underline(ImVec2 from, float width, ImU32 colour) {
    constexpr float dash = 2.0f, gap = 2.0f;
    for (float x = 0.0f; x < width; x += dash + gap)
        ImGui::GetWindowDrawList()->AddLine({from.x + x, from.y},
                                            {from.x + std::min(x + dash, width), from.y}, colour, 1.5f);
}

} // namespace

void mark_terms(const Desk& desk, const ImFont* font, ImVec2 at, std::string_view line) {
    ViewState& view = desk.view;
    const std::vector<Term>& terms = terms_of(desk);
    for (std::size_t i = 0; i < terms.size(); ++i) {
        if (view.terms_met & (1u << i))
            continue;
        const std::size_t begins = find_word(line, terms[i].word);
        if (begins == std::string_view::npos)
            continue;
        view.terms_met |= 1u << i;
        const std::string_view word = line.substr(begins, terms[i].word.size());
        const ImVec2 low = {at.x + width_of(font, line.substr(0, begins)), at.y};
        const ImVec2 high = {low.x + width_of(font, word), at.y + font->FontSize + 2.0f};
        underline({low.x, high.y - 1.0f}, high.x - low.x, desk.theme.colours.accent);
        desk.controls.declare({terms[i].key, Role::status, word, terms[i].told, "", true, low, high});
        const bool pointed_at = ImGui::IsWindowHovered() && ImGui::IsMouseHoveringRect(low, high);
        if (pointed_at && (!desk.theme.touch || ImGui::IsMouseClicked(ImGuiMouseButton_Left))) {
            view.term = static_cast<int>(i);
            view.term_at = low;
            view.term_pointed_at = true;
        }
    }
}

void draw_term(const Desk& desk, ImVec2 screen) {
    ViewState& view = desk.view;
    const bool pointed_at = std::exchange(view.term_pointed_at, false);
    // On touch it stays until the next touch.
    if (!pointed_at && (!desk.theme.touch || ImGui::IsMouseClicked(ImGuiMouseButton_Left)))
        view.term = -1;
    view.terms_met = 0;
    if (view.term < 0)
        return;
    const Term& term = terms_of(desk)[static_cast<std::size_t>(view.term)];
    const Colours& c = desk.theme.colours;
    ImFont* font = desk.theme.fonts.small;
    constexpr float widest = 300.0f, pad = 10.0f;
    const ImVec2 text = size_of(font, term.told, std::min(widest, screen.x - 40.0f));
    const ImVec2 size = {text.x + 2.0f * pad, text.y + 2.0f * pad};
    const float below = view.term_at.y + 1.6f * font->FontSize;
    const ImVec2 low = {std::clamp(view.term_at.x, 8.0f, std::max(8.0f, screen.x - size.x - 8.0f)),
                        below + size.y < screen.y ? below : view.term_at.y - size.y - 6.0f};
    ImDrawList* draw = ImGui::GetForegroundDrawList();
    draw->AddRectFilled(low, {low.x + size.x, low.y + size.y}, c.ink, desk.theme.radius());
    const std::string lines = wrapped(font, term.told, std::min(widest, screen.x - 40.0f));
    draw->AddText(font, font->FontSize, {low.x + pad, low.y + pad}, c.paper, lines.c_str());
}

} // namespace counterpull
