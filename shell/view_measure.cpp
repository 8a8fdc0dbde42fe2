// What to measure: a small drawing of the bridge with the one dimension in question marked.
#include "engine/base/units.h"
#include "shell/drawing.h"
#include "shell/views.h"
#include "shell/widgets.h"

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

void draw_measure_sketch(const Desk& desk, Unknown unknown) {
    const GuitarSetup& guitar = desk.bench.setup().guitar;
    const BridgeSetup& b = guitar.bridge;
    const Colours& c = desk.theme.colours;
    const double height = b.saddle_height_mm.at(0), setback = b.saddle_setback_mm.at(0);
    const double depth = b.block_depth_mm, back = b.block_setback_mm;
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
    switch (unknown) {
    case Unknown::saddle_height:
        draw_dimension(canvas, -setback, 0.0, -setback, height, c.accent);
        break;
    case Unknown::saddle_setback:
        draw_dimension(canvas, -setback, height + 3.0, 0.0, height + 3.0, c.accent);
        break;
    case Unknown::block_depth:
        draw_dimension(canvas, -back, 0.0, -back, -depth, c.accent);
        break;
    case Unknown::block_setback:
        draw_dimension(canvas, -back, -depth - 5.0, 0.0, -depth - 5.0, c.accent);
        break;
    case Unknown::spring_rate:
    case Unknown::initial_tension:
        draw_dimension(canvas, -back, -depth - 6.0, 64.0, -depth - 6.0, c.accent);
        break;
    case Unknown::free_length: { // off the guitar: above the fitted ones, and shorter
        const double y = -0.45 * depth;
        canvas.spring(canvas.at(8.0, y), canvas.at(52.0, y), c.ink, 1.6f, 5.0f);
        draw_dimension(canvas, 8.0, y - 6.0, 52.0, y - 6.0, c.accent);
        break;
    }
    case Unknown::screw_pitch:
        draw_dimension(canvas, 72.0, -depth - 6.0, 88.0, -depth - 6.0, c.accent);
        break;
    case Unknown::dead_length:
        draw_dimension(canvas, -setback - 12.0, height + 3.0, -setback, height + 3.0, c.accent);
        break;
    default:
        break;
    }
}

} // namespace counterpull
