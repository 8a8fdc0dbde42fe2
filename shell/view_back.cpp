// The spring bay from behind, to scale: springs now dashed, after the change drawn.
#include "engine/base/format.h"
#include "engine/base/units.h"
#include "engine/say/answer.h"
#include "shell/drawing.h"
#include "shell/views.h"
#include "shell/widgets.h"

#include <algorithm>

namespace counterpull {

void draw_back_view(const Desk& desk) {
    const Setup& setup = desk.bench.answered();
    const Report& report = desk.bench.report();
    const BaySetup& bay = setup.guitar.bay;
    const Colours& c = desk.theme.colours;
    const double block_mm = -setup.guitar.bridge.block_setback_mm;
    const double claw_mm = mm_from_metres(report.now.claw.x_m);
    const double after_mm = claw_mm + (report.carried_out.claw.bass_turns * bay.screw_pitch_mm);
    const double half =
        std::max({std::abs(bay.hook_mm.front()), std::abs(bay.hook_mm.back()), std::abs(bay.hole_mm.front()),
                  std::abs(bay.hole_mm.back()), 0.5 * bay.screw_span_mm});
    // Seen from behind with the neck to the right, the bass side lies below.
    const Canvas canvas(desk, "back view", static_cast<float>(block_mm - 16.0),
                        static_cast<float>(std::max(claw_mm, after_mm) + 26.0),
                        static_cast<float>(-half - 7.0), static_cast<float>(half + 7.0),
                        desk.narrow ? 170.0f : 220.0f);
    canvas.box(block_mm - 9.0, -half - 5.0, block_mm + 3.0, half + 5.0, faded(c.accent, 0.85f));
    canvas.box(after_mm, -half - 4.0, after_mm + 5.0, half + 4.0, c.metal);
    for (const double side : {-0.5, 0.5}) {
        const double z = side * bay.screw_span_mm;
        canvas.line(canvas.at(after_mm - 2.0, z), canvas.at(after_mm + 22.0, z), c.metal, 3.0f);
    }
    auto spot = [&](double x, double z) { canvas.ring(canvas.at(x, z), 3.5f, c.ink, 1.2f); };
    for (const PlacedSpring& spring : report.now.placed) {
        const ImVec2 a = canvas.at(block_mm, bay.hole_mm[static_cast<std::size_t>(spring.hole)]);
        const ImVec2 b = canvas.at(claw_mm + 2.0, bay.hook_mm[static_cast<std::size_t>(spring.hook)]);
        canvas.dashed({a, b}, c.ink, 1.2f);
    }
    for (const PlacedSpring& spring : report.carried_out.placed)
        canvas.spring(canvas.at(block_mm, bay.hole_mm[static_cast<std::size_t>(spring.hole)]),
                      canvas.at(after_mm + 2.0, bay.hook_mm[static_cast<std::size_t>(spring.hook)]), c.metal,
                      1.8f, canvas.size(2.6));
    for (const double z : bay.hole_mm)
        spot(block_mm, z);
    for (const double z : bay.hook_mm)
        spot(after_mm + 2.0, z);
    canvas.explain(desk.say("ui.back_view"), desk.kept("back legend", [&] {
        return desk.say(Phrase("ui.back_legend")
                            .with("now", hooks_of(report.now.placed))
                            .with("after", hooks_of(report.carried_out.placed)));
    }));
}

} // namespace counterpull
