#include "shell/theme.h"

#include "shell/fonts.h"

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

// Notes with their accidentals, cents and turns.
constexpr ImWchar large_ranges[] = {' ', ' ', '#', '#', '+',  '9',  'A',    'H',    'b',    'b',    'e', 'e',
                                    'i', 'i', 's', 's', 0xBC, 0xBE, 0x215B, 0x215E, 0x2212, 0x2212, 0};

ImFont* add_face(const unsigned char* face, unsigned int size, float pixels, float density,
                 const ImWchar* ranges = face_ranges) {
    ImFontConfig config;
    config.FontDataOwnedByAtlas = false;
    config.RasterizerDensity = density;
    config.OversampleH = density >= 2.0f ? 1 : 2;
    config.OversampleV = 1;
    // The atlas only reads it.
    return ImGui::GetIO().Fonts->AddFontFromMemoryTTF(const_cast<unsigned char*>(face),
                                                      static_cast<int>(size), pixels, &config, ranges);
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

void load_fonts(Fonts& fonts, float rasterizer_density, bool large) {
    ImGui::GetIO().Fonts->Clear();
    fonts.body = add_face(body_face, body_face_size, 16.0f, rasterizer_density);
    fonts.strong = add_face(strong_face, strong_face_size, 16.0f, rasterizer_density);
    fonts.small = add_face(body_face, body_face_size, 14.0f, rasterizer_density);
    fonts.answer = add_face(strong_face, strong_face_size, 22.0f, rasterizer_density);
    fonts.large =
        large ? add_face(strong_face, strong_face_size, 88.0f, rasterizer_density, large_ranges) : nullptr;
    ImGui::GetIO().Fonts->Build();
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
