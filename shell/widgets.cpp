#include "shell/widgets.h"
#include "engine/format.h"

#include "shell/entry.h"

#include <imgui.h>
#include <imgui_internal.h>

#include <cmath>

namespace counterpull {

namespace {

ImVec2 low_of_item() {
    return ImGui::GetItemRectMin();
}
ImVec2 high_of_item() {
    return ImGui::GetItemRectMax();
}

void declare(const Desk& desk, const std::string& id, Role role, const std::string& label,
             const std::string& value = {}, const std::string& problem = {}) {
    desk.controls.declare({id, role, label, value, problem, true, low_of_item(), high_of_item()});
}

// Where the keyboard is: a frame that does not lean on colour.
void focus_frame(const Desk& desk, const std::string& id) {
    const bool shown = desk.view.shown == id;
    if (shown && desk.view.show_begins) {
        desk.view.show_begins = false;
        ImGui::ScrollToItem(ImGuiScrollFlags_KeepVisibleEdgeY);
    }
    if (!shown && (!ImGui::IsItemFocused() || !ImGui::GetIO().NavVisible))
        return;
    const ImVec2 low = low_of_item(), high = high_of_item();
    ImGui::GetWindowDrawList()->AddRect({low.x - 3, low.y - 3}, {high.x + 3, high.y + 3},
                                        desk.theme.colours.ink, desk.theme.radius() + 3, 0, 2.0f);
}

// A pressable area with its background; true when pressed by any means.
bool pressable(const Desk& desk, const std::string& id, ImVec2 size, bool repeat = false) {
    if (repeat)
        ImGui::PushButtonRepeat(true);
    const bool pressed = ImGui::InvisibleButton(id.c_str(), size);
    if (repeat)
        ImGui::PopButtonRepeat();
    focus_frame(desk, id);
    if (ImGui::IsItemHovered())
        ImGui::SetMouseCursor(ImGuiMouseCursor_Hand);
    return desk.controls.take_request(id).has_value() || pressed;
}

ImU32 face_of(const Desk& desk) {
    const Colours& c = desk.theme.colours;
    return ImGui::IsItemHovered() || ImGui::IsItemActive() ? c.wash : c.sheet;
}

void box(const Desk& desk, ImU32 face, ImU32 edge) {
    ImDrawList* draw = ImGui::GetWindowDrawList();
    draw->AddRectFilled(low_of_item(), high_of_item(), face, desk.theme.radius());
    draw->AddRect(low_of_item(), high_of_item(), edge, desk.theme.radius());
}

void centred(const Desk& desk, const std::string& text, ImU32 colour, ImFont* font) {
    const ImVec2 low = low_of_item(), high = high_of_item(), size = size_of(font, text);
    text_at(font, {low.x + 0.5f * (high.x - low.x - size.x), low.y + 0.5f * (high.y - low.y - size.y)},
            colour, text);
    desk.controls.check_fit(text, size.x, high.x - low.x);
}

// The label of a row, wrapped into what the control at its right leaves; returns its height.
float row_label(const Desk& desk, const std::string& label, const std::string& note, float width) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const Fonts& fonts = desk.theme.fonts;
    const float label_height = size_of(fonts.body, label, width).y;
    const float note_height = note.empty() ? 0.0f : size_of(fonts.small, note, width).y;
    desk.controls.check_fit(label, size_of(fonts.body, label, width).x, width);
    const float height = std::fmax(label_height + note_height, desk.theme.target());
    const float top = at.y + 0.5f * (height - label_height - note_height);
    text_at(fonts.body, {at.x, top}, desk.theme.colours.ink, label, width);
    if (!note.empty())
        text_at(fonts.small, {at.x, top + label_height}, desk.theme.colours.faint, note, width);
    return height;
}

// Up to three lines of refusal under a row, in the warning colour with a mark before it.
void refusal(const Desk& desk, const std::string& text) {
    if (!text.empty())
        warning(desk, text);
}

// The arrow of a list that opens (down) or a section (right when closed).
void arrow(const Desk& desk, ImVec2 centre, bool down) {
    ImDrawList* draw = ImGui::GetWindowDrawList();
    const float r = 4.5f;
    const ImU32 colour = desk.theme.colours.accent;
    if (down)
        draw->AddTriangleFilled({centre.x - r, centre.y - 0.6f * r}, {centre.x + r, centre.y - 0.6f * r},
                                {centre.x, centre.y + 0.8f * r}, colour);
    else
        draw->AddTriangleFilled({centre.x - 0.6f * r, centre.y - r}, {centre.x - 0.6f * r, centre.y + r},
                                {centre.x + 0.8f * r, centre.y}, colour);
}

std::string problem_text(const Desk& desk, const std::string& path) {
    const Phrase* why = desk.bench.problem_at(path);
    return why ? desk.words.say(*why) : std::string();
}

void begin_edit(const Desk& desk, const std::string& path, const std::string& text) {
    desk.view.editing = path;
    desk.view.edit_text = text;
    desk.view.edit_begins = true;
}

int grow_text(ImGuiInputTextCallbackData* data) {
    auto* text = static_cast<std::string*>(data->UserData);
    text->resize(static_cast<std::size_t>(data->BufTextLen));
    data->Buf = text->data();
    return 0;
}

// The text line of a field being typed into. True while the text changes; ends the edit on Enter or on
// leaving.
bool edit_line(const Desk& desk, const std::string& path, ImVec2 size) {
    ImGui::SetNextItemWidth(size.x);
    const float pad = 0.5f * (size.y - desk.theme.fonts.body->FontSize);
    ImGui::PushStyleVar(ImGuiStyleVar_FramePadding, ImVec2(8.0f, pad));
    if (desk.view.edit_begins)
        ImGui::SetKeyboardFocusHere();
    std::string& text = desk.view.edit_text;
    const bool changed = ImGui::InputText(
        ("##edit " + path).c_str(), text.data(), text.capacity() + 1,
        ImGuiInputTextFlags_AutoSelectAll | ImGuiInputTextFlags_CallbackResize, grow_text, &text);
    ImGui::PopStyleVar();
    const bool begun = !desk.view.edit_begins;
    if (ImGui::IsItemActive())
        desk.view.edit_begins = false;
    if (begun && (ImGui::IsItemDeactivated() || !ImGui::IsItemActive()))
        desk.view.editing.clear();
    return changed;
}

constexpr float drag_px_per_step = 10.0f;

// The number of the field just drawn, dragged sideways a step for every few pixels; nothing while it is not.
std::optional<double> dragged(const Desk& desk, const std::string& path, double value, double step) {
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
    const double to =
        steps == 0.0 ? view.dragged_from : std::round((view.dragged_from + steps * step) / step) * step;
    return to == value ? std::nullopt : std::optional<double>(to);
}

} // namespace

void space(float height) {
    ImGui::Dummy({0.0f, height});
}

void rule(const Desk& desk) {
    const ImVec2 at = ImGui::GetCursorScreenPos();
    ImGui::GetWindowDrawList()->AddLine(at, {at.x + ImGui::GetContentRegionAvail().x, at.y},
                                        desk.theme.colours.line);
    space(1.0f);
}

bool button(const Desk& desk, const std::string& id, const std::string& label, bool primary) {
    ImFont* font = desk.theme.fonts.strong;
    const ImVec2 size = {size_of(font, label).x + 28.0f, desk.theme.target()};
    const bool pressed = pressable(desk, id, size);
    const Colours& c = desk.theme.colours;
    box(desk, primary ? c.accent : face_of(desk), primary ? c.accent : c.line);
    centred(desk, label, primary ? c.on_accent : c.accent, font);
    declare(desk, id, Role::button, label);
    return pressed;
}

bool toggle(const Desk& desk, const std::string& id, const std::string& label, bool& on) {
    const Colours& c = desk.theme.colours;
    const float width = ImGui::GetContentRegionAvail().x, track = 44.0f, knob = 9.0f;
    const float text_width = width - track - 12.0f;
    const float height = std::fmax(desk.theme.target(), size_of(desk.theme.fonts.body, label, text_width).y);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const bool pressed = pressable(desk, id, {width, height});
    if (pressed)
        on = !on;
    const ImVec2 text = size_of(desk.theme.fonts.body, label, text_width);
    text_at(desk.theme.fonts.body, {at.x, at.y + 0.5f * (height - text.y)}, c.ink, label, text_width);
    ImDrawList* draw = ImGui::GetWindowDrawList();
    const ImVec2 low = {at.x + width - track, at.y + 0.5f * height - 12.0f},
                 high = {low.x + track, low.y + 24.0f};
    draw->AddRectFilled(low, high, on ? c.accent : c.sheet, 12.0f);
    draw->AddRect(low, high, on ? c.accent : c.faint, 12.0f, 0, 1.5f);
    draw->AddCircleFilled({on ? high.x - 12.0f : low.x + 12.0f, low.y + 12.0f}, knob,
                          on ? c.on_accent : c.faint);
    declare(desk, id, Role::checkbox, label, on ? "on" : "off");
    return pressed;
}

bool section(const Desk& desk, const std::string& id, const std::string& title, const std::string& summary) {
    const Colours& c = desk.theme.colours;
    const Fonts& fonts = desk.theme.fonts;
    bool open = desk.view.open_sections.contains(id);
    const float width = ImGui::GetContentRegionAvail().x;
    const float title_height = fonts.strong->FontSize;
    const float summary_height =
        open || summary.empty() ? 0.0f : size_of(fonts.small, summary, width - 26.0f).y + 2.0f;
    const float height = std::fmax(desk.theme.target() + 4.0f, title_height + summary_height + 14.0f);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    if (pressable(desk, id, {width, height})) {
        open = !open;
        if (open)
            desk.view.open_sections.insert(id);
        else
            desk.view.open_sections.erase(id);
    }
    if (ImGui::IsItemHovered())
        ImGui::GetWindowDrawList()->AddRectFilled({at.x - 6, at.y}, {at.x + width + 6, at.y + height}, c.wash,
                                                  desk.theme.radius());
    const float top = at.y + 0.5f * (height - title_height - summary_height);
    arrow(desk, {at.x + 7.0f, top + 0.5f * title_height}, open);
    text_at(fonts.strong, {at.x + 22.0f, top}, c.ink, title);
    if (summary_height > 0.0f)
        text_at(fonts.small, {at.x + 22.0f, top + title_height + 2.0f}, c.faint, summary, width - 26.0f);
    desk.controls.check_fit(title, size_of(fonts.strong, title).x, width - 22.0f);
    declare(desk, id, Role::heading, title, open ? "open" : "closed");
    return open;
}

std::optional<std::size_t> choice(const Desk& desk, const std::string& id, const std::string& label,
                                  const std::string& current, const std::vector<std::string>& options) {
    const Colours& c = desk.theme.colours;
    const Fonts& fonts = desk.theme.fonts;
    const float width = ImGui::GetContentRegionAvail().x;
    paragraph(desk, label, fonts.small, c.faint);
    ImGui::SetCursorPosY(ImGui::GetCursorPosY() - 4.0f);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    // Named from outside, an option is chosen without opening the list.
    std::optional<std::size_t> chosen;
    const auto request = desk.controls.take_request(id);
    for (std::size_t i = 0; request && i < options.size(); ++i)
        if (options[i] == *request)
            chosen = i;
    const bool pressed_here = pressable(desk, id, {width, desk.theme.target()});
    if (pressed_here || (request && !chosen))
        desk.view.list_open = desk.view.list_open == id ? "" : id;
    const bool open = desk.view.list_open == id;
    box(desk, face_of(desk), open ? c.accent : c.line);
    desk.controls.check_fit(current, size_of(fonts.body, current).x, width - 40.0f);
    ImGui::PushClipRect(at, {at.x + width - 28.0f, at.y + desk.theme.target()}, true);
    text_at(fonts.body, {at.x + 12.0f, at.y + 0.5f * (desk.theme.target() - fonts.body->FontSize)}, c.ink,
            current);
    ImGui::PopClipRect();
    arrow(desk, {at.x + width - 18.0f, at.y + 0.5f * desk.theme.target()}, true);
    desk.controls.declare(
        {id, Role::combobox, label, current, "", true, low_of_item(), high_of_item(), Typed::text, options});

    if (!open)
        return chosen;
    for (std::size_t i = 0; i < options.size(); ++i) {
        const ImVec2 row = ImGui::GetCursorScreenPos();
        const std::string row_id = id + "/" + std::to_string(i);
        ImGui::SetCursorPosY(ImGui::GetCursorPosY() - 4.0f);
        const bool pressed = pressable(desk, row_id, {width, desk.theme.target()});
        const bool is_current = options[i] == current;
        ImGui::GetWindowDrawList()->AddRectFilled(low_of_item(), high_of_item(),
                                                  is_current || ImGui::IsItemHovered() ? c.wash : c.sheet);
        text_at(is_current ? fonts.strong : fonts.body,
                {row.x + 12.0f, low_of_item().y + 0.5f * (desk.theme.target() - fonts.body->FontSize)}, c.ink,
                options[i]);
        desk.controls.check_fit(options[i], size_of(fonts.strong, options[i]).x, width - 12.0f);
        declare(desk, row_id, Role::option, options[i], is_current ? "chosen" : "");
        if (pressed)
            chosen = i;
    }
    space(2.0f);
    if (chosen)
        desk.view.list_open.clear();
    return chosen;
}

std::optional<double> stepper_field(const Desk& desk, const std::string& path, const std::string& label,
                                    double value, const TextLook& look) {
    const Colours& c = desk.theme.colours;
    const float target = desk.theme.target(), box_width = 92.0f;
    const float control_width = box_width + 2.0f * target + 8.0f;
    const ImVec2 start = ImGui::GetCursorPos();
    const float width = ImGui::GetContentRegionAvail().x;
    const float height =
        row_label(desk, label, look.usual.value_or(look.note), width - control_width - 10.0f);
    const std::string problem = problem_text(desk, path);
    const std::string* draft = desk.bench.draft_at(path);
    const std::string shown = draft ? *draft : look.show(value);

    std::optional<double> entered;
    auto take_text = [&](const std::string& text) {
        const std::optional<double> read = look.read(text);
        if (read) {
            desk.bench.drop_draft(path);
            entered = read;
        } else {
            desk.bench.draft(path, text, Phrase(look.refusal).with("found", text));
        }
    };

    const float top = start.y + 0.5f * (height - target);
    const float left = start.x + width - control_width;
    auto step = [&](const char* sign, float x, double by) {
        ImGui::SetCursorPos({x, top});
        if (pressable(desk, path + sign, {target, target}, true)) {
            desk.bench.drop_draft(path);
            // To the grid of steps, so that 8.53 goes to 8.6 and then 8.7.
            entered = std::round((value + by) / look.step) * look.step;
        }
        box(desk, face_of(desk), c.line);
        centred(desk, sign[0] == '-' ? "−" : "+", c.accent, desk.theme.fonts.strong);
        declare(desk, path + sign, Role::button, label + (sign[0] == '-' ? " −" : " +"));
    };
    step("-", left, -look.step);
    ImGui::SetCursorPos({left + target + 4.0f, top});
    if (desk.view.editing == path) {
        if (edit_line(desk, path, {box_width, target}))
            take_text(desk.view.edit_text);
    } else {
        const bool was_dragged = desk.view.dragged == path;
        const bool pressed = ImGui::InvisibleButton(path.c_str(), {box_width, target}) && !was_dragged;
        if (const auto to = dragged(desk, path, value, look.step)) {
            desk.bench.drop_draft(path);
            entered = to;
        }
        focus_frame(desk, path);
        if (ImGui::IsItemHovered())
            ImGui::SetMouseCursor(ImGuiMouseCursor_TextInput);
        box(desk, face_of(desk), problem.empty() ? c.line : c.warning);
        centred(desk, shown, problem.empty() ? c.ink : c.warning, desk.theme.fonts.strong);
        if (pressed && !desk.theme.touch) // on touch the page lays a real field over this one
            begin_edit(desk, path, shown);
    }
    if (const auto request = desk.controls.take_request(path))
        take_text(*request);
    desk.controls.declare(
        {path, Role::spinbutton, label, shown, problem, true, low_of_item(), high_of_item(), look.typed});
    step("+", left + target + box_width + 8.0f, look.step);
    ImGui::SetCursorPos({start.x, start.y + height});
    space(0.0f);
    refusal(desk, problem);
    return entered;
}

TextLook number_look(const Desk& desk, const NumberLook& look, double value) {
    const Measure of = measured_in(look.unit);
    const Units units = desk.words.units();
    auto show = [&desk, look, of](double v) {
        const std::string said = desk.say(Amount{v, look.digits, of, look.sign, false, true});
        return of != Measure::number || look.unit.empty() ? said : said + " " + look.unit;
    };
    TextLook text{show,
                  [of, units](std::string_view t) { return parse_amount(t, of, units); },
                  step_in_units(look.step, of, units),
                  "refused.not_number",
                  look.note,
                  {}};
    if (look.usual && std::abs(*look.usual - value) > 1e-9)
        text.usual = desk.say(Phrase("ui.usual").with("value", show(*look.usual)));
    text.typed = look.sign ? Typed::signed_number : Typed::number;
    return text;
}

std::optional<double> number_field(const Desk& desk, const std::string& path, const std::string& label,
                                   double value, const NumberLook& look) {
    return stepper_field(desk, path, label, value, number_look(desk, look, value));
}

void card(const Desk& desk, const char* id, const std::function<void()>& contents) {
    const Colours& c = desk.theme.colours;
    ImGui::PushStyleColor(ImGuiCol_ChildBg, c.sheet);
    ImGui::PushStyleColor(ImGuiCol_Border, c.line);
    ImGui::PushStyleVar(ImGuiStyleVar_ChildRounding, desk.theme.radius());
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, ImVec2(16.0f, 12.0f));
    ImGui::BeginChild(id, {0.0f, 0.0f}, ImGuiChildFlags_Border | fitted_sheet,
                      ImGuiWindowFlags_NoScrollbar | ImGuiWindowFlags_NoScrollWithMouse);
    contents();
    ImGui::EndChild();
    ImGui::PopStyleVar(2);
    ImGui::PopStyleColor(2);
}

} // namespace counterpull
