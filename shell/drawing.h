// Drawing to scale: millimetres of the guitar onto the screen.
#pragma once

#include "engine/bridge.h"
#include "shell/desk.h"

#include <imgui.h>

#include <string>
#include <vector>

namespace counterpull {

// A window of the guitar's millimetres, x to the right (toward the nut), y up.
class Canvas {
  public:
    // Takes the width there is and the height that keeps the scale; `most_height` bounds it.
    Canvas(float left_mm, float right_mm, float bottom_mm, float top_mm, float most_height);

    ImVec2 at(double x_mm, double y_mm) const;
    ImVec2 at(Point metres) const { return at(metres.x * 1000.0, metres.y * 1000.0); }
    float size(double mm) const { return static_cast<float>(mm) * scale_; }
    ImVec2 low() const { return low_; }
    ImVec2 high() const { return high_; }
    float scale() const { return scale_; } // pixels per millimetre

    void line(ImVec2 a, ImVec2 b, ImU32 colour, float width = 1.0f) const;
    void dashed(const std::vector<ImVec2>& closed, ImU32 colour, float width) const;
    void filled(const std::vector<ImVec2>& convex, ImU32 colour) const;
    void outline(const std::vector<ImVec2>& closed, ImU32 colour, float width) const;
    void box(double x0_mm, double y0_mm, double x1_mm, double y1_mm, ImU32 colour) const;
    void spring(ImVec2 a, ImVec2 b, ImU32 colour, float thickness, float coil) const;
    void label(const Desk& desk, ImVec2 at, const std::string& text, ImU32 colour, float align = 0.0f) const;

  private:
    ImVec2 low_, high_;
    float scale_, left_mm_, bottom_mm_;
};

} // namespace counterpull
