// Tables of texts.
#include "shell/widgets.h"

#include <imgui.h>

#include <algorithm>

namespace counterpull {

namespace {

constexpr float widest = 560.0f;
constexpr float least_gap = 10.0f;

std::string in_a_line(const Lines& heads, const std::vector<Lines>& rows) {
    std::string text;
    for (const auto& row : rows) {
        text += (text.empty() ? "" : "; ") + row[0];
        for (std::size_t i = 1; i < row.size(); ++i)
            text += ", " + heads[i] + " " + row[i];
    }
    return text;
}

} // namespace

void table(const Desk& desk, std::string_view id, std::string_view title, const Lines& heads,
           const std::vector<Lines>& rows) {
    const Colours& c = desk.theme.colours;
    ImFont* font = desk.narrow ? desk.theme.fonts.small : desk.theme.fonts.body;
    std::vector<float> widths(heads.size());
    auto measure = [&](const Lines& row) {
        for (std::size_t i = 0; i < row.size(); ++i)
            widths[i] = std::max(widths[i], size_of(font, row[i]).x);
    };
    measure(heads);
    std::for_each(rows.begin(), rows.end(), measure);
    const float there_is = std::min(ImGui::GetContentRegionAvail().x, widest);
    float needed = 0.0f;
    for (const float width : widths)
        needed += width;
    const auto gaps = static_cast<float>(std::max<std::size_t>(1, heads.size() - 1));
    desk.controls.check_fit(title, needed + gaps * least_gap, there_is);
    const float gap = std::max(least_gap, (there_is - needed) / gaps);
    const ImVec2 low = ImGui::GetCursorScreenPos();
    auto draw = [&](const Lines& row, ImU32 colour) {
        const ImVec2 at = ImGui::GetCursorScreenPos();
        float right = at.x;
        for (std::size_t i = 0; i < row.size(); ++i) {
            right += widths[i] + (i > 0 ? gap : 0.0f);
            text_at(font, {i == 0 ? at.x : right - size_of(font, row[i]).x, at.y}, colour, row[i]);
        }
        ImGui::Dummy({there_is, font->FontSize});
    };
    draw(heads, c.faint);
    for (const auto& row : rows)
        draw(row, c.ink);
    desk.controls.declare({id,
                           Role::status,
                           title,
                           desk.kept(id, [&] { return in_a_line(heads, rows); }),
                           "",
                           true,
                           low,
                           {low.x + there_is, ImGui::GetItemRectMax().y}});
}

} // namespace counterpull
