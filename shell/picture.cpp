#include "shell/picture.h"

#include "engine/base/format.h"

namespace counterpull {

namespace {

std::string number(float value) {
    return trimmed(static_cast<double>(value), 1);
}

std::string colour_of(const char* attribute, ImU32 colour) {
    static constexpr char digits[] = "0123456789abcdef";
    std::string text = std::string(" ") + attribute + "=\"#";
    for (int byte = 0; byte < 3; ++byte) {
        const ImU32 value = (colour >> (8 * byte)) & 0xFF;
        text += {digits[value >> 4], digits[value & 15]};
    }
    text += '"';
    if (const ImU32 alpha = colour >> 24; alpha < 255)
        text += std::string(" ") + attribute + "-opacity=\"" +
                trimmed(static_cast<double>(alpha) / 255.0, 2) + '"';
    return text;
}

std::string stroke(ImU32 colour, float width) {
    return " fill=\"none\"" + colour_of("stroke", colour) + " stroke-width=\"" + number(width) + "\"/>\n";
}

// Titles are data, never markup.
std::string escaped(const std::string& text) {
    std::string safe;
    for (const char c : text) {
        if (c == '&')
            safe += "&amp;";
        else if (c == '<')
            safe += "&lt;";
        else if (c == '>')
            safe += "&gt;";
        else if (static_cast<unsigned char>(c) >= ' ')
            safe += c;
    }
    return safe;
}

// A line's size is from the face's highest to its lowest; pictures ask for its em, as Inter has it (hhea
// table: ascender 2728, descender −680, of 2816 units).
constexpr float em_of_size = 2816.0f / (2728.0f + 680.0f);

std::string element_of(const Picture::Line& line, float x, float y, ImU32 colour) {
    return "<text x=\"" + number(x) + "\" y=\"" + number(y) + "\" font-size=\"" +
           number(em_of_size * line.size) + "\" textLength=\"" + number(line.width) +
           "\" lengthAdjust=\"spacingAndGlyphs\"" + colour_of("fill", colour) + ">" + escaped(line.text) +
           "</text>\n";
}

} // namespace

void Picture::begin(ImVec2 low, ImVec2 high) {
    low_ = low;
    size_ = {high.x - low.x, high.y - low.y};
    elements_.clear();
}

std::string Picture::points(const std::vector<ImVec2>& list) const {
    std::string text = " points=\"";
    for (const ImVec2& point : list)
        text += number(point.x - low_.x) + "," + number(point.y - low_.y) + " ";
    text.back() = '"';
    return text;
}

void Picture::line(ImVec2 a, ImVec2 b, ImU32 colour, float width) {
    lines({a, b}, false, colour, width);
}

void Picture::lines(const std::vector<ImVec2>& list, bool closed, ImU32 colour, float width) {
    elements_ += std::string(closed ? "<polygon" : "<polyline") + points(list) + stroke(colour, width);
}

void Picture::filled(const std::vector<ImVec2>& list, ImU32 colour) {
    elements_ += "<polygon" + points(list) + colour_of("fill", colour) + "/>\n";
}

void Picture::rect(ImVec2 a, ImVec2 b, ImU32 colour) {
    filled({a, {b.x, a.y}, b, {a.x, b.y}}, colour);
}

void Picture::circle(ImVec2 at, float radius, ImU32 colour, float width) {
    elements_ += "<circle cx=\"" + number(at.x - low_.x) + "\" cy=\"" + number(at.y - low_.y) + "\" r=\"" +
                 number(radius) + '"' +
                 (width > 0.0f ? stroke(colour, width) : colour_of("fill", colour) + "/>\n");
}

void Picture::text(ImVec2 at, const Line& line, ImU32 colour) {
    // The screen places the top of a line, a picture its foot.
    elements_ += element_of(line, at.x - low_.x, at.y - low_.y + 0.8f * line.size, colour);
}

std::string Picture::svg(const std::vector<Line>& above, const std::vector<Line>& below, ImU32 ink,
                         ImU32 paper) const {
    constexpr float margin = 16.0f, leading = 1.35f;
    float y = margin;
    std::string head, foot;
    for (const Line& line : above)
        head += element_of(line, margin, (y += leading * line.size) - 0.35f * line.size, ink);
    const float top = y + 6.0f;
    y = top + size_.y + 6.0f;
    for (const Line& line : below)
        foot += element_of(line, margin, (y += leading * line.size) - 0.35f * line.size, ink);
    const std::string width = number(size_.x + 2.0f * margin), height = number(y + margin);
    return "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"" + width + "\" height=\"" + height +
           "\" viewBox=\"0 0 " + width + " " + height + "\" font-family=\"Inter, system-ui, sans-serif\">\n" +
           "<rect width=\"100%\" height=\"100%\"" + colour_of("fill", paper) + "/>\n" + head +
           "<g transform=\"translate(" + number(margin) + " " + number(top) + ")\">\n" + elements_ +
           "</g>\n" + foot + "</svg>\n";
}

} // namespace counterpull
