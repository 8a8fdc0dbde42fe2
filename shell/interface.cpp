#include "shell/interface.h"

#include "engine/base/embedded.h"
#include "engine/say/answer.h"
#include "engine/say/report_text.h"
#include "shell/sections.h"
#include "shell/sheet_over_page.h"
#include "shell/terms.h"
#include "shell/view_hearing.h"
#include "shell/views.h"
#include "shell/widgets.h"

#include <imgui_internal.h>

#include <algorithm>

namespace counterpull {

namespace {

// Below this the page is one column.
constexpr float two_columns = 820.0f;
constexpr float inputs_width = 400.0f;

void begin_sheet(const char* id, ImVec2 size, ImVec2 padding, bool scrolls) {
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, padding);
    ImGui::BeginChild(id, size, ImGuiChildFlags_AlwaysUseWindowPadding,
                      scrolls ? ImGuiWindowFlags_None
                              : ImGuiWindowFlags_NoScrollbar | ImGuiWindowFlags_NoScrollWithMouse);
    ImGui::PopStyleVar();
}

// What stays in sight however far the rest is scrolled.
void begin_pinned(const Desk& desk, ImVec2 padding) {
    ImGui::PushStyleColor(ImGuiCol_ChildBg, desk.theme.colours.sheet);
    ImGui::PushStyleVar(ImGuiStyleVar_WindowPadding, padding);
    ImGui::BeginChild("pinned answer", {0.0f, 0.0f},
                      ImGuiChildFlags_AutoResizeY | ImGuiChildFlags_AlwaysUseWindowPadding,
                      ImGuiWindowFlags_NoScrollbar);
    ImGui::PopStyleVar();
    ImGui::PopStyleColor();
}

// The sections of a place, one under the other.
void draw_folded(const Desk& desk, Section::Place place) {
    bool first = true;
    for (const Section& section : sections()) {
        if (section.place != place)
            continue;
        if (!first)
            rule(desk);
        first = false;
        draw_folding(desk, section);
    }
}

// What explains the answer: on a phone folded under the inputs.
bool explains(const Section& section) {
    return section.place != Section::Place::inputs && section.place != Section::Place::page;
}

// On a desk each on a card of its own.
void draw_cards(const Desk& desk, Section::Place place) {
    for (const Section& section : sections())
        if (section.place == place)
            card(desk, section.id, [&] {
                if (section.on_desk != Section::OnDesk::never_folds)
                    return draw_folding(desk, section);
                paragraph(desk, desk.say(section.title), desk.theme.fonts.strong, desk.theme.colours.ink);
                section.draw(desk);
            });
}

} // namespace

Interface::Interface(Setup setup) : bench_(std::move(setup)) {}

const std::string& Interface::answer() {
    return answer_in_words(bench_, words_, view_.kept);
}

std::string Interface::spoken() {
    std::string all;
    for (const Control& control : controls_.all())
        if (view_.at_bench.open && control.role == Role::status && !control.id.starts_with("term."))
            (all += control.value) += control.value.ends_with('.') ? " " : ". ";
    return all.empty() ? answer() : all;
}

std::string Interface::plain_text() const {
    return bench_.has_answer() ? forum_text(bench_.report(), words_) : "";
}

std::string Interface::sheet_json() const {
    if (!bench_.has_answer() || !bench_.report().next)
        return "{}";
    const Report& report = bench_.report();
    return counterpull::sheet_json(report, work_sheet(report, usual_way(report, view_.wedge)), words_);
}

bool Interface::load_fonts(float density) {
    if (made_for_.density != density && made_for_.density != 0.0f)
        view_.drawn_words.forget_pictures();
    MadeFor now{density, at_bench(), faces_taken_, view_.drawn_words.revision()};
    if (now == made_for_)
        return false;
    made_for_ = std::move(now);
    counterpull::load_fonts(theme_.fonts, density, faces_, view_.drawn_words, at_bench());
    return true;
}

void Interface::set_device_language(std::string_view code) {
    for (const Language& known : languages())
        if (known.code == code)
            device_language_ = code;
}

void Interface::speak(Words words) {
    words_ = std::move(words);
    words_.set_units(said_with_.units);
    words_.set_note_names(said_with_.note_names);
    view_.kept.forget();
}

std::string_view Interface::language() const {
    const std::string& chosen = view_.preferences.language;
    return chosen.empty() ? device_language_ : chosen;
}

void Interface::begin_own() {
    begin_own_guitar(bench_, view_);
}

void Interface::follow_screen(const Screen& screen) {
    const Paper paper = view_.preferences.paper;
    const bool dark = paper == Paper::system ? screen.prefers_dark : paper == Paper::dark;
    if (language() != words_.language() && !embedded_words(language()).empty())
        speak(Words(language()));
    if (view_.preferences != said_with_) {
        said_with_ = view_.preferences;
        words_.set_units(said_with_.units);
        words_.set_note_names(said_with_.note_names);
        view_.kept.forget();
    }
    if (!started_ && screen.width >= two_columns)
        for (const Section& section : sections())
            if (section.on_desk == Section::OnDesk::open)
                view_.open_sections.insert(section.id);
    started_ = true;
    if (themed_ && dark == theme_.dark && screen.touch == theme_.touch && screen.colours == demanded_)
        return;
    theme_.dark = dark;
    theme_.touch = screen.touch;
    demanded_ = screen.colours;
    theme_.colours = demanded_ ? demanded_colours((*demanded_)[0], (*demanded_)[1], (*demanded_)[2])
                     : dark    ? dark_colours()
                               : light_colours();
    apply(theme_);
    themed_ = true;
}

void Interface::frame(const Screen& screen) {
    follow_screen(screen);
    controls_.begin_frame();
    if (!ImGui::IsAnyItemActive() && view_.editing.empty() && view_.typing.empty())
        bench_.begin_step();
    ImGui::SetNextWindowPos({screen.inset_left, screen.inset_top});
    ImGui::SetNextWindowSize({screen.width - screen.inset_left - screen.inset_right,
                              screen.height - screen.inset_top - screen.inset_bottom});
    // The colour of the page stands behind notches too.
    ImGui::GetBackgroundDrawList()->AddRectFilled({0, 0}, {screen.width, screen.height},
                                                  theme_.colours.paper);
    ImGui::Begin("page", nullptr,
                 ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove | ImGuiWindowFlags_NoSavedSettings |
                     ImGuiWindowFlags_NoScrollWithMouse | ImGuiWindowFlags_NoBringToFrontOnFocus);
    const Desk desk{bench_,           words_,     theme_, controls_, view_, screen.width < two_columns,
                    screen.in_a_page, screen.calm};
    if (view_.at_bench.open)
        draw_bench(desk);
    else if (desk.narrow)
        draw_narrow(desk);
    else
        draw_wide(desk);
    ImGui::End();
    draw_sheet_over_page(desk, {screen.width, screen.height});
    draw_term(desk, {screen.width, screen.height});
    // The keyboard has gone on to another control: the edit ends with the last key that was meant for it.
    if (!view_.shown.empty() && GImGui->InputEventsQueue.empty()) {
        view_.editing.clear();
        view_.edit_begins = false;
    }
    controls_.end_frame();
    finish_listening(view_);
    if (view_.drawn_words.wanted() && view_.wish.empty())
        view_.wish = "draw";
}

void Interface::draw_wide(const Desk& desk) {
    begin_sheet("inputs", {inputs_width, 0.0f}, {24.0f, 18.0f}, true);
    draw_masthead(desk);
    draw_whose(desk);
    draw_folded(desk, Section::Place::inputs);
    rule(desk);
    draw_folded(desk, Section::Place::page);
    ImGui::EndChild();
    ImGui::SameLine(0.0f, 0.0f);
    ImGui::BeginChild("right", {0.0f, 0.0f}, ImGuiChildFlags_None,
                      ImGuiWindowFlags_NoScrollbar | ImGuiWindowFlags_NoScrollWithMouse);
    begin_pinned(desk, {20.0f, 14.0f});
    if (!bench_.setup().title.empty())
        faint(desk, desk.kept("title", [&] {
            return desk.name(bench_.setup().title);
        })); // the example's is translated
    draw_answer(desk);
    draw_bar(desk);
    ImGui::SameLine();
    draw_keeping(desk);
    ImGui::EndChild();
    rule(desk);
    begin_sheet("answers", {0.0f, 0.0f}, {20.0f, 14.0f}, true);
    if (bench_.has_answer())
        draw_columns(desk);
    draw_footer(desk);
    ImGui::EndChild();
    ImGui::EndChild();
}

void Interface::draw_columns(const Desk& desk) {
    // Lines longer than this are hard to read; where there is room for two such columns, what explains the
    // answer stands beside it.
    constexpr float longest_line = 980.0f, shortest_line = 620.0f, between = 16.0f;
    const float room = ImGui::GetContentRegionAvail().x;
    const bool beside = room >= 2.0f * shortest_line + between;
    const float width = std::min(beside ? 0.5f * (room - between) : room, longest_line);
    auto column = [&](const char* id, auto&& contents) {
        ImGui::BeginChild(id, {width, 0.0f}, fitted_sheet, ImGuiWindowFlags_NoScrollbar);
        contents();
        ImGui::EndChild();
    };
    column("answer column", [&] {
        card(desk, "picture card", [&] {
            draw_side_view(desk);
            for (const Section& section : sections())
                if (section.place == Section::Place::picture)
                    section.draw(desk);
        });
        card(desk, "details card", [&] { draw_details(desk); });
        draw_cards(desk, Section::Place::answer);
        if (!beside)
            draw_cards(desk, Section::Place::work);
    });
    if (!beside)
        return;
    ImGui::SameLine(0.0f, between);
    column("work column", [&] { draw_cards(desk, Section::Place::work); });
}

void Interface::draw_narrow(const Desk& desk) {
    begin_pinned(desk, {16.0f, 8.0f});
    if (whose(desk) != Whose::own)
        draw_masthead(desk);
    draw_whose(desk);
    draw_answer(desk);
    ImGui::EndChild();
    rule(desk);
    const float bar = theme_.target() + 22.0f;
    begin_sheet("sheet", {0.0f, -bar}, {16.0f, 6.0f}, true);
    draw_sentence(desk);
    if (bench_.has_answer()) {
        draw_side_view(desk);
        draw_details(desk);
        draw_keeping(desk);
        rule(desk);
    }
    draw_folded(desk, Section::Place::inputs);
    rule(desk);
    for (const Section& section : sections())
        if (explains(section) && bench_.has_answer()) {
            draw_folding(desk, section);
            rule(desk);
        }
    draw_folded(desk, Section::Place::page);
    rule(desk);
    draw_footer(desk);
    ImGui::EndChild();
    rule(desk);
    begin_sheet("bar", {0.0f, 0.0f}, {16.0f, 4.0f}, false);
    draw_bar(desk);
    ImGui::EndChild();
}

} // namespace counterpull
