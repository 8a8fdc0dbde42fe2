// Drawings on the page: what is drawn on the screen and, where it was asked for, recorded as a picture.
#pragma once

#include "engine/mechanics/bridge.h"
#include "shell/desk.h"
#include "shell/picture.h"

#include <imgui.h>

#include <string>
#include <vector>

namespace counterpull {

// A rectangle of the page to draw in. Points are on the screen, CSS pixels.
class Drawing {
  public:
    // Takes `height` and the width there is. `id` names it, for what is saved.
    Drawing(const Desk& desk, std::string_view id, float height);

    ImVec2 low() const { return low_; }
    ImVec2 high() const { return high_; }

    void line(ImVec2 a, ImVec2 b, ImU32 colour, float width = 1.0f) const;
    void lines(const std::vector<ImVec2>& points, bool closed, ImU32 colour, float width) const;
    void dashed(const std::vector<ImVec2>& points, ImU32 colour, float width) const; // closed from three on
    void filled(const std::vector<ImVec2>& convex, ImU32 colour) const;
    void rect(ImVec2 a, ImVec2 b, ImU32 colour) const; // as far as it lies inside
    void dot(ImVec2 at, float radius, ImU32 colour) const;
    void ring(ImVec2 at, float radius, ImU32 colour, float width) const;
    void spring(ImVec2 a, ImVec2 b, ImU32 colour, float thickness, float coil) const;
    // In the small face; `align` 0 begins there, 1 ends there.
    void label(ImVec2 at, std::string_view text, ImU32 colour, float align = 0.0f) const;

    // What it shows, in words: under it, for those who cannot see it, and in the picture saved. `title` names
    // it.
    void explain(std::string_view title, std::string_view text) const;
    // The same, of a drawing that is not to be saved.
    void tell(std::string_view title, std::string_view text) const;

  protected:
    void keep_to(ImVec2 low, ImVec2 high); // the part that is drawn in

    const Desk& desk_;

  private:
    std::string_view id_;
    ImVec2 low_, high_;
    Picture* picture_ = nullptr; // while it is recorded
};

// A window of the guitar's millimetres to scale, x to the right (toward the nut), y up.
class Canvas : public Drawing {
  public:
    // The height keeps the scale; `most_height` bounds it.
    Canvas(const Desk& desk, std::string_view id, float left_mm, float right_mm, float bottom_mm,
           float top_mm, float most_height);

    ImVec2 at(double x_mm, double y_mm) const;
    ImVec2 at(Point metres) const { return at(metres.x * 1000.0, metres.y * 1000.0); }
    float size(double mm) const { return static_cast<float>(mm) * scale_; }
    float scale() const { return scale_; } // pixels per millimetre
    void box(double x0_mm, double y0_mm, double x1_mm, double y1_mm, ImU32 colour) const;

  private:
    float scale_, left_mm_, bottom_mm_;
};

// A plot: two axes with ticks at round numbers, as many as there is room for.
class Plot : public Drawing {
  public:
    struct Axis {
        double low, high;
        std::string_view unit; // said at the axis's end
    };
    // `margin` px stay free at the right, for names.
    Plot(const Desk& desk, std::string_view id, float height, const Axis& across, const Axis& up,
         float margin);

    ImVec2 at(double across, double up) const;
    // The part with the lines: the margin begins at its right.
    float right() const { return right_; }
    float top() const { return top_; }
    float bottom() const { return bottom_; }

  private:
    void draw_ticks(const Axis& axis, bool upright) const;
    Axis across_, up_;
    float left_, right_, top_, bottom_;
};

} // namespace counterpull
