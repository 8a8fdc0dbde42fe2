// The spring bay from behind, to scale: springs now dashed, after the change drawn.
#include "engine/base/format.h"
#include "engine/base/units.h"
#include "engine/say/answer.h"
#include "shell/drawing.h"
#include "shell/views.h"
#include "shell/widgets.h"

#include <algorithm>

namespace counterpull {

namespace {

// The bay with the claw drawn at `drawn_mm`; the canvas reaches to `farthest_mm` of either place.
struct Bay {
    const BaySetup& bay;
    Colours c;
    double block_mm, claw_mm, drawn_mm, half;
    Canvas canvas;

    Bay(const Desk& desk, std::string_view id, double turned)
        : bay(desk.bench.answered().guitar.bay), c(desk.theme.colours),
          block_mm(-desk.bench.answered().guitar.bridge.block_setback_mm),
          claw_mm(mm_from_metres(desk.bench.report().now.claw.x_m)),
          drawn_mm(claw_mm + turned * bay.screw_pitch_mm),
          half(std::max({std::abs(bay.hook_mm.front()), std::abs(bay.hook_mm.back()),
                         std::abs(bay.hole_mm.front()), std::abs(bay.hole_mm.back()),
                         0.5 * bay.screw_span_mm})),
          // Seen from behind with the neck to the right, the bass side lies below.
          canvas(desk, id, static_cast<float>(block_mm - 16.0),
                 static_cast<float>(std::max(claw_mm, drawn_mm) + 26.0), static_cast<float>(-half - 7.0),
                 static_cast<float>(half + 7.0), desk.narrow ? 170.0f : 220.0f) {
        canvas.box(block_mm - 9.0, -half - 5.0, block_mm + 3.0, half + 5.0, faded(c.accent, 0.85f));
        canvas.box(drawn_mm, -half - 4.0, drawn_mm + 5.0, half + 4.0, c.metal);
        for (const double side : {-0.5, 0.5}) {
            const double z = side * bay.screw_span_mm;
            canvas.line(canvas.at(drawn_mm - 2.0, z), canvas.at(drawn_mm + 22.0, z), c.metal, 3.0f);
        }
    }
    ImVec2 hole(const PlacedSpring& spring) const {
        return canvas.at(block_mm, bay.hole_mm[static_cast<std::size_t>(spring.hole)]);
    }
    ImVec2 hook(const PlacedSpring& spring, double claw) const {
        return canvas.at(claw + 2.0, bay.hook_mm[static_cast<std::size_t>(spring.hook)]);
    }
    void springs(const Arrangement& placed, ImU32 colour) const {
        for (const PlacedSpring& spring : placed)
            canvas.spring(hole(spring), hook(spring, drawn_mm), colour, 1.8f, canvas.size(2.6));
    }
    void dashed(const Arrangement& placed, ImU32 colour, double claw) const {
        for (const PlacedSpring& spring : placed)
            canvas.dashed({hole(spring), hook(spring, claw)}, colour, 1.2f);
    }
    void spots() const {
        for (const double z : bay.hole_mm)
            canvas.ring(canvas.at(block_mm, z), 3.5f, c.ink, 1.2f);
        for (const double z : bay.hook_mm)
            canvas.ring(canvas.at(drawn_mm + 2.0, z), 3.5f, c.ink, 1.2f);
    }
};

} // namespace

void draw_back_view(const Desk& desk) {
    const Report& report = desk.bench.report();
    const Bay bay(desk, "back view", report.carried_out.claw.bass_turns);
    bay.dashed(report.now.placed, bay.c.ink, bay.claw_mm);
    bay.springs(report.carried_out.placed, bay.c.metal);
    bay.spots();
    bay.canvas.explain(desk.say("ui.back_view"), desk.kept("back legend", [&] {
        return desk.say(Phrase("ui.back_legend")
                            .with("now", hooks_of(report.now.placed))
                            .with("after", hooks_of(report.carried_out.placed)));
    }));
}

void draw_springs_to_move(const Desk& desk, const Arrangement& fitted, const Arrangement& off,
                          const Arrangement& on) {
    const Bay bay(desk, "springs to move", 0.0);
    Arrangement stay;
    for (const PlacedSpring& spring : fitted)
        if (std::find(off.begin(), off.end(), spring) == off.end())
            stay.push_back(spring);
    bay.springs(stay, bay.c.metal);
    bay.springs(on, bay.c.accent);
    bay.dashed(off, bay.c.warning, bay.drawn_mm);
    bay.spots();
    auto numbered = [&](const Arrangement& springs, const char* sign, ImU32 colour) {
        for (const PlacedSpring& spring : springs) {
            const ImVec2 at = bay.hook(spring, bay.drawn_mm);
            bay.canvas.ring(at, 8.0f, colour, 2.5f);
            bay.canvas.label({at.x + 12.0f, at.y - 8.0f}, sign + std::to_string(spring.hook + 1), colour);
        }
    };
    numbered(off, "− ", bay.c.warning);
    numbered(on, "+ ", bay.c.accent);
    bay.canvas.tell(desk.say("ui.back_view"), desk.say("bench.springs_legend"));
}

} // namespace counterpull
