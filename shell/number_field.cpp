// Fields for numbers: stepped, dragged, typed into, emptied.
#include "shell/entry.h"
#include "shell/refusals.h"
#include "shell/widget_parts.h"
#include "shell/widgets.h"

#include <imgui.h>

#include <cmath>

namespace counterpull {

namespace {

constexpr const char* not_read = "–"; // what a field without a number shows

// The label of a row, wrapped into what the control at its right leaves; returns its height.
float row_label(const Desk& desk, std::string_view label, std::string_view note, float width) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const Fonts& fonts = desk.theme.fonts;
    const float label_height = size_of(fonts.body, label, width).y;
    const float note_height = note.empty() ? 0.0f : size_of(fonts.small, note, width).y;
    desk.controls.check_fit(label, size_of(fonts.body, label, width).x, width);
    const float height = std::fmax(label_height + note_height, desk.theme.target());
    const float top = at.y + 0.5f * (height - label_height - note_height);
    marked_text(desk, fonts.body, {at.x, top}, desk.theme.colours.ink, label, width);
    if (!note.empty())
        text_at(fonts.small, {at.x, top + label_height}, desk.theme.colours.faint, note, width);
    return height;
}

// What is refused, under the row.
void refusal(const Desk& desk, std::string_view text) {
    if (!text.empty())
        warning(desk, text);
}

bool is_blank(std::string_view text) {
    return text.find_first_not_of(' ') == std::string_view::npos || text == not_read;
}

// To the grid of steps, so that 8.53 goes to 8.6 and then 8.7. Steps of which a whole number makes 1 lead to
// the very number that is typed.
double on_grid(double value, double step) {
    const double in_one = std::round(1.0 / step);
    return std::abs(in_one * step - 1.0) < 1e-9 ? std::round(value * in_one) / in_one
                                                : std::round(value / step) * step;
}

constexpr float drag_px_per_step = 10.0f;

// The number of the field just drawn, dragged sideways a step for every few pixels; nothing while it is not.
std::optional<double> dragged(const Desk& desk, std::string_view path, double value, double step) {
    ViewState& view = desk.view;
    if (!ImGui::IsItemActive()) {
        if (view.dragged == path)
            view.dragged.clear();
        return std::nullopt;
    }
    const float moved = ImGui::GetMouseDragDelta(ImGuiMouseButton_Left, 4.0f).x;
    if (view.dragged != path) {
        if (moved == 0.0f)
            return std::nullopt;
        view.dragged = path;
        view.dragged_from = value;
    }
    ImGui::SetMouseCursor(ImGuiMouseCursor_ResizeEW);
    const double steps = std::trunc(moved / drag_px_per_step);
    const double to = steps == 0.0 ? view.dragged_from : on_grid(view.dragged_from + steps * step, step);
    return to == value ? std::nullopt : std::optional<double>(to);
}

} // namespace

namespace {

MaybeEntered draw_field(const Desk& desk, std::string_view path, std::string_view label, double value,
                        const TextLook& look, bool may_be_empty, const ReadText& read) {
    const Colours& c = desk.theme.colours;
    const float target = desk.theme.target(), box_width = 92.0f;
    const float control_width = box_width + 2.0f * target + 8.0f;
    const ImVec2 start = ImGui::GetCursorPos();
    const float width = std::fmin(ImGui::GetContentRegionAvail().x, widest_row);
    const float height = row_label(desk, label, look.note, width - control_width - 10.0f);
    const Phrase* why = desk.bench.problem_at(path);
    const std::string problem = why ? reason_in_words(path, *why, desk.bench.setup(), desk.words) : "";
    const std::string* draft = desk.bench.draft_at(path);
    const std::string_view shown = draft ? *draft : look.shown;

    MaybeEntered entered;
    std::optional<std::string> refused;
    auto take_text = [&](const std::string& text) {
        const bool emptied = may_be_empty && is_blank(text);
        const std::optional<double> number = emptied ? std::nullopt : read(text);
        entered = emptied || number ? MaybeEntered(number) : std::nullopt;
        refused = entered ? std::nullopt : std::optional(text);
    };

    const float top = start.y + 0.5f * (height - target);
    const float left = start.x + width - control_width;
    auto step = [&](const char* sign, const char* said, float x, double by) {
        const std::string id = std::string(path) += sign;
        ImGui::SetCursorPos({x, top});
        if (pressable(desk, id, {target, target}, true))
            entered = on_grid(value + by, look.step);
        box(desk, face_of(desk), c.line);
        centred(desk, said, c.accent, desk.theme.fonts.strong);
        declare(desk, id, Role::button, (std::string(label) += " ") += said);
    };
    step("-", "−", left, -look.step);
    ImGui::SetCursorPos({left + target + 4.0f, top});
    if (desk.view.editing == path) {
        if (edit_line(desk, path, {box_width, target}))
            take_text(desk.view.edit_text);
    } else {
        const bool was_dragged = desk.view.dragged == path;
        const bool pressed = invisible_button(path, {box_width, target}) && !was_dragged;
        if (const auto to = dragged(desk, path, value, look.step))
            entered = to;
        focus_frame(desk, path);
        if (ImGui::IsItemHovered())
            ImGui::SetMouseCursor(ImGuiMouseCursor_TextInput);
        box(desk, face_of(desk), problem.empty() ? c.line : c.warning);
        centred(desk, shown, problem.empty() ? c.ink : c.warning, desk.theme.fonts.strong);
        if (pressed && !desk.theme.touch) // on touch the page lays a real field over this one
            begin_edit(desk, path, shown == not_read ? "" : shown);
    }
    if (const auto request = desk.controls.take_request(path))
        take_text(*request);
    desk.controls.declare(
        {path, Role::spinbutton, label, shown, problem, true, low_of_item(), high_of_item(), look.typed});
    step("+", "+", left + target + box_width + 8.0f, look.step);
    ImGui::SetCursorPos({start.x, start.y + height});
    space(0.0f);
    refusal(desk, problem);
    // Only now, since what is shown above may be the draft.
    if (entered)
        desk.bench.drop_draft(path);
    else if (refused)
        desk.bench.draft(std::string(path), *refused,
                         is_blank(*refused) ? Phrase("refused.empty")
                                            : Phrase(look.refusal).with("found", *refused));
    return entered;
}

struct NumberText {
    std::string shown, note;
};

MaybeEntered draw_number(const Desk& desk, std::string_view path, std::string_view label,
                         std::optional<double> value, const NumberLook& look, bool may_be_empty) {
    const Measure of = measured_in(look.unit);
    const Units units = desk.words.units();
    auto said = [&](double v) {
        std::string text = desk.say(Amount{v, look.digits, of, look.sign, false, true});
        if (of == Measure::number && !look.unit.empty())
            (text += " ") += look.unit;
        return text;
    };
    const NumberText& text = desk.kept(path, [&] {
        const bool unusual = look.usual && value && std::abs(*look.usual - *value) > 1e-9;
        return NumberText{value ? said(*value) : not_read,
                          unusual ? desk.say(Phrase("ui.usual").with("value", said(*look.usual)))
                                  : std::string(look.note)};
    });
    return draw_field(desk, path, label, value.value_or(0.0),
                      {text.shown, step_in_units(look.step, of, units), "refused.not_number", text.note,
                       look.sign ? Typed::signed_number : Typed::number},
                      may_be_empty,
                      [of, units](std::string_view typed) { return parse_amount(typed, of, units); });
}

} // namespace

std::optional<double> stepper_field(const Desk& desk, std::string_view path, std::string_view label,
                                    double value, const TextLook& look, const ReadText& read) {
    return draw_field(desk, path, label, value, look, false, read).value_or(std::nullopt);
}

std::optional<double> number_field(const Desk& desk, std::string_view path, std::string_view label,
                                   double value, const NumberLook& look) {
    return draw_number(desk, path, label, value, look, false).value_or(std::nullopt);
}

MaybeEntered maybe_field(const Desk& desk, std::string_view path, std::string_view label,
                         const std::optional<double>& value, const NumberLook& look) {
    return draw_number(desk, path, label, value, look, true);
}

} // namespace counterpull
