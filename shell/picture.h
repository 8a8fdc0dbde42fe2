// A drawing recorded as a picture to be saved: SVG 1.1 (W3C), in CSS pixels, y down as on the screen.
#pragma once

#include <imgui.h>

#include <string>
#include <vector>

namespace counterpull {

class Picture {
  public:
    // Whatever face a viewer sets it in, it is made as wide as on the screen, so that it fits.
    struct Line {
        std::string text;
        float size, width;
    };
    // Everything is placed from `low`, the drawing's upper left corner on the screen, on.
    void begin(ImVec2 low, ImVec2 high);
    void line(ImVec2 a, ImVec2 b, ImU32 colour, float width);
    void lines(const std::vector<ImVec2>& points, bool closed, ImU32 colour, float width);
    void filled(const std::vector<ImVec2>& points, ImU32 colour);
    void rect(ImVec2 a, ImVec2 b, ImU32 colour);
    void circle(ImVec2 at, float radius, ImU32 colour, float width); // filled where `width` is 0
    void text(ImVec2 at, const Line& line, ImU32 colour);

    // The whole, on `paper`, with lines of text above and below.
    std::string svg(const std::vector<Line>& above, const std::vector<Line>& below, ImU32 ink,
                    ImU32 paper) const;

  private:
    std::string points(const std::vector<ImVec2>& list) const;
    ImVec2 low_{}, size_{};
    std::string elements_;
};

} // namespace counterpull
