#include "shell/drawing.h"

#include "shell/text.h"
#include "shell/widgets.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

ImDrawList& screen() {
    return *ImGui::GetWindowDrawList();
}

Picture::Line line_of(ImFont* font, std::string_view text) {
    return {std::string(text), font->FontSize, size_of(font, text).x};
}

std::vector<Picture::Line> lines_of(ImFont* font, std::string_view text, float width) {
    std::vector<Picture::Line> lines;
    const std::string all = wrapped(font, text, width) + "\n";
    for (std::size_t from = 0, to = 0; (to = all.find('\n', from)) != std::string::npos; from = to + 1)
        lines.push_back(line_of(font, all.substr(from, to - from)));
    return lines;
}

} // namespace

Drawing::Drawing(const Desk& desk, std::string_view id, float height) : desk_(desk), id_(id) {
    const float width = ImGui::GetContentRegionAvail().x;
    low_ = ImGui::GetCursorScreenPos();
    high_ = {low_.x + width, low_.y + height};
    ImGui::Dummy({width, height});
    keep_to(low_, high_);
}

void Drawing::keep_to(ImVec2 low, ImVec2 high) {
    low_ = low;
    high_ = high;
    if (desk_.view.picture_of != id_)
        return;
    picture_ = &desk_.view.picture;
    picture_->begin(low_, high_);
}

void Drawing::line(ImVec2 a, ImVec2 b, ImU32 colour, float width) const {
    screen().AddLine(a, b, colour, width);
    if (picture_)
        picture_->line(a, b, colour, width);
}

void Drawing::lines(const std::vector<ImVec2>& points, bool closed, ImU32 colour, float width) const {
    screen().AddPolyline(points.data(), static_cast<int>(points.size()), colour,
                         closed ? ImDrawFlags_Closed : ImDrawFlags_None, width);
    if (picture_)
        picture_->lines(points, closed, colour, width);
}

void Drawing::dashed(const std::vector<ImVec2>& points, ImU32 colour, float width) const {
    constexpr float dash = 6.0f, gap = 4.0f;
    const std::size_t count = points.size() > 2 ? points.size() : 1;
    for (std::size_t i = 0; i < count; ++i) {
        const ImVec2 a = points[i], b = points[(i + 1) % points.size()];
        const float length = std::hypot(b.x - a.x, b.y - a.y);
        const auto dashes = static_cast<int>(std::ceil(length / (dash + gap)));
        for (int k = 0; k < dashes; ++k) {
            const float from = static_cast<float>(k) * (dash + gap);
            const float s = from / length, e = std::min(from + dash, length) / length;
            line({a.x + s * (b.x - a.x), a.y + s * (b.y - a.y)},
                 {a.x + e * (b.x - a.x), a.y + e * (b.y - a.y)}, colour, width);
        }
    }
}

void Drawing::filled(const std::vector<ImVec2>& convex, ImU32 colour) const {
    screen().AddConvexPolyFilled(convex.data(), static_cast<int>(convex.size()), colour);
    if (picture_)
        picture_->filled(convex, colour);
}

void Drawing::rect(ImVec2 a, ImVec2 b, ImU32 colour) const {
    const ImVec2 from{std::clamp(a.x, low_.x, high_.x), std::clamp(a.y, low_.y, high_.y)};
    const ImVec2 to{std::clamp(b.x, low_.x, high_.x), std::clamp(b.y, low_.y, high_.y)};
    screen().AddRectFilled(from, to, colour);
    if (picture_)
        picture_->rect(from, to, colour);
}

void Drawing::dot(ImVec2 at, float radius, ImU32 colour) const {
    screen().AddCircleFilled(at, radius, colour);
    if (picture_)
        picture_->circle(at, radius, colour, 0.0f);
}

void Drawing::ring(ImVec2 at, float radius, ImU32 colour, float width) const {
    screen().AddCircle(at, radius, colour, 0, width);
    if (picture_)
        picture_->circle(at, radius, colour, width);
}

void Drawing::spring(ImVec2 a, ImVec2 b, ImU32 colour, float thickness, float coil) const {
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
    lines(points, false, colour, thickness);
}

void Drawing::label(ImVec2 at, std::string_view text, ImU32 colour, float align) const {
    ImFont* font = desk_.theme.fonts.small;
    const ImVec2 size = size_of(font, text);
    const float x = std::clamp(at.x - align * size.x, low_.x, std::max(low_.x, high_.x - size.x));
    text_at(font, {x, at.y}, colour, text);
    if (picture_)
        picture_->text({x, at.y}, line_of(font, text), colour);
}

void Drawing::tell(std::string_view title, std::string_view text) const {
    desk_.controls.declare({id_, Role::status, title, text, "", true, low_, high_});
    faint(desk_, text);
}

void Drawing::explain(std::string_view title, std::string_view text) const {
    tell(title, text);
    if (desk_.in_a_page && button(desk_, std::string(id_) += ".save", desk_.say("ui.save_picture")))
        desk_.view.picture_of = id_;
    if (!picture_)
        return;
    ImFont* font = desk_.theme.fonts.small;
    const float width = high_.x - low_.x;
    std::vector<Picture::Line> lines;
    for (const std::string_view head : {std::string_view(desk_.bench.answered().title), title})
        for (Picture::Line& line : lines_of(font, head, width))
            if (!line.text.empty())
                lines.push_back(std::move(line));
    desk_.view.picture_svg =
        picture_->svg(lines, lines_of(font, text, width), desk_.theme.colours.ink, desk_.theme.colours.sheet);
    desk_.view.picture_of.clear();
    desk_.view.wish = "picture";
}

Canvas::Canvas(const Desk& desk, std::string_view id, float left_mm, float right_mm, float bottom_mm,
               float top_mm, float most_height)
    : Drawing(desk, id,
              std::min(ImGui::GetContentRegionAvail().x / (right_mm - left_mm) * (top_mm - bottom_mm),
                       most_height)),
      scale_((high().y - low().y) / (top_mm - bottom_mm)), left_mm_(left_mm), bottom_mm_(bottom_mm) {
    // Centred where the height bounds it.
    const float width = scale_ * (right_mm - left_mm);
    const float left = low().x + 0.5f * (high().x - low().x - width);
    keep_to({left, low().y}, {left + width, high().y});
}

ImVec2 Canvas::at(double x_mm, double y_mm) const {
    return {low().x + (static_cast<float>(x_mm) - left_mm_) * scale_,
            high().y - (static_cast<float>(y_mm) - bottom_mm_) * scale_};
}

void Canvas::box(double x0_mm, double y0_mm, double x1_mm, double y1_mm, ImU32 colour) const {
    rect(at(x0_mm, y1_mm), at(x1_mm, y0_mm), colour);
}

namespace {

// 1, 2 or 5 times a power of ten, so that there are at most `most` steps.
double round_step(double range, double most) {
    const double least = range / most, decade = std::pow(10.0, std::floor(std::log10(least)));
    const double lead = least / decade;
    return (lead <= 1.0 ? 1.0 : lead <= 2.0 ? 2.0 : lead <= 5.0 ? 5.0 : 10.0) * decade;
}

} // namespace

Plot::Plot(const Desk& desk, std::string_view id, float height, const Axis& across, const Axis& up,
           float margin)
    : Drawing(desk, id, height), across_(across), up_(up), left_(low().x + 34.0f), right_(high().x - margin),
      top_(low().y + 20.0f), bottom_(high().y - 22.0f) {
    draw_ticks(up_, true);
    draw_ticks(across_, false);
}

ImVec2 Plot::at(double across, double up) const {
    const auto x = static_cast<float>((across - across_.low) / (across_.high - across_.low));
    const auto y = static_cast<float>((up - up_.low) / (up_.high - up_.low));
    return {left_ + x * (right_ - left_), bottom_ - y * (bottom_ - top_)};
}

void Plot::draw_ticks(const Axis& axis, bool upright) const {
    const Colours& c = desk_.theme.colours;
    const float room = upright ? (bottom_ - top_) / 26.0f : (right_ - left_) / 52.0f;
    const double step = round_step(axis.high - axis.low, std::max(2.0f, room));
    const int digits = std::max(0, static_cast<int>(std::ceil(-std::log10(step) - 1e-9)));
    const auto first = static_cast<int>(std::ceil(axis.low / step - 1e-9));
    const auto last = static_cast<int>(std::floor(axis.high / step + 1e-9));
    for (int k = first; k <= last; ++k) {
        const double value = k * step;
        const std::string text = desk_.say(counterpull::signed_number(value, digits));
        const ImVec2 place = upright ? at(across_.low, value) : at(value, up_.low);
        if (upright) {
            line(place, {right_, place.y}, c.line);
            label({left_ - 6.0f, place.y - 8.0f}, text, c.faint, 1.0f);
        } else {
            line(place, {place.x, place.y + 4.0f}, c.faint);
            label({place.x, place.y + 6.0f}, text, c.faint, 0.5f);
        }
    }
    label(upright ? ImVec2{low().x, low().y} : ImVec2{right_ + 20.0f, bottom_ + 6.0f}, axis.unit, c.faint);
}

} // namespace counterpull
