// The set-up in one sentence, whose parts are what can be changed: for a phone, where it is seen whole.
#include "engine/base/format.h"
#include "engine/document/placed_springs.h"
#include "engine/say/names.h"
#include "shell/entry.h"
#include "shell/inputs.h"
#include "shell/refusals.h"
#include "shell/sheet_over_page.h"
#include "shell/views.h"
#include "shell/widget_parts.h"
#include "shell/widgets.h"

#include <imgui.h>

#include <cmath>

namespace counterpull {

namespace {

constexpr double level_mm = 0.05; // a tail that is no further off is said to be level

// What comes next in the sentence stands beside what was before, or begins a line. `gap` 0 joins the two.
void go_on(float width, float gap) {
    ImGui::SameLine(0.0f, gap);
    if (gap > 0.0f && ImGui::GetContentRegionAvail().x < width)
        ImGui::NewLine();
}

void put_word(const Desk& desk, std::string_view word) {
    ImFont* font = desk.theme.fonts.body;
    const ImVec2 at = ImGui::GetCursorScreenPos(), size = size_of(font, word);
    text_at(font, {at.x, at.y + 0.5f * (desk.theme.target() - size.y)}, desk.theme.colours.ink, word);
    ImGui::Dummy({size.x, desk.theme.target()});
}

// A part that is pressed: underlined, so that it does not lean on its colour. True when pressed.
bool put_part(const Desk& desk, std::string_view id, std::string_view text, bool refused = false) {
    const Colours& c = desk.theme.colours;
    ImFont* font = desk.theme.fonts.strong;
    const ImVec2 size = size_of(font, text);
    const float room = ImGui::GetContentRegionAvail().x;
    if (room < size.x)
        ImGui::NewLine();
    desk.controls.check_fit(text, size.x, ImGui::GetContentRegionAvail().x);
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const bool pressed = invisible_button(id, {size.x, desk.theme.target()});
    focus_frame(desk, id);
    if (ImGui::IsItemHovered())
        ImGui::SetMouseCursor(ImGuiMouseCursor_Hand);
    const float top = at.y + 0.5f * (desk.theme.target() - size.y);
    const ImU32 colour = refused ? c.warning : c.accent;
    text_at(font, {at.x, top}, colour, text);
    ImGui::GetWindowDrawList()->AddLine({at.x, top + size.y + 1.0f}, {at.x + size.x, top + size.y + 1.0f},
                                        colour, 1.5f);
    return pressed;
}

std::optional<std::size_t> pick_part(const Desk& desk, std::string_view id, std::string_view label,
                                     std::string_view current, const Lines& options) {
    const bool pressed = put_part(desk, id, current);
    return picked(desk, id, label, current, options, pressed);
}

// A number that is typed. `said` is how the sentence has it, `shown` how it is typed.
std::optional<double> number_part(const Desk& desk, std::string_view path, std::string_view label,
                                  std::string_view said, std::string_view shown, Typed typed,
                                  const ReadText& read) {
    const std::string id = "said." + std::string(path);
    const std::string* draft = desk.bench.draft_at(path);
    const Phrase* why = desk.bench.problem_at(path);
    std::optional<std::string> text = desk.controls.take_request(id);
    if (desk.view.editing == id) {
        if (edit_line(desk, id, {92.0f, desk.theme.target()}))
            text = desk.view.edit_text;
    } else if (put_part(desk, id, draft ? std::string_view(*draft) : said, why != nullptr) &&
               !desk.theme.touch) {
        begin_edit(desk, id, shown);
    }
    desk.controls.declare({id, Role::spinbutton, label, draft ? std::string_view(*draft) : shown,
                           why ? reason_in_words(path, *why, desk.bench.setup(), desk.words) : std::string(),
                           true, low_of_item(), high_of_item(), typed});
    if (!text)
        return std::nullopt;
    const auto entered = read(*text);
    if (entered)
        desk.bench.drop_draft(path);
    else
        desk.bench.draft(std::string(path), *text,
                         text->find_first_not_of(' ') == std::string::npos
                             ? Phrase("refused.empty")
                             : Phrase("refused.not_number").with("found", *text));
    return entered;
}

struct TailText {
    std::string said, shown;
};

// "1 mm low", "level".
std::string tail_in_words(const Desk& desk, double mm) {
    if (std::abs(mm) < level_mm)
        return std::string(desk.say("ui.said_level"));
    return desk.say(Phrase(mm < 0.0 ? "ui.said_low" : "ui.said_high")
                        .with("mm", Amount{std::abs(mm), 2, Measure::length, false, false, true}));
}

std::optional<double> tail_part(const Desk& desk, std::string_view path, const char* label, double mm) {
    const TailText& text = desk.kept(std::string("said ") += path, [&] {
        return TailText{tail_in_words(desk, mm), desk.say(signed_millimetres(mm, 2))};
    });
    const Units units = desk.words.units();
    return number_part(
        desk, path, desk.say(label), text.said, text.shown, Typed::signed_number,
        [units](std::string_view typed) { return parse_amount(typed, Measure::length, units); });
}

void springs_part(const Desk& desk) {
    struct Text {
        std::string said, spoken;
    };
    const Text& text = desk.kept("said springs", [&] {
        const Arrangement& fitted = desk.bench.setup().now.springs;
        Text made{desk.say(Phrase("ui.said_springs").with("count", fitted.size())), {}};
        made.spoken = made.said + ", " + desk.say(Phrase("ui.on_hooks").with("hooks", hooks_of(fitted)));
        return made;
    });
    const bool pressed = put_part(desk, "said.now.springs", text.said);
    if (pressed || desk.controls.take_request("said.now.springs"))
        open_springs(desk);
    declare(desk, "said.now.springs", Role::button, text.spoken);
}

void owned_part(const Desk& desk) {
    const std::string& count =
        desk.kept("said owned", [&] { return std::to_string(springs_owned(desk.bench.setup())); });
    if (const auto entered =
            number_part(desk, "guitar.springs_owned", desk.say("ui.springs_owned"), count, count,
                        Typed::number, [](std::string_view typed) { return parse_number(typed); }))
        desk.bench.edit([&](Setup& s) { s.guitar.springs_owned = static_cast<int>(std::lround(*entered)); });
}

void put_part_named(const Desk& desk, std::string_view name, bool next) {
    const Setup& setup = desk.bench.setup();
    constexpr const char* before = "said.";
    if (name == "set" && next)
        pick_strings(desk, Side::next, pick_part, before);
    else if (name == "set")
        pick_strings(desk, Side::now, pick_part, before);
    else if (name == "tuning" && next)
        pick_tuning(desk, Side::next, pick_part, before);
    else if (name == "tuning")
        pick_tuning(desk, Side::now, pick_part, before);
    else if (name == "springs")
        springs_part(desk);
    else if (name == "owned")
        owned_part(desk);
    else if (name == "bridge")
        pick_bridge(desk, pick_part, before);
    else if (name == "scale")
        pick_scale(desk, pick_part, before);
    else if (next) {
        if (const auto mm = tail_part(desk, "next.tail_mm", "ui.tail_next", setup.next.tail_mm))
            desk.bench.edit([&](Setup& s) { s.next.tail_mm = *mm; });
    } else if (const auto mm = tail_part(desk, "now.tail_mm", "ui.tail_now", setup.now.tail_mm)) {
        desk.bench.edit([&](Setup& s) {
            s.now.tail_mm = *mm;
            s.now.tail_sides_mm.reset();
        });
    }
}

// The sentence of a key, its {parts} where the language has them. What stands against a part without a blank
// stays with it.
void say_sentence(const Desk& desk, const char* key, bool next) {
    const std::string_view text = desk.say(key);
    const float blank = desk.theme.fonts.body->GetCharAdvance(' ');
    float gap = -1.0f; // nothing is before
    for (std::size_t at = 0; at < text.size();) {
        if (text[at] == ' ') {
            gap = blank;
            ++at;
            continue;
        }
        const bool part = text[at] == '{';
        const std::size_t end =
            part ? text.find('}', at) + 1 : std::min(text.find_first_of(" {", at), text.size());
        const std::string_view word = text.substr(at, end - at);
        if (gap >= 0.0f)
            go_on(part ? 0.0f : size_of(desk.theme.fonts.body, word).x, gap);
        if (part)
            put_part_named(desk, word.substr(1, word.size() - 2), next);
        else
            put_word(desk, word);
        gap = 0.0f;
        at = end;
    }
}

} // namespace

void draw_sentence(const Desk& desk) {
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(0.0f, 0.0f));
    say_sentence(desk, desk.bench.setup().now.in_tune ? "ui.said_now" : "ui.said_now_off", false);
    say_sentence(desk, "ui.said_next", true);
    say_sentence(desk, "ui.said_guitar", false);
    ImGui::PopStyleVar();
    const std::string& known = desk.kept("said known", [&] {
        const auto& basis = desk.bench.setup().guitar.basis;
        const auto measured = std::count_if(
            basis.begin(), basis.end(), [](const auto& entry) { return entry.second == Basis::measured; });
        return desk.say(Phrase("ui.said_known").with("count", static_cast<int>(measured)));
    });
    faint(desk, known);
}

} // namespace counterpull
