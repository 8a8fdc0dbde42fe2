// Whose guitar is on the page: an example, one that came by a link, or the reader's own, with its name.
#include "engine/document/choices.h"
#include "shell/views.h"
#include "shell/widgets.h"

#include <imgui.h>

#include <algorithm>

namespace counterpull {

namespace {

const Setup& example() {
    static const Setup setup = example_setup();
    return setup;
}

// The page has to leave the guitar in its notebook before another one is begun; where there is none, it is
// begun here.
void begin_own(const Desk& desk) {
    if (desk.in_a_page)
        desk.view.wish = "own";
    else
        begin_own_guitar(desk.bench, desk.view);
}

void make_mine(const Desk& desk) {
    if (desk.bench.setup().title == example().title)
        desk.bench.edit([](Setup& s) { s.title.clear(); });
    desk.view.whose = Whose::own;
    if (desk.in_a_page)
        desk.view.wish = "mine";
}

// What it is, and the button that is most wanted beside it. True when that is pressed.
bool draw_head(const Desk& desk, const std::string& text, std::string_view id, std::string_view label) {
    ImFont* font = desk.theme.fonts.strong;
    const float width = ImGui::GetContentRegionAvail().x, button_width = size_of(font, label).x + 28.0f;
    const float room = width - button_width - 10.0f, target = desk.theme.target();
    const std::string_view shown = drawable(desk, *font, text);
    const ImVec2 at = ImGui::GetCursorScreenPos(), cursor = ImGui::GetCursorPos(),
                 size = size_of(font, shown, room);
    const float height = std::max(size.y, target);
    text_at(font, {at.x, at.y + 0.5f * (height - size.y)}, desk.theme.colours.warning, shown, room);
    desk.controls.declare(
        {"whose", Role::status, desk.say("ui.whose"), text, "", true, at, {at.x + room, at.y + height}});
    ImGui::SetCursorPos({cursor.x + width - button_width, cursor.y + 0.5f * (height - target)});
    const bool pressed = button(desk, id, label, true);
    ImGui::SetCursorPos({cursor.x, cursor.y + height + 4.0f});
    space(0.0f);
    return pressed;
}

void draw_name(const Desk& desk) {
    const Setup& setup = desk.bench.setup();
    const std::string_view another = desk.say("ui.another_guitar");
    const float button_width = size_of(desk.theme.fonts.strong, another).x + 28.0f;
    const ImVec2 at = ImGui::GetCursorPos();
    const float width = ImGui::GetContentRegionAvail().x;
    if (auto name =
            text_field(desk, "title", desk.say("ui.name_it"), setup.title, width - button_width - 8.0f))
        desk.bench.edit([&](Setup& s) { s.title = std::move(*name); });
    ImGui::SetCursorPos({at.x + width - button_width, at.y});
    if (button(desk, "whose.another", another))
        begin_own(desk);
    const bool& unsaid = desk.kept("unsaid", [&] {
        Setup usual = usual_setup(desk.bench.bridge_preset());
        usual.title = setup.title;
        return setup == usual;
    });
    if (unsaid)
        paragraph(desk, desk.say(desk.narrow ? "ui.say_yours" : "ui.say_yours_desk"), desk.theme.fonts.body,
                  desk.theme.colours.accent);
}

} // namespace

Whose whose(const Desk& desk) {
    return desk.bench.setup().title == example().title ? Whose::example : desk.view.whose;
}

void begin_own_guitar(Workbench& bench, ViewState& view) {
    constexpr int usual_bridge = 4; // presets/bridges.json
    for (const BridgePreset& preset : presets().bridges)
        if (preset.number == usual_bridge)
            bench.begin(usual_setup(preset));
    view.whose = Whose::own;
}

void draw_whose(const Desk& desk) {
    const Whose of = whose(desk);
    if (of == Whose::own)
        return draw_name(desk);
    const bool is_example = of == Whose::example;
    const std::string& text = desk.kept("whose", [&] {
        const std::string& title = desk.bench.setup().title;
        if (title.empty())
            return std::string(desk.say("ui.a_link"));
        return desk.say(
            Phrase(is_example ? "ui.an_example" : "ui.a_link_of").with("title", PresetName{title}));
    });
    if (is_example) {
        if (draw_head(desk, text, "whose.own", desk.say("ui.my_guitar")))
            begin_own(desk);
        if (desk.bench.can_undo() && button(desk, "whose.mine", desk.say("ui.now_mine")))
            make_mine(desk);
        return;
    }
    if (draw_head(desk, text, "whose.mine", desk.say("ui.is_mine")))
        make_mine(desk);
    if (button(desk, "whose.own", desk.say("ui.another_guitar")))
        begin_own(desk);
}

} // namespace counterpull
