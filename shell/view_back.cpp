// The spring bay from behind, to scale: springs now dashed, after the change drawn.
#include "engine/base/format.h"
#include "engine/base/units.h"
#include "engine/say/answer.h"
#include "shell/drawing.h"
#include "shell/views.h"
#include "shell/widget_parts.h"
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

namespace {

constexpr float bay_left = 26.0f, bay_right = 118.0f; // of the block's edge and of the claw, from either end

// The hole that a spring on this hook goes to: the nearest that is free.
int hole_for(const BaySetup& bay, const Arrangement& fitted, int hook) {
    const double at = bay.hook_mm[static_cast<std::size_t>(hook)];
    int best = -1;
    for (int hole = 0; hole < static_cast<int>(bay.hole_mm.size()); ++hole) {
        const bool taken =
            std::any_of(fitted.begin(), fitted.end(), [&](const auto& s) { return s.hole == hole; });
        auto away = [&](int h) { return std::abs(bay.hole_mm[static_cast<std::size_t>(h)] - at); };
        if (!taken && (best < 0 || away(hole) < away(best)))
            best = hole;
    }
    return best;
}

// With the spring of a hook taken off, or one put on. One stays: a bridge without any is none that floats.
Arrangement toggled(const BaySetup& bay, Arrangement fitted, int hook) {
    const auto there =
        std::find_if(fitted.begin(), fitted.end(), [&](const auto& s) { return s.hook == hook; });
    if (there != fitted.end()) {
        if (fitted.size() > 1)
            fitted.erase(there);
        return fitted;
    }
    const int hole = hole_for(bay, fitted, hook);
    if (hole < 0 || fitted.size() >= most_springs)
        return fitted;
    const auto after =
        std::find_if(fitted.begin(), fitted.end(), [&](const auto& s) { return s.hook > hook; });
    fitted.insert(after, PlacedSpring{hook, hole, {}});
    return fitted;
}

const std::string& gone_in_words(const Desk& desk) {
    return desk.kept("gone", [&] {
        return desk.say(Phrase("ui.readings_gone").with("count", desk.bench.gone().readings));
    });
}

} // namespace

float height_of_springs(const Desk& desk) {
    constexpr float narrowest = 200.0f; // that a line there is broken at
    const auto hooks = static_cast<float>(desk.bench.setup().guitar.bay.hook_mm.size());
    ImFont* small = desk.theme.fonts.small;
    const bool gone = desk.bench.gone().any() && desk.bench.gone().by_springs;
    return hooks * desk.theme.target() + 3.0f * small->FontSize + 24.0f +
           (gone ? size_of(small, gone_in_words(desk), narrowest).y + 8.0f : 0.0f);
}

void draw_gone(const Desk& desk, bool by_springs) {
    if (!desk.bench.gone().any() || desk.bench.gone().by_springs != by_springs)
        return;
    const std::string& said = gone_in_words(desk);
    const ImVec2 low = ImGui::GetCursorScreenPos();
    warning(desk, said);
    desk.controls.declare({by_springs ? "now.springs.gone" : "guitar.gone", Role::status,
                           desk.say("ui.readings"), said, "", true, low, ImGui::GetItemRectMax()});
}

void draw_springs_fitted(const Desk& desk) {
    const Setup& setup = desk.bench.setup();
    const BaySetup& bay = setup.guitar.bay;
    const Arrangement& fitted = setup.now.springs;
    const Colours& c = desk.theme.colours;
    const auto hooks = static_cast<int>(bay.hook_mm.size());
    const float row = desk.theme.target();
    faint(desk, desk.say("ui.touch_hooks"));
    const Drawing drawing(desk, "springs fitted", row * static_cast<float>(hooks));
    const ImVec2 low = drawing.low(), high = drawing.high();
    const ImVec2 below = ImGui::GetCursorPos();
    const float block = low.x + bay_left, claw = high.x - bay_right;
    // Seen from behind with the neck to the right, the bass side lies below.
    auto middle = [&](int place, std::size_t count) {
        return high.y - (static_cast<float>(place) + 0.5f) * (high.y - low.y) / static_cast<float>(count);
    };
    drawing.rect({low.x, low.y + 4.0f}, {block, high.y - 4.0f}, faded(c.accent, 0.85f));
    drawing.rect({claw, low.y + 4.0f}, {claw + 9.0f, high.y - 4.0f}, c.metal);
    for (const float side : {0.25f, 0.75f}) {
        const float y = low.y + side * (high.y - low.y);
        drawing.line({claw - 6.0f, y}, {claw + 46.0f, y}, c.metal, 3.0f);
    }
    const Lines& names = desk.kept("hook names", [&] {
        Lines all;
        for (int hook = 0; hook < hooks; ++hook)
            all.push_back(desk.say(Phrase("bench.hook").with("hook", hook + 1)));
        return all;
    });
    std::optional<int> pressed;
    for (int hook = 0; hook < hooks; ++hook) {
        const auto spring =
            std::find_if(fitted.begin(), fitted.end(), [&](const auto& s) { return s.hook == hook; });
        const float y = middle(hook, bay.hook_mm.size());
        const std::string id = "now.springs.hook[" + std::to_string(hook) + "]";
        ImGui::SetCursorScreenPos({low.x, y - 0.5f * row});
        if (pressable(desk, id, {high.x - low.x, row}))
            pressed = hook;
        if (ImGui::IsItemHovered())
            ImGui::GetWindowDrawList()->AddRectFilled(low_of_item(), high_of_item(), faded(c.wash, 0.6f));
        const bool on = spring != fitted.end();
        if (on)
            drawing.spring({block - 6.0f, middle(spring->hole, bay.hole_mm.size())}, {claw + 4.0f, y}, c.ink,
                           1.8f, 7.0f);
        drawing.ring({claw + 4.0f, y}, 5.0f, c.ink, 1.5f);
        if (on)
            drawing.dot({claw + 4.0f, y}, 3.0f, c.accent);
        drawing.label({high.x - 34.0f, y - 0.5f * desk.theme.fonts.small->FontSize}, std::to_string(hook + 1),
                      on ? c.accent : c.faint);
        declare(desk, id, Role::checkbox, names[static_cast<std::size_t>(hook)], on ? "on" : "off");
    }
    ImGui::SetCursorPos(below);
    drawing.tell(desk.say("ui.springs_now"), desk.say("ui.hooks_legend"));
    draw_gone(desk, true);
    if (pressed)
        desk.bench.edit([&](Setup& s) { put_springs(s, toggled(bay, fitted, *pressed)); });
}

} // namespace counterpull
