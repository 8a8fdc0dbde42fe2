// The bridge from the side, to scale: now in outline, left alone dashed, after the change solid; its parts
// named.
#include "engine/base/format.h"
#include "engine/base/units.h"
#include "shell/drawing.h"
#include "shell/views.h"
#include "shell/widgets.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

constexpr double exaggeration = 3.0;

// Outlines of the bridge when level, in millimetres: drawn, not calculated with.
struct Shape {
    std::vector<Point> plate, block;
};

Shape shape_of(const Assembly& assembly) {
    const Bridge& b = assembly.bridge;
    const double tail = mm_from_metres(b.tail_m), depth = mm_from_metres(b.block_depth_m);
    const double back = mm_from_metres(b.block_setback_m);
    double lowest_saddle = 1e9;
    for (const StringOnBridge& string : assembly.strung())
        lowest_saddle = std::min(lowest_saddle, mm_from_metres(string.saddle_height_m));
    const double top = std::min(3.5, 0.5 * lowest_saddle);
    return {
        {{2.0, 0.0}, {2.0, top}, {-tail, top}, {-tail, 0.0}},
        {{-back + 7.0, 0.0}, {-back - 7.0, 0.0}, {-back - 6.0, -depth - 3.0}, {-back + 6.0, -depth - 3.0}}};
}

std::vector<ImVec2> placed(const Canvas& canvas, const std::vector<Point>& shape, const Attitude& attitude) {
    std::vector<ImVec2> points;
    for (const Point& point : shape) {
        const Point moved = attitude.of(point);
        points.push_back(canvas.at(moved.x, moved.y));
    }
    return points;
}

struct Scene {
    const Desk& desk;
    const Assembly& assembly;
    const Report& report;
    const Canvas& canvas;
    double times; // tilt
    double claw_mm, hook_y_mm, wall_mm;
    Colours c = desk.theme.colours;

    void draw_body() const {
        const Bridge& b = assembly.bridge;
        const double back = mm_from_metres(b.block_setback_m), bottom = -48.0, top = -7.0;
        const double left_mm = -200.0, right_mm = 400.0;
        canvas.box(left_mm, bottom, -back - 24.0, top, c.wood); // behind the block
        canvas.box(-back + 22.0, -26.0, wall_mm, top, c.wood);  // between pivot and claw, over the springs
        canvas.box(wall_mm, bottom, right_mm, top, c.wood);     // where the claw's screws hold
        canvas.box(-2.0, top - 1.0, 2.5, -0.5, c.metal);        // a post
    }

    void draw_strings(const Attitude& attitude) const {
        const auto strings = assembly.strung();
        for (const std::size_t i : {std::size_t{0}, strings.size() - 1}) {
            const Point saddle = attitude.of(strings[i].saddle());
            const ImVec2 from = canvas.at(saddle);
            // The nut is a scale length away: at its own height, as good as level here.
            canvas.line(from, {canvas.high().x, canvas.at(0.0, mm_from_metres(strings[i].saddle_height_m)).y},
                        c.ink, 1.3f);
            const Point foot = attitude.of({-strings[i].saddle_setback_m - 0.004, 0.002});
            canvas.line(from, canvas.at(foot), c.ink, 1.3f);
            canvas.dot(from, 2.5f, c.ink);
        }
    }

    void draw_springs(const Attitude& attitude) const {
        const Point hole = attitude.of(assembly.bridge.block());
        const ImVec2 hook = canvas.at(claw_mm, hook_y_mm);
        canvas.spring(canvas.at(hole), hook, c.metal, 1.6f, canvas.size(3.2));
        // Claw and screw.
        canvas.box(claw_mm - 0.5, hook_y_mm - 4.0, claw_mm + 2.0, hook_y_mm + 4.0, c.metal);
        const ImVec2 head = canvas.at(claw_mm - 4.0, hook_y_mm), tip = canvas.at(wall_mm + 16.0, hook_y_mm);
        canvas.line(head, tip, c.metal, std::max(2.0f, canvas.size(1.6)));
        const auto threads = static_cast<int>(std::ceil((wall_mm + 11.0 - claw_mm) / 2.0));
        for (int i = 0; i < threads; ++i) {
            const double x = claw_mm + 4.0 + 2.0 * i;
            canvas.line(canvas.at(x, hook_y_mm - 1.8), canvas.at(x + 1.0, hook_y_mm + 1.8), c.metal, 1.0f);
        }
    }

    void draw_bridge(const Shape& shape, const Attitude& attitude) const {
        draw_springs(attitude);
        for (const auto* part : {&shape.block, &shape.plate}) {
            canvas.filled(placed(canvas, *part, attitude), faded(c.accent, 0.85f));
            canvas.lines(placed(canvas, *part, attitude), true, c.accent, 1.5f);
        }
    }

    // As the wedge holds it; the wedge between block and body.
    void draw_wedged() const {
        draw_body();
        const Attitude wanted(radians_from_degrees(report.carried_out.angle_deg));
        draw_bridge(shape_of(assembly), wanted);
        draw_strings(wanted);
        canvas.dot(canvas.at(0.0, 0.0), 3.0f, c.ink);
        const double back = mm_from_metres(assembly.bridge.block_setback_m);
        const double from = 6.8 - back, to = 22.0 - back;
        canvas.filled(
            {canvas.at(from, -12.0), canvas.at(from, -24.0), canvas.at(to, -24.0), canvas.at(to, -14.0)},
            c.warning);
    }

    // What the parts are called, each beside or on its part.
    void draw_names() const {
        const double depth = mm_from_metres(assembly.bridge.block_depth_m);
        const double back = mm_from_metres(assembly.bridge.block_setback_m);
        const double tail = mm_from_metres(assembly.bridge.tail_m);
        const float up = desk.theme.fonts.small->FontSize;
        auto name = [&](const char* key, double x, double y, ImU32 colour, float align) {
            const ImVec2 at = canvas.at(x, y);
            canvas.label({at.x, at.y - 0.5f * up}, desk.say(key), colour, align);
        };
        name("part.tail", -tail, 13.0, c.ink, 0.0f);
        name("part.pivot", 3.5, -4.0, c.ink, 0.0f);
        name("part.block", -back, -0.5 * depth, c.on_accent, 0.5f);
        name("part.spring", 0.5 * (claw_mm - back), hook_y_mm + 8.0, c.ink, 0.5f);
        name("part.claw", claw_mm, hook_y_mm - 7.5, c.ink, 0.5f);
        name("part.screw", wall_mm + 5.0, hook_y_mm + 5.0, c.ink, 0.0f);
    }

    // Which way the claw goes, and round which way the screw is turned, as seen on its head.
    void draw_turn(double turns) const {
        if (std::abs(turns) < least_turn || !report.next)
            return;
        const bool tighter = turns > 0.0;
        const float way = tighter ? 1.0f : -1.0f, pi = 3.14159265f, r = 8.0f;
        const ImVec2 at = canvas.at(claw_mm - 14.0, hook_y_mm - 7.5);
        std::vector<ImVec2> arc;
        for (int i = 0; i <= 12; ++i) {
            const float angle = -0.5f * pi + way * (-0.75f * pi + 1.5f * pi * static_cast<float>(i) / 12.0f);
            arc.push_back({at.x + r * std::cos(angle), at.y + r * std::sin(angle)});
        }
        canvas.lines(arc, false, c.accent, 2.0f);
        const ImVec2 end = arc.back(), before = arc[arc.size() - 2];
        const ImVec2 along = {end.x - before.x, end.y - before.y};
        canvas.filled({{end.x + 2.0f * along.x, end.y + 2.0f * along.y},
                       {end.x - 1.2f * along.y, end.y + 1.2f * along.x},
                       {end.x + 1.2f * along.y, end.y - 1.2f * along.x}},
                      c.accent);
        const ImVec2 from = canvas.at(claw_mm + 1.0, hook_y_mm + 7.0);
        const float length = canvas.size(9.0);
        const ImVec2 tip = {from.x + way * length, from.y};
        canvas.line(from, tip, c.accent, 2.0f);
        canvas.filled({{tip.x + way * 7.0f, tip.y}, {tip.x, tip.y - 5.0f}, {tip.x, tip.y + 5.0f}}, c.accent);
    }

    void draw() const {
        const Attitude now(radians_from_degrees(report.now.angle_deg) * times);
        const Attitude after(radians_from_degrees(report.carried_out.angle_deg) * times);
        const Attitude alone(radians_from_degrees(report.untouched.angle_deg) * times);
        const Shape shape = shape_of(assembly);
        draw_body();
        draw_bridge(shape, after);
        for (const auto* part : {&shape.block, &shape.plate})
            canvas.dashed(placed(canvas, *part, alone), c.ink, 1.4f);
        for (const auto* part : {&shape.block, &shape.plate})
            canvas.lines(placed(canvas, *part, now), true, c.faint, 1.2f);
        draw_strings(after);
        draw_names();
        draw_turn(report.solution.more_turns());
        canvas.dot(canvas.at(0.0, 0.0), std::max(3.0f, canvas.size(1.2)), c.ink);
    }
};

} // namespace

namespace {

const Assembly& assembly_seen(const Desk& desk) {
    return desk.kept("side view", [&] {
        const Setup& setup = desk.bench.answered();
        return assembly_of(setup, fitting_next(setup, desk.bench.report().carried_out.placed));
    });
}

} // namespace

void draw_wedge(const Desk& desk) {
    const Assembly& assembly = assembly_seen(desk);
    const Canvas canvas(desk, "wedge", static_cast<float>(-mm_from_metres(assembly.bridge.tail_m) - 8.0),
                        44.0f, -49.0f, 16.0f, desk.narrow ? 190.0f : 220.0f);
    ImGui::PushClipRect(canvas.low(), canvas.high(), true);
    const double claw_mm = mm_from_metres(desk.bench.report().carried_out.claw.x_m);
    Scene{desk,
          assembly,
          desk.bench.report(),
          canvas,
          1.0,
          claw_mm,
          -mm_from_metres(assembly.claw.depth_m),
          claw_mm + 12.0}
        .draw_wedged();
    ImGui::PopClipRect();
    canvas.tell(desk.say("ui.side_view"), desk.say("bench.wedge"));
}

void draw_side_view(const Desk& desk) {
    const Report& report = desk.bench.report();
    const Assembly& assembly = assembly_seen(desk);
    const double claw_mm = mm_from_metres(hook_at(assembly.claw, report.carried_out.claw, 0.0).x);
    const double tail_mm = mm_from_metres(assembly.bridge.tail_m);
    const double depth_mm = mm_from_metres(std::max(assembly.bridge.block_depth_m, assembly.claw.depth_m));
    const double wall_mm = std::max(claw_mm + 8.0, mm_from_metres(report.now.claw.x_m) + 12.0);
    const double times = desk.view.exaggerate ? exaggeration : 1.0;
    double top_mm = 16.0; // of what is drawn: a tail at its upper stop is higher than its name
    for (const double tilt_deg :
         {report.now.angle_deg, report.carried_out.angle_deg, report.untouched.angle_deg})
        top_mm = std::max(top_mm, tail_mm * std::sin(radians_from_degrees(tilt_deg) * times) + 6.0);
    const Canvas canvas(desk, "side view", static_cast<float>(-tail_mm - 8.0),
                        static_cast<float>(wall_mm + 22.0),
                        static_cast<float>(-std::max(depth_mm + 8.0, 49.0)), static_cast<float>(top_mm),
                        desk.narrow ? 190.0f : 300.0f);
    Scene{desk, assembly, report, canvas, times, claw_mm, -mm_from_metres(assembly.claw.depth_m), wall_mm}
        .draw();
    canvas.explain(desk.say("ui.side_view"), desk.kept("side legend", [&] {
        return desk.say(Phrase(report.next ? "ui.side_legend" : "ui.side_legend_cannot")
                            .with("now", signed_millimetres(report.now.tail_mm, 1))
                            .with("alone", signed_millimetres(report.untouched.tail_mm, 1))
                            .with("after", signed_millimetres(report.carried_out.tail_mm, 1)));
    }));
    toggle(desk, "side.exaggerate", desk.say("ui.exaggerate"), desk.view.exaggerate);
}

} // namespace counterpull
