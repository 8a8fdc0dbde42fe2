#include "shell/theme.h"

#include <algorithm>
#include <span>

namespace counterpull {

namespace {

constexpr ImU32 rgb(unsigned hex) {
    return IM_COL32((hex >> 16) & 0xFF, (hex >> 8) & 0xFF, hex & 0xFF, 0xFF);
}

// Contrast of ink, faint, accent and warning on paper and sheet is at least 4.5 : 1 (WCAG 2.1, AA); a test
// computes it.
constexpr Colours light = {rgb(0xF3EFE6), rgb(0xFCFAF5), rgb(0x23272B), rgb(0x5E5C55),
                           rgb(0xD3CCBD), rgb(0x0F5F67), rgb(0xFFFFFF), rgb(0xE1EBE7),
                           rgb(0xA63A12), rgb(0xE6D3B3), rgb(0x6B7278), rgb(0x8F8A7E)};
constexpr Colours dark = {rgb(0x17191B), rgb(0x202427), rgb(0xECE8DF), rgb(0xA8A499),
                          rgb(0x3D4347), rgb(0x6CC3C1), rgb(0x0E1B1C), rgb(0x26383A),
                          rgb(0xF2A07B), rgb(0x4A3D2B), rgb(0x9AA3A9), rgb(0x77736A)};

// Where the letters and signs of the faces lie.
constexpr ImWchar all_ranges[] = {' ', 0x2FF, 0x2000, 0x22FF, 0};
// Notes with their accidentals as each language calls them (a test holds it to that), cents and turns.
constexpr ImWchar large_ranges[] = {' ',  ' ',  '#',    '#',    '+',    '9',    'A',  'H',  'L',  'M',
                                    'R',  'S',  'a',    'b',    'e',    'e',    'i',  'i',  'l',  'l',
                                    'o',  'o',  's',    's',    0xBC,   0xBE,   0xE1, 0xE1, 0xE9, 0xE9,
                                    0xF3, 0xF3, 0x215B, 0x215E, 0x2212, 0x2212, 0};

ImFont* add_face(std::span<const unsigned char> face, float pixels, float density, const ImWchar* ranges,
                 bool to_last) {
    ImFontConfig config;
    config.FontDataOwnedByAtlas = false;
    config.MergeMode = to_last;
    config.RasterizerDensity = density;
    config.OversampleH = density >= 2.0f ? 1 : 2;
    config.OversampleV = 1;
    // The atlas only reads it.
    return ImGui::GetIO().Fonts->AddFontFromMemoryTTF(const_cast<unsigned char*>(face.data()),
                                                      static_cast<int>(face.size()), pixels, &config, ranges);
}

using StyledFonts = std::array<ImFont*, text_styles>;

// What is left blank behind and below a picture, so that nothing of its neighbours shines in.
constexpr int around = 1;

// Room in the atlas for the pictures of words.
void reserve(const DrawnWords& drawn, const StyledFonts& fonts, float density) {
    for (std::size_t place = 0; place < drawn.words().size(); ++place)
        for (std::size_t style = 0; style < text_styles; ++style) {
            const DrawnWords::Picture& picture = drawn.words()[place].pictures[style];
            ImFontAtlas& atlas = *ImGui::GetIO().Fonts;
            if (picture.width == 0)
                continue;
            atlas.TexDesiredWidth = widest_picture;
            atlas.AddCustomRectFontGlyph(fonts[style], DrawnWords::character(place), picture.width + around,
                                         picture.height + around,
                                         static_cast<float>(picture.width) / density);
        }
}

// Once the atlas is built, the pictures are put there.
void put(const DrawnWords& drawn, const StyledFonts& fonts, float density) {
    ImFontAtlas& atlas = *ImGui::GetIO().Fonts;
    for (const ImFontAtlasCustomRect& room : atlas.CustomRects)
        for (std::size_t style = 0; style < text_styles; ++style) {
            if (room.Font != fonts[style])
                continue;
            const DrawnWords::Picture& picture =
                drawn.words()[DrawnWords::place(room.GlyphID)].pictures[style];
            for (int line = 0; line < picture.height; ++line)
                std::copy_n(picture.ink.data() + line * picture.width, picture.width,
                            atlas.TexPixelsAlpha8 + (room.Y + line) * atlas.TexWidth + room.X);
            // Room is counted in dots of the screen, a letter in pixels. The font is of our own making.
            auto& letter =
                const_cast<ImFontGlyph&>(*room.Font->FindGlyph(static_cast<ImWchar>(room.GlyphID)));
            letter.X1 = (letter.X1 - around) / density;
            letter.Y1 = (letter.Y1 - around) / density;
            letter.U1 -= around * atlas.TexUvScale.x;
            letter.V1 -= around * atlas.TexUvScale.y;
        }
}

ImVec4 vec(ImU32 colour) {
    return ImGui::ColorConvertU32ToFloat4(colour);
}

} // namespace

const Colours& light_colours() {
    return light;
}

const Colours& dark_colours() {
    return dark;
}

Colours demanded_colours(ImU32 paper, ImU32 ink, ImU32 accent) {
    return {paper, paper, ink, ink, ink, accent, paper, paper, ink, faded(ink, 0.25f), ink, ink};
}

ImU32 faded(ImU32 colour, float opacity) {
    const auto alpha = static_cast<ImU32>(static_cast<float>(colour >> IM_COL32_A_SHIFT) * opacity);
    return (colour & ~IM_COL32_A_MASK) | (alpha << IM_COL32_A_SHIFT);
}

void load_fonts(Fonts& fonts, float rasterizer_density, const LanguageFaces& of_language,
                const DrawnWords& drawn, bool large) {
    ImFontAtlas& atlas = *ImGui::GetIO().Fonts;
    atlas.Clear();
    atlas.TexDesiredWidth = 0;
    auto add = [&](bool strong, float pixels, const ImWchar* ranges) {
        ImFont* font =
            add_face(strong ? std::span(strong_face, strong_face_size) : std::span(body_face, body_face_size),
                     pixels, rasterizer_density, ranges, false);
        if (!of_language.empty())
            add_face(strong ? of_language.strong() : of_language.body(), pixels, rasterizer_density, ranges,
                     true);
        return font;
    };
    fonts.body = add(false, 16.0f, all_ranges);
    fonts.strong = add(true, 16.0f, all_ranges);
    fonts.small = add(false, 14.0f, all_ranges);
    fonts.answer = add(true, 22.0f, all_ranges);
    fonts.large = large ? add(true, 88.0f, large_ranges) : nullptr;
    const StyledFonts styled = {fonts.body, fonts.strong, fonts.small, fonts.answer};
    reserve(drawn, styled, rasterizer_density);
    atlas.Build();
    put(drawn, styled, rasterizer_density);
}

void apply(const Theme& theme) {
    const Colours& c = theme.colours;
    ImGuiStyle& style = ImGui::GetStyle();
    style = ImGuiStyle();
    style.WindowBorderSize = 0.0f;
    style.WindowRounding = 0.0f;
    style.WindowPadding = {0.0f, 0.0f};
    style.ItemSpacing = {8.0f, 6.0f};
    style.FrameRounding = theme.radius();
    style.FrameBorderSize = 1.0f;
    style.ScrollbarSize = theme.touch ? 6.0f : 10.0f;
    style.ScrollbarRounding = 5.0f;
    style.Colors[ImGuiCol_WindowBg] = vec(c.paper);
    style.Colors[ImGuiCol_ChildBg] = vec(faded(c.paper, 0.0f));
    style.Colors[ImGuiCol_Text] = vec(c.ink);
    style.Colors[ImGuiCol_TextSelectedBg] = vec(faded(c.accent, 0.3f));
    style.Colors[ImGuiCol_FrameBg] = vec(c.sheet);
    style.Colors[ImGuiCol_Border] = vec(c.accent);
    style.Colors[ImGuiCol_ScrollbarBg] = vec(faded(c.paper, 0.0f));
    style.Colors[ImGuiCol_ScrollbarGrab] = vec(c.line);
    style.Colors[ImGuiCol_ScrollbarGrabHovered] = vec(c.faint);
    style.Colors[ImGuiCol_ScrollbarGrabActive] = vec(c.faint);
    style.Colors[ImGuiCol_NavHighlight] = vec(faded(c.ink, 0.0f)); // drawn by the widgets themselves
}

} // namespace counterpull
