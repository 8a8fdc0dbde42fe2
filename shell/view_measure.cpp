// What to measure: a small drawing of the bridge with the one dimension in question marked.
#include "engine/base/units.h"
#include "shell/drawing.h"
#include "shell/views.h"
#include "shell/widgets.h"

#include <algorithm>
#include <iterator>

namespace counterpull {

namespace {

// A dimension line between two places, with ticks across its ends, along x or y.
void draw_dimension(const Canvas& canvas, double x0, double y0, double x1, double y1, ImU32 colour) {
    const ImVec2 a = canvas.at(x0, y0), b = canvas.at(x1, y1);
    canvas.line(a, b, colour, 2.0f);
    const bool upright = x0 == x1;
    for (const ImVec2& end : {a, b})
        canvas.line({end.x - (upright ? 5.0f : 0.0f), end.y - (upright ? 0.0f : 5.0f)},
                    {end.x + (upright ? 5.0f : 0.0f), end.y + (upright ? 0.0f : 5.0f)}, colour, 2.0f);
}

} // namespace

void draw_measure_sketch(const Desk& desk, std::string_view path) {
    const GuitarSetup& guitar = desk.bench.setup().guitar;
    const BridgeSetup& b = guitar.bridge;
    const Colours& c = desk.theme.colours;
    const double height = b.saddle_height_mm.at(0), setback = b.saddle_setback_mm.at(0);
    const double depth = b.block_depth_mm, back = b.block_setback_mm;
    const double below = -depth - 6.0;
    struct Dimension {
        std::string_view path; // under guitar
        double x0, y0, x1, y1;
    };
    const Dimension dimensions[] = {
        {"bridge.saddle_height_mm", -setback, 0.0, -setback, height},
        {"bridge.saddle_setback_mm", -setback, height + 3.0, 0.0, height + 3.0},
        {"bridge.block_depth_mm", -back, 0.0, -back, -depth},
        {"bridge.block_setback_mm", -back, -depth - 5.0, 0.0, -depth - 5.0},
        {"bridge.tail_mm", -b.tail_mm, height + 3.0, 0.0, height + 3.0},
        {"bridge.anchor_mm", -setback - 12.0, height + 3.0, -setback, height + 3.0},
        {"spring.rate_n_mm", -back, below, 64.0, below},
        {"spring.initial_tension_n", -back, below, 64.0, below},
        {"spring.longest_mm", -back, below, 64.0, below},
        {"bay.claw_depth_mm", 65.0, 0.0, 65.0, -depth},
        {"bay.screw_pitch_mm", 72.0, below, 88.0, below},
        {"spring.free_length_mm", 8.0, -0.45 * depth - 6.0, 52.0, -0.45 * depth - 6.0}};
    const auto* marked = std::find_if(std::begin(dimensions), std::end(dimensions),
                                      [&](const Dimension& dimension) { return dimension.path == path; });
    if (marked == std::end(dimensions))
        return;
    const Canvas canvas(desk, "sketch", -static_cast<float>(b.tail_mm) - 4.0f, 96.0f,
                        -static_cast<float>(depth) - 8.0f, static_cast<float>(height) + 8.0f,
                        desk.narrow ? 96.0f : 110.0f);
    const double plate = 0.4 * height;
    canvas.box(-b.tail_mm, 0.0, 2.0, plate, c.line);
    canvas.box(-back - 7.0, -depth - 3.0, -back + 7.0, 0.0, c.line);
    canvas.line(canvas.at(-setback, height), canvas.at(96.0, height), c.faint, 1.2f);
    canvas.line(canvas.at(-setback, height), canvas.at(-setback - 4.0, plate), c.faint, 1.2f);
    canvas.spring(canvas.at(-back, -depth), canvas.at(64.0, -depth), c.faint, 1.2f, 5.0f);
    canvas.box(64.0, -depth - 4.0, 66.5, -depth + 4.0, c.faint);
    canvas.line(canvas.at(60.0, -depth), canvas.at(92.0, -depth), c.faint, 2.0f);
    canvas.dot(canvas.at(0.0, 0.0), 3.0f, c.ink);
    draw_dimension(canvas, marked->x0, marked->y0, marked->x1, marked->y1, c.accent);
    if (path == "spring.free_length_mm") // off the guitar: above the fitted ones, and shorter
        canvas.spring(canvas.at(8.0, -0.45 * depth), canvas.at(52.0, -0.45 * depth), c.ink, 1.6f, 5.0f);
}

void draw_how_tail(const Desk& desk) {
    constexpr double readings_mm[] = {-3.0, 0.0, 3.0};
    const Lines& names = desk.texts("tails read", {"ui.tail_sunk", "ui.tail_level", "ui.tail_raised"});
    const Colours& c = desk.theme.colours;
    const Drawing drawing(desk, "tails", 92.0f);
    const float width = (drawing.high().x - drawing.low().x) / 3.0f;
    for (std::size_t i = 0; i < 3; ++i) {
        // Not to scale: what is read is drawn large.
        const float left = drawing.low().x + static_cast<float>(i) * width + 6.0f,
                    right = left + width - 18.0f;
        const float level = drawing.low().y + 30.0f, ground = level + 30.0f;
        const float up = 5.0f * static_cast<float>(readings_mm[i]);
        const ImVec2 tail = {left + 6.0f, level - up}, pivot = {right - 8.0f, level};
        drawing.rect({left, ground}, {right, ground + 8.0f}, c.wood);
        drawing.filled({tail, pivot, {pivot.x, pivot.y + 7.0f}, {tail.x, tail.y + 7.0f}}, c.accent);
        drawing.dot({pivot.x, pivot.y + 7.0f}, 3.0f, c.ink);
        for (const ImVec2& end : {tail, ImVec2{pivot.x - 8.0f, pivot.y}}) {
            drawing.line({end.x + 3.0f, end.y + 8.0f}, {end.x + 3.0f, ground}, c.warning, 2.0f);
            drawing.line({end.x - 1.0f, ground}, {end.x + 7.0f, ground}, c.warning, 2.0f);
        }
        drawing.label({0.5f * (left + right), ground + 12.0f}, names[i], c.ink, 0.5f);
    }
    drawing.tell(desk.say("ui.tail_now"), desk.say("ui.how_tail"));
}

} // namespace counterpull
