#include "shell/drawing.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

Canvas::Canvas(float left_mm, float right_mm, float bottom_mm, float top_mm, float most_height)
    : left_mm_(left_mm), bottom_mm_(bottom_mm) {
    const float width = ImGui::GetContentRegionAvail().x;
    scale_ = std::min(width / (right_mm - left_mm), most_height / (top_mm - bottom_mm));
    const float height = scale_ * (top_mm - bottom_mm);
    low_ = ImGui::GetCursorScreenPos();
    low_.x += 0.5f * (width - scale_ * (right_mm - left_mm)); // centred where the height bounds it
    high_ = {low_.x + scale_ * (right_mm - left_mm), low_.y + height};
    ImGui::Dummy({width, height});
}

ImVec2 Canvas::at(double x_mm, double y_mm) const {
    return {low_.x + (static_cast<float>(x_mm) - left_mm_) * scale_,
            high_.y - (static_cast<float>(y_mm) - bottom_mm_) * scale_};
}

void Canvas::line(ImVec2 a, ImVec2 b, ImU32 colour, float width) const {
    ImGui::GetWindowDrawList()->AddLine(a, b, colour, width);
}

void Canvas::dashed(const std::vector<ImVec2>& closed, ImU32 colour, float width) const {
    constexpr float dash = 6.0f, gap = 4.0f;
    for (std::size_t i = 0; i < closed.size(); ++i) {
        const ImVec2 a = closed[i], b = closed[(i + 1) % closed.size()];
        const float length = std::hypot(b.x - a.x, b.y - a.y);
        for (float from = 0.0f; from < length; from += dash + gap) {
            const float s = from / length, e = std::min(from + dash, length) / length;
            line({a.x + s * (b.x - a.x), a.y + s * (b.y - a.y)},
                 {a.x + e * (b.x - a.x), a.y + e * (b.y - a.y)}, colour, width);
        }
    }
}

void Canvas::filled(const std::vector<ImVec2>& convex, ImU32 colour) const {
    ImGui::GetWindowDrawList()->AddConvexPolyFilled(convex.data(), static_cast<int>(convex.size()), colour);
}

void Canvas::outline(const std::vector<ImVec2>& closed, ImU32 colour, float width) const {
    ImGui::GetWindowDrawList()->AddPolyline(closed.data(), static_cast<int>(closed.size()), colour,
                                            ImDrawFlags_Closed, width);
}

void Canvas::box(double x0_mm, double y0_mm, double x1_mm, double y1_mm, ImU32 colour) const {
    const ImVec2 a = at(x0_mm, y1_mm), b = at(x1_mm, y0_mm);
    ImGui::GetWindowDrawList()->AddRectFilled(a, b, colour);
}

void Canvas::spring(ImVec2 a, ImVec2 b, ImU32 colour, float thickness, float coil) const {
    // Loops at either end, coils between: a zigzag of as many coils at any length, so that stretch shows.
    constexpr int coils = 18;
    const float dx = b.x - a.x, dy = b.y - a.y, length = std::max(1.0f, std::hypot(dx, dy));
    const ImVec2 across = {-dy / length * coil, dx / length * coil};
    std::vector<ImVec2> points = {a};
    for (int i = 0; i <= 2 * coils; ++i) {
        const float share = 0.1f + 0.8f * static_cast<float>(i) / (2.0f * coils);
        const float side = i == 0 || i == 2 * coils ? 0.0f : (i % 2 == 0 ? 1.0f : -1.0f);
        points.push_back({a.x + share * dx + side * across.x, a.y + share * dy + side * across.y});
    }
    points.push_back(b);
    ImGui::GetWindowDrawList()->AddPolyline(points.data(), static_cast<int>(points.size()), colour, 0,
                                            thickness);
}

void Canvas::label(const Desk& desk, ImVec2 at, const std::string& text, ImU32 colour, float align) const {
    ImFont* font = desk.theme.fonts.small;
    const ImVec2 size = font->CalcTextSizeA(font->FontSize, FLT_MAX, 0.0f, text.c_str());
    const float x = std::clamp(at.x - align * size.x, low_.x, std::max(low_.x, high_.x - size.x));
    ImGui::GetWindowDrawList()->AddText(font, font->FontSize, {x, at.y}, colour, text.c_str());
}

} // namespace counterpull
