// The drawing of a step at the bench: what the tuner shall show, how far the screws go, which hooks, where
// the wedge goes.
#include "shell/view_bench.h"

#include "engine/base/format.h"
#include "engine/say/names.h"
#include "shell/drawing.h"
#include "shell/views.h"
#include "shell/widgets.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <numbers>

namespace counterpull {

namespace {

constexpr float least_large = 64.0f; // px; legible from two metres
constexpr float turning_s = 2.4f;    // a dial takes so long to show its turn

// The faces are made anew a frame after the bench has opened.
ImFont* large_face(const Desk& desk) {
    return desk.theme.fonts.large ? desk.theme.fonts.large : desk.theme.fonts.answer;
}

// Text that is read from where the guitar lies: as large as one line of it may be, in two lines where that
// would be too small.
void large_text(const Desk& desk, std::string_view id, std::string_view name, const std::string& text) {
    ImFont* font = large_face(desk);
    const float room = ImGui::GetContentRegionAvail().x;
    auto scale_for = [&](std::string_view line) {
        return std::min(1.0f, room / std::max(1.0f, size_of(font, line).x));
    };
    const std::size_t blank = text.find(' ');
    const bool one_line = blank == std::string::npos || scale_for(text) * font->FontSize >= least_large;
    const ImVec2 low = ImGui::GetCursorScreenPos();
    for (std::string_view rest = text; !rest.empty();) {
        const std::string_view line = one_line ? rest : rest.substr(0, rest.find(' '));
        rest.remove_prefix(std::min(rest.size(), line.size() + 1));
        const float size = font->FontSize * scale_for(line);
        ImGui::GetWindowDrawList()->AddText(font, size, ImGui::GetCursorScreenPos(), desk.theme.colours.ink,
                                            line.data(), line.data() + line.size());
        ImGui::Dummy({room, size});
    }
    desk.controls.declare({id, Role::status, name, text, "", true, low, ImGui::GetItemRectMax()});
}

ImVec2 on_circle(ImVec2 centre, float radius, double angle) {
    return {centre.x + radius * static_cast<float>(std::sin(angle)),
            centre.y - radius * static_cast<float>(std::cos(angle))};
}

// A screw's head as a clock face, its slot turned as far as the arc goes: clockwise is in. Whole turns wind
// inward.
void draw_dial(const Desk& desk, const Drawing& drawing, ImVec2 centre, float radius, double turns) {
    const Colours& c = desk.theme.colours;
    drawing.ring(centre, radius, c.faint, 1.5f);
    for (int hour = 0; hour < 12; ++hour) {
        const double angle = hour * std::numbers::pi / 6.0;
        drawing.line(on_circle(centre, radius * (hour % 3 == 0 ? 0.86f : 0.92f), angle),
                     on_circle(centre, radius, angle), c.faint, 1.5f);
    }
    const double full = 2.0 * std::numbers::pi * turns;
    const float outer = 0.78f * radius,
                in_a_turn = std::min(0.13f, 0.42f / std::max(1.0f, std::abs(static_cast<float>(turns))));
    auto on_arc = [&](double angle) {
        const auto wound = static_cast<float>(std::abs(angle) / (2.0 * std::numbers::pi));
        return on_circle(centre, outer - in_a_turn * radius * wound, angle);
    };
    const int pieces = 4 + static_cast<int>(std::abs(turns) * 48.0);
    std::vector<ImVec2> arc;
    for (int i = 0; i <= pieces; ++i)
        arc.push_back(on_arc(full * i / pieces));
    drawing.lines(arc, false, c.accent, 4.0f);
    const ImVec2 tip = arc.back();
    const double along = full + (turns >= 0.0 ? 0.5 : -0.5) * std::numbers::pi;
    drawing.filled(
        {on_circle(tip, 9.0f, along), on_circle(tip, 8.0f, along + 2.2), on_circle(tip, 8.0f, along - 2.2)},
        c.accent);
    const float slot = 0.24f * radius;
    drawing.line(on_circle(centre, slot, full), on_circle(centre, -slot, full), c.ink, 5.0f);
}

void draw_dials(const Desk& desk, const Step& step) {
    BenchScreen& screen = desk.view.at_bench;
    screen.moved_s += ImGui::GetIO().DeltaTime;
    screen.moves = !desk.calm && screen.moved_s < turning_s;
    const double share = screen.moves ? std::min(1.0, screen.moved_s / (0.8 * turning_s)) : 1.0;
    const float width = std::min(ImGui::GetContentRegionAvail().x, 420.0f),
                radius = std::min(0.22f * width, 84.0f);
    const Drawing drawing(desk, "job.dials", 2.0f * radius + 26.0f);
    const char* const names[] = {"whatif.bass_screw", "whatif.treble_screw"};
    for (std::size_t i = 0; i < 2; ++i) {
        const ImVec2 centre = {drawing.low().x + (i == 0 ? 0.25f : 0.75f) * width,
                               drawing.low().y + radius + 2.0f};
        draw_dial(desk, drawing, centre, radius, share * step.turns[i]);
        drawing.label({centre.x, centre.y + radius + 4.0f}, desk.say(names[i]), desk.theme.colours.ink, 0.5f);
    }
}

// The turns large, which way beside them.
void draw_turn(const Desk& desk, const Step& step) {
    struct Text {
        std::string turns, way;
    };
    const Text& text = desk.kept("job.turns", [&] {
        const double turns = std::abs(step.turns[0]);
        return Text{turns < least_turn ? desk.say(number(turns, 2)) : turns_in_eighths(turns),
                    desk.say(Phrase(step.turns[0] > 0.0 ? "bench.clockwise" : "bench.counter")
                                 .with("decimal", number(turns, 2)))};
    });
    const ImVec2 at = ImGui::GetCursorScreenPos();
    large_text(desk, "job.turns", text.way, text.turns);
    const float left = size_of(large_face(desk), text.turns).x + 20.0f, height = ImGui::GetItemRectSize().y;
    ImFont* font = desk.theme.fonts.answer;
    const float room = ImGui::GetItemRectSize().x - left;
    const ImVec2 size = size_of(font, text.way, room);
    text_at(font, {at.x + left, at.y + 0.5f * (height - size.y)}, desk.theme.colours.ink, text.way, room);
    desk.controls.check_fit(text.way, size.y, height);
    draw_dials(desk, step);
}

struct AimText {
    std::string head, shown, rest;
};

void draw_aim(const Desk& desk, const AimText& aim) {
    paragraph(desk, aim.head, desk.theme.fonts.answer, desk.theme.colours.faint);
    large_text(desk, "job.aim", aim.head, aim.shown);
    faint(desk, aim.rest);
    space(6.0f);
}

AimText aim_of(const Desk& desk, const Phrase& head, int string, double cents) {
    const Setup& setup = desk.bench.setup();
    const std::size_t place = setup.next.tuning.size() - static_cast<std::size_t>(string);
    const Pitch& note = setup.next.tuning[place];
    const double from_note = setup.next.offset_cents.at(place) + cents;
    return {desk.say(head), desk.say(shown_by_tuner(note, from_note)),
            desk.say(Phrase("bench.from_wanted")
                         .with("note", Parts{note})
                         .with("cents", signed_number(cents, 0))
                         .with("hz", number(frequency_hz(note, setup.a4_hz, from_note), 2)))};
}

void draw_tune(const Desk& desk, const Step& step) {
    const Aim& aim = due_aim(desk, step);
    const std::size_t count = std::max<std::size_t>(1, aims_of(desk, step).size());
    const std::size_t at = std::min(desk.view.at_bench.string, count - 1);
    draw_aim(desk, desk.kept("job.aim of " + std::to_string(at), [&] {
        return aim_of(
            desk,
            Phrase("bench.tune_string").with("string", aim.string).with("number", at + 1).with("of", count),
            aim.string, aim.cents);
    }));
}

void draw_turn_until(const Desk& desk, const Step& step) {
    draw_aim(desk, desk.kept("job.stop", [&] {
        return aim_of(desk, Phrase("bench.until").with("string", step.string), step.string, step.cents);
    }));
}

} // namespace

bool draw_step_aim(const Desk& desk, const DueStep& due) {
    const Step& step = due.bench.step;
    if (step.kind == StepKind::tune)
        draw_tune(desk, step);
    else if (step.kind == StepKind::turn_until)
        draw_turn_until(desk, step);
    return step.kind == StepKind::tune || step.kind == StepKind::turn_until;
}

void draw_step_picture(const Desk& desk, const DueStep& due) {
    const Step& step = due.bench.step;
    switch (step.kind) {
    case StepKind::turn:
        return draw_turn(desk, step);
    case StepKind::turn_until:
        return draw_dials(desk, step);
    case StepKind::springs:
        return draw_springs_to_move(desk, due.at.springs, step.off, step.on);
    case StepKind::wedge_in:
        return draw_wedge(desk);
    default:
        return;
    }
}

} // namespace counterpull
