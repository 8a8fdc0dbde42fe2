// A table of the strings from low to high: what each shows, how far it is from where it is wanted, which way
// to turn its tuner, and a bar that shortens toward there.
#include "shell/view_hearing.h"

#include "engine/say/names.h"
#include "shell/views.h"
#include "shell/widget_parts.h"
#include "shell/widgets.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

constexpr float longest_bar_cents = 150.0f;
constexpr float roomy_row = 370.0f;

const std::vector<Pitch>& tuning_of(const Setup& setup, Which tuning) {
    return tuning == Which::now ? setup.now.tuning : setup.next.tuning;
}
const PerString& offsets_of(const Setup& setup, Which tuning) {
    return tuning == Which::now ? setup.now.offset_cents : setup.next.offset_cents;
}

const std::vector<StringTarget>& strings_to_hear(const Desk& desk, Which tuning) {
    return desk.kept(tuning == Which::now ? "strings heard now" : "strings heard next", [&] {
        Problems problems;
        return targets_of(desk.bench.answered(), tuning, {}, problems);
    });
}

std::vector<StringTarget> targets_for(const Desk& desk, const ListenFor& wanted) {
    std::vector<StringTarget> targets = strings_to_hear(desk, wanted.tuning);
    for (std::size_t i = 0; i < std::min(targets.size(), wanted.around_cents.size()); ++i)
        targets[i].expected_cents = wanted.around_cents[i];
    for (std::size_t i = 0; i < std::min(targets.size(), wanted.expected_cents.size()); ++i)
        if (const auto& expected = wanted.expected_cents[i]) {
            targets[i].expected = true;
            targets[i].expected_cents = *expected;
        }
    return targets;
}

bool same(const std::vector<StringTarget>& a, const std::vector<StringTarget>& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                      [](const StringTarget& x, const StringTarget& y) {
                          return x.hz == y.hz && x.expected == y.expected &&
                                 x.expected_cents == y.expected_cents && x.inharmonicity == y.inharmonicity;
                      });
}

// The page is told of what is listened for now, where that is something else.
void keep_telling(const Desk& desk, const ListenFor& wanted) {
    Hearing& hearing = desk.view.hearing;
    std::vector<StringTarget> targets = targets_for(desk, wanted);
    if (same(targets, hearing.targets) || !desk.view.wish.empty())
        return;
    hearing.listen_for(std::move(targets));
    desk.view.wish = "listen";
}

// A filled circle in a ring beside the button: it listens, seen from afar.
void draw_mark(const Desk& desk) {
    const ImVec2 high = high_of_item();
    const ImVec2 centre = {high.x + 20.0f, 0.5f * (low_of_item().y + high.y)};
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.AddCircleFilled(centre, 6.0f, desk.theme.colours.accent);
    list.AddCircle(centre, 10.0f, desk.theme.colours.accent, 0, 2.0f);
}

void draw_button(const Desk& desk, const ListenFor& wanted) {
    Hearing& hearing = desk.view.hearing;
    const bool on = hearing.on_for(wanted.id);
    const std::string_view label = desk.say(!on                                   ? "hearing.listen"
                                            : hearing.state == Hearing::State::on ? "hearing.stop"
                                                                                  : "hearing.asked");
    const bool pressed = button(desk, wanted.id, label, on);
    if (on && hearing.state == Hearing::State::on)
        draw_mark(desk);
    if (!pressed)
        return;
    hearing = {};
    desk.view.wish = "deaf";
    if (on)
        return;
    hearing.state = Hearing::State::asked;
    hearing.place = wanted.id;
    hearing.listen_for(targets_for(desk, wanted));
    desk.view.wish = "listen";
}

void draw_bar(const Desk& desk, ImVec2 at, float width, float thick, double to_go) {
    const Colours& c = desk.theme.colours;
    const auto far = static_cast<float>(std::abs(to_go));
    const float share = std::min(1.0f, std::log1p(far) / std::log1p(longest_bar_cents));
    ImDrawList& list = *ImGui::GetWindowDrawList();
    list.AddRectFilled({at.x, at.y - 1.0f}, {at.x + width, at.y + 1.0f}, c.line);
    list.AddRectFilled({at.x, at.y - 0.5f * thick},
                       {at.x + std::max(3.0f, share * width), at.y + 0.5f * thick}, c.accent);
}

std::string_view way_of(const Desk& desk, double to_go) {
    return desk.say(std::abs(to_go) <= stands_cents ? "hearing.there"
                    : to_go > 0.0                   ? "hearing.tighten"
                                                    : "hearing.loosen");
}

struct Row {
    std::string name, heard, to_go;
    std::string_view way;
};

Row row_of(const Desk& desk, const ListenFor& wanted, std::size_t string, const std::optional<Live>& shows,
           double to_go) {
    const Setup& setup = desk.bench.answered();
    const std::vector<Pitch>& tuning = tuning_of(setup, wanted.tuning);
    Row row{std::to_string(tuning.size() - string) + "  " + desk.say(tuning[string]), {}, {}, {}};
    if (!shows) {
        row.heard = desk.say("hearing.not_yet");
        return row;
    }
    row.heard =
        desk.say(shown_by_tuner(tuning[string], offsets_of(setup, wanted.tuning).at(string) + shows->cents));
    row.to_go =
        desk.say(signed_number(-to_go, 0)) + " ± " + desk.say(number(std::max(1.0, shows->sigma_cents), 0));
    if (wanted.toward == ListenFor::Toward::aim ||
        (wanted.toward == ListenFor::Toward::stop && std::abs(to_go) <= stands_cents))
        row.way = way_of(desk, to_go);
    return row;
}

void draw_row(const Desk& desk, const ListenFor& wanted, std::size_t string) {
    const auto shows = shows_now(desk.view.hearing, string);
    const double aim = string < wanted.wanted_cents.size() ? wanted.wanted_cents[string] : 0.0;
    const double to_go = shows ? aim - shows->cents : 0.0;
    const Row row = row_of(desk, wanted, string, shows, to_go);
    const Theme& theme = desk.theme;
    const float width = std::min(ImGui::GetContentRegionAvail().x, widest_row);
    const bool due = wanted.due == string;
    // The one that is played is seen from afar.
    ImFont* font = !due ? theme.fonts.body : width >= roomy_row ? theme.fonts.answer : theme.fonts.strong;
    const float thick = due ? 12.0f : 6.0f;
    const float height = font->FontSize + thick + 10.0f;
    const ImVec2 at = ImGui::GetCursorScreenPos();
    ImGui::Dummy({width, height});
    const auto put = [&](float from, float to, std::string_view text, ImU32 colour) {
        text_at(font, {at.x + from * width, at.y}, colour, text);
        desk.controls.check_fit(text, size_of(font, text).x, (to - from) * width);
    };
    const Colours& c = theme.colours;
    put(0.0f, 0.16f, row.name, c.ink);
    put(0.17f, shows ? 0.42f : 1.0f, row.heard, shows ? c.ink : c.faint);
    put(0.43f, 0.71f, row.to_go, c.ink);
    put(0.72f, 1.0f, row.way, c.ink);
    if (shows && wanted.toward != ListenFor::Toward::nothing)
        draw_bar(desk, {at.x, at.y + font->FontSize + 3.0f + 0.5f * thick}, width, thick, to_go);
    const std::string id = std::string(wanted.id) + "[" + row.name.substr(0, row.name.find(' ')) + "]",
                      told = row.heard + (shows ? ", " : "") + row.to_go + (row.way.empty() ? "" : ", ") +
                             std::string(row.way);
    desk.controls.declare({id, Role::status, row.name, told, "", true, at, {at.x + width, at.y + height}});
}

} // namespace

bool can_listen(const Desk& desk, Which tuning) {
    return desk.in_a_page && desk.bench.has_answer() && !desk.bench.outdated() &&
           !strings_to_hear(desk, tuning).empty();
}

std::optional<Live> shows_now(const Hearing& hearing, std::size_t string) {
    if (hearing.live && hearing.live->string == string)
        return hearing.live;
    if (string < hearing.last.size() && hearing.last[string].heard)
        return Live{string, hearing.last[string].cents, hearing.last[string].sigma_cents};
    return std::nullopt;
}

bool draw_listening(const Desk& desk, const ListenFor& wanted) {
    if (!can_listen(desk, wanted.tuning))
        return false;
    Hearing& hearing = desk.view.hearing;
    draw_button(desk, wanted);
    const bool on = hearing.on_for(wanted.id);
    hearing.drawn = hearing.drawn || on;
    if (on)
        keep_telling(desk, wanted);
    else
        faint(desk, desk.say("hearing.private"));
    if (hearing.place == wanted.id && !hearing.note.empty()) {
        const ImVec2 low = ImGui::GetCursorScreenPos();
        warning(desk, hearing.note);
        desk.controls.declare({wanted.id + ".note", Role::status, desk.say("hearing.listen"), hearing.note,
                               "", true, low, ImGui::GetItemRectMax()});
    }
    if (hearing.state != Hearing::State::on || !on)
        return false;
    for (std::size_t i = 0; i < hearing.targets.size(); ++i)
        draw_row(desk, wanted, i);
    return true;
}

void finish_listening(ViewState& view) {
    if (view.hearing.state != Hearing::State::off && !view.hearing.drawn && view.wish.empty()) {
        view.hearing = {};
        view.wish = "deaf";
    }
    view.hearing.drawn = false;
}

} // namespace counterpull
