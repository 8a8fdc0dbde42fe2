#include "shell/sheet_over_page.h"

#include "shell/views.h"
#include "shell/widget_parts.h"

#include <algorithm>

namespace counterpull {

namespace {

constexpr std::size_t worth_seeking = 9; // shorter lists are seen whole
constexpr float least_width = 260.0f, shade = 0.4f;

// Letters small, and dashes as `dash` has them.
std::string plain(std::string_view text, std::string_view dash) {
    std::string out;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const auto c = static_cast<unsigned char>(text[i]);
        const std::string_view rest = text.substr(i);
        const bool wide = rest.starts_with("–") || rest.starts_with("−");
        if (wide || c == '-')
            out += dash;
        else
            out += c >= 'A' && c <= 'Z' ? static_cast<char>(c + 'a' - 'A') : static_cast<char>(c);
        i += wide ? 2 : 0;
    }
    return out;
}

struct Place {
    ImVec2 low, size;
};

// As high as what it holds, as far as there is room.
Place place_of(const Desk& desk, ImVec2 screen, float wanted) {
    const OpenSheet& sheet = desk.view.sheet;
    if (desk.narrow) {
        const float height = std::min(wanted, 0.8f * screen.y);
        return {{0.0f, screen.y - height}, {screen.x, height}};
    }
    const float width = std::max(sheet.high.x - sheet.low.x, least_width);
    const float below = screen.y - sheet.high.y - 8.0f, above = sheet.low.y - 8.0f;
    const bool hangs = wanted <= below || below >= above;
    const float height = std::min(wanted, hangs ? below : above);
    return {{std::min(sheet.low.x, screen.x - width - 8.0f),
             hangs ? sheet.high.y + 2.0f : sheet.low.y - 2.0f - height},
            {width, height}};
}

std::vector<std::size_t> left_of(const OpenSheet& list) {
    std::vector<std::size_t> left;
    for (std::size_t i = 0; i < list.options.size(); ++i)
        if (list.sought.empty() || is_sought(list.options[i], list.sought))
            left.push_back(i);
    return left;
}

void draw_option(const Desk& desk, std::size_t index, bool keyboard_is_there) {
    OpenSheet& list = desk.view.sheet;
    const std::string& text = list.options[index];
    const Colours& c = desk.theme.colours;
    const bool is_current = text == list.current;
    ImFont* font = is_current ? desk.theme.fonts.strong : desk.theme.fonts.body;
    const float width = ImGui::GetContentRegionAvail().x;
    const std::string id = list.id + "/" + std::to_string(index);
    if (pressable(desk, id, {width, desk.theme.target()}))
        list.chosen = index;
    const ImVec2 low = low_of_item(), high = high_of_item();
    if (is_current || keyboard_is_there || ImGui::IsItemHovered())
        ImGui::GetWindowDrawList()->AddRectFilled(low, high, c.wash, desk.theme.radius());
    text_at(font, {low.x + 12.0f, low.y + 0.5f * (high.y - low.y - font->FontSize)}, c.ink, text);
    desk.controls.check_fit(text, size_of(font, text).x, width - 12.0f);
    declare(desk, id, Role::option, text, is_current ? "chosen" : "");
}

// Up and down, which bring their row into view, and Enter, whether or not something is being typed.
void take_keys(OpenSheet& list, const std::vector<std::size_t>& left, float row) {
    const std::size_t before = list.at;
    if (ImGui::IsKeyPressed(ImGuiKey_DownArrow) && list.at + 1 < left.size())
        ++list.at;
    if (ImGui::IsKeyPressed(ImGuiKey_UpArrow) && list.at > 0)
        --list.at;
    const float top = static_cast<float>(list.at) * row;
    if (list.at != before)
        ImGui::SetScrollY(std::min(top, std::max(ImGui::GetScrollY(), top + row - ImGui::GetWindowHeight())));
    if (!left.empty() && (ImGui::IsKeyPressed(ImGuiKey_Enter) || ImGui::IsKeyPressed(ImGuiKey_KeypadEnter)))
        list.chosen = left[std::min(list.at, left.size() - 1)];
}

void draw_list(const Desk& desk) {
    OpenSheet& list = desk.view.sheet;
    if (list.options.size() >= worth_seeking) {
        if (list.begins && !desk.theme.touch)
            begin_edit(desk, "list.sought", "");
        if (auto typed = text_field(desk, "list.sought", desk.say("ui.seek"), list.sought)) {
            list.sought = std::move(*typed);
            list.at = 0;
        }
    }
    const std::vector<std::size_t> left = left_of(list);
    const float row = desk.theme.target();
    ImGui::PushStyleVar(ImGuiStyleVar_ItemSpacing, ImVec2(0.0f, 0.0f));
    ImGui::BeginChild("list rows");
    if (list.begins) {
        const auto current = std::find(list.options.begin(), list.options.end(), list.current);
        if (current != list.options.end())
            list.at = static_cast<std::size_t>(current - list.options.begin());
        ImGui::SetScrollY((static_cast<float>(list.at) + 0.5f) * row - 0.5f * ImGui::GetWindowHeight());
    }
    take_keys(list, left, row);
    for (std::size_t i = 0; i < left.size(); ++i)
        draw_option(desk, left[i], i == list.at);
    if (left.empty())
        faint(desk, desk.say("ui.none_sought"));
    ImGui::EndChild();
    ImGui::PopStyleVar();
}

float height_of(const Desk& desk) {
    const OpenSheet& sheet = desk.view.sheet;
    const float target = desk.theme.target(), head = target + 26.0f;
    if (sheet.holds == OpenSheet::Holds::springs)
        return head + height_of_springs(desk);
    const float seek = sheet.options.size() >= worth_seeking ? target + 8.0f : 0.0f;
    return head + seek + target * static_cast<float>(sheet.options.size()) + 12.0f;
}

// What it is about, and the way out.
bool draw_head(const Desk& desk) {
    const std::string_view close = desk.say("ui.close");
    const float width = ImGui::GetContentRegionAvail().x;
    const float button_width = size_of(desk.theme.fonts.strong, close).x + 28.0f;
    const ImVec2 at = ImGui::GetCursorScreenPos();
    ImFont* font = desk.theme.fonts.strong;
    const std::string_view label = desk.view.sheet.label;
    text_at(font, {at.x, at.y + 0.5f * (desk.theme.target() - font->FontSize)}, desk.theme.colours.ink,
            label);
    desk.controls.check_fit(label, size_of(font, label).x, width - button_width - 8.0f);
    ImGui::SetCursorPosX(ImGui::GetCursorPosX() + width - button_width);
    return button(desk, "over.close", close);
}

} // namespace

bool is_sought(std::string_view text, std::string_view typed) {
    const std::string apart = plain(text, " "), joined = plain(text, ""), all = plain(typed, " ");
    for (std::size_t from = 0; from < all.size();) {
        const std::size_t end = std::min(all.find(' ', from), all.size());
        const std::string_view word = std::string_view(all).substr(from, end - from);
        if (apart.find(word) == std::string::npos && joined.find(word) == std::string::npos)
            return false;
        from = end + 1;
    }
    return true;
}

void open_list(const Desk& desk, std::string_view id, std::string_view label, std::string_view current,
               const Lines& options) {
    OpenSheet list;
    list.holds = OpenSheet::Holds::list;
    list.label = label;
    list.low = low_of_item();
    list.high = high_of_item();
    list.begins = true;
    list.id = id;
    list.current = current;
    list.options = options;
    desk.view.sheet = std::move(list);
}

void open_springs(const Desk& desk) {
    OpenSheet sheet;
    sheet.holds = OpenSheet::Holds::springs;
    sheet.label = desk.say("ui.springs_now");
    sheet.low = low_of_item();
    sheet.high = high_of_item();
    sheet.begins = true;
    desk.view.sheet = std::move(sheet);
}

std::optional<std::size_t> chosen_from_list(const Desk& desk, std::string_view id) {
    OpenSheet& list = desk.view.sheet;
    if (list.id != id || !list.chosen)
        return std::nullopt;
    const std::size_t chosen = *list.chosen;
    list = {};
    return chosen;
}

void draw_sheet_over_page(const Desk& desk, ImVec2 screen) {
    OpenSheet& sheet = desk.view.sheet;
    if (sheet.chosen) // its combobox is gone
        sheet = {};
    if (sheet.holds == OpenSheet::Holds::nothing)
        return;
    desk.controls.cover();
    const Colours& c = desk.theme.colours;
    ImGui::SetNextWindowPos({0.0f, 0.0f});
    ImGui::SetNextWindowSize(screen);
    ImGui::Begin("over the page", nullptr,
                 ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings |
                     ImGuiWindowFlags_NoScrollWithMouse | ImGuiWindowFlags_NoBackground);
    const Place place = place_of(desk, screen, height_of(desk));
    const ImVec2 high = {place.low.x + place.size.x, place.low.y + place.size.y};
    if (desk.narrow)
        ImGui::GetWindowDrawList()->AddRectFilled({0.0f, 0.0f}, screen, IM_COL32(0, 0, 0, 255.0f * shade));
    const bool beside = ImGui::IsMouseClicked(ImGuiMouseButton_Left) && !sheet.begins &&
                        !ImGui::IsMouseHoveringRect(place.low, high, false);
    ImGui::SetCursorScreenPos(place.low);
    ImGui::PushStyleColor(ImGuiCol_ChildBg, c.sheet);
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, ImVec2(16.0f, 10.0f));
    if (sheet.begins)
        ImGui::SetNextWindowFocus(); // what is typed into must lie in the window that has the focus
    ImGui::BeginChild("sheet over the page", place.size,
                      ImGuiChildFlags_Border | ImGuiChildFlags_AlwaysUseWindowPadding,
                      ImGuiWindowFlags_NoScrollbar | ImGuiWindowFlags_NoScrollWithMouse);
    ImGui::PopStyleVar();
    ImGui::PopStyleColor();
    bool leaves = draw_head(desk) || beside || ImGui::IsKeyPressed(ImGuiKey_Escape);
    if (sheet.holds == OpenSheet::Holds::springs)
        draw_springs_fitted(desk);
    else
        draw_list(desk);
    sheet.begins = false;
    ImGui::EndChild();
    ImGui::End();
    if (leaves || sheet.chosen)
        desk.view.editing.clear();
    if (leaves && !sheet.chosen)
        sheet = {};
}

} // namespace counterpull
