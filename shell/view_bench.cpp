// The bench: one step of the job fills the screen.
#include "shell/view_bench.h"

#include "engine/document/job.h"
#include "engine/say/names.h"
#include "shell/refusals.h"
#include "shell/views.h"
#include "shell/widget_parts.h"
#include "shell/widgets.h"

#include <imgui_internal.h>

#include <algorithm>

namespace counterpull {

namespace {

constexpr float widest = 760.0f;
constexpr float low_screen = 560.0f; // a phone on its side
constexpr double after_typing_s = 0.5, after_a_step_s = 0.35;

bool is_end(StepKind kind) {
    return kind == StepKind::finished || kind == StepKind::cannot;
}
bool is_last_string(const Desk& desk, const Step& step) {
    return step.kind != StepKind::tune || desk.view.at_bench.string + 1 >= aims_of(desk, step).size();
}

// Nothing is typed yet for the step that is due now.
void begin_anew(const Desk& desk) {
    BenchScreen fresh;
    fresh.open = fresh.begins = true;
    fresh.edition = desk.bench.edition();
    fresh.framed = desk.view.at_bench.framed;
    fresh.tellings = desk.view.hearing.tellings;
    fresh.done_at_s = desk.view.hearing.seconds; // what was heard before is of the step before
    fresh.deaf_until = ImGui::GetTime() + after_a_step_s;
    desk.view.at_bench = std::move(fresh);
    desk.view.hearing.begin_anew();
    desk.bench.drop_drafts_of("job.");
}

void leave(const Desk& desk) {
    desk.view.at_bench = {};
    desk.bench.drop_drafts_of("job.");
    desk.view.wish = "asleep";
}

void press_done(const Desk& desk, const DueStep& due) {
    BenchScreen& screen = desk.view.at_bench;
    if (!is_last_string(desk, due.bench.step)) {
        next_string(desk, due.bench.step);
        return;
    }
    if (desk.bench.has_drafts_of("job.") || !is_answered(desk, due)) {
        screen.refused = desk.say("bench.missing");
        return;
    }
    finish_step(desk, answer_typed(desk, due));
}

// To the string before, to the step behind a question, or to the step before.
void go_back(const Desk& desk) {
    BenchScreen& screen = desk.view.at_bench;
    if (screen.shows != BenchScreen::Shows::step) {
        if (screen.shows == BenchScreen::Shows::screw) {
            screen.turned.reset(); // as told after all
            desk.bench.drop_drafts_of("job.turned");
        }
        screen.show(BenchScreen::Shows::step);
    } else if (screen.string > 0) {
        --screen.string;
        screen.aims.reset(); // what was heard since is of another string's turn
        screen.pass.clear();
        screen.begins = true;
    } else if (Setup before = desk.bench.setup(); take_back_last_step(before)) {
        // What was entered before that step comes back with it where it was done on this page.
        const Setup* undone = desk.bench.undone_to();
        const auto steps = before.bench->done.size();
        if (undone && (undone->bench ? undone->bench->done.size() : 0) == steps)
            return desk.bench.undo();
        desk.bench.begin_step();
        desk.bench.edit([&](Setup& setup) { setup = std::move(before); });
    }
}

bool can_go_back(const Desk& desk) {
    const BenchScreen& screen = desk.view.at_bench;
    const auto& begun = desk.bench.setup().bench;
    return screen.shows != BenchScreen::Shows::step || screen.string > 0 || (begun && !begun->done.empty());
}

void draw_head(const Desk& desk, std::string_view title) {
    const float width = ImGui::GetContentRegionAvail().x, target = desk.theme.target();
    const ImVec2 at = ImGui::GetCursorScreenPos();
    const std::string_view label = desk.say("bench.leave");
    const float button_width = size_of(desk.theme.fonts.strong, label).x + 28.0f;
    ImFont* font = desk.theme.fonts.strong;
    const float room = width - button_width - 8.0f;
    const ImVec2 size = size_of(font, title, room);
    text_at(font, {at.x, at.y + 0.5f * (target - size.y)}, desk.theme.colours.faint, title, room);
    desk.controls.check_fit(title, size.x, room);
    desk.controls.declare({"job.head",
                           Role::status,
                           desk.say("bench.title"),
                           title,
                           "",
                           true,
                           at,
                           {at.x + room, at.y + target}});
    ImGui::SetCursorPosX(ImGui::GetCursorPosX() + width - button_width);
    if (button(desk, "job.leave", label))
        leave(desk);
    rule(desk);
}

void said_line(const Desk& desk, std::string_view id, std::string_view name, const std::string& text,
               void (*draw)(const Desk&, std::string_view)) {
    const ImVec2 low = ImGui::GetCursorScreenPos();
    draw(desk, text);
    desk.controls.declare({id, Role::status, name, text, "", true, low, ImGui::GetItemRectMax()});
}

void draw_step(const Desk& desk, const DueStep& due) {
    const Step& step = due.bench.step;
    const bool aims = draw_step_aim(desk, due);
    if (aims)
        draw_step_heard(desk, due);
    const bool by_ear =
        step.kind == StepKind::tune && step.how != TuneHow::rough && desk.view.hearing.on_for("job.listen");
    said_line(
        desk, "job.say", due.head, by_ear ? std::string(desk.say("hearing.tune")) : due.said.say,
        aims ? body : [](const Desk& d, std::string_view text) {
            paragraph(d, text, d.theme.fonts.answer, d.theme.colours.ink);
        });
    if (is_end(step.kind))
        return draw_end(desk, due);
    for (std::size_t i = 0; i < due.said.cautions.size(); ++i)
        said_line(desk, "job.caution[" + std::to_string(i) + "]", desk.say("bench.caution"),
                  due.said.cautions[i], warning);
    draw_step_picture(desk, due);
    space(4.0f);
    if (!aims)
        draw_step_heard(desk, due);
    draw_asks(desk, due);
    draw_way(desk, due);
    const std::string& refused = desk.view.at_bench.refused;
    if (!refused.empty())
        said_line(desk, "job.refused", desk.say("bench.title"), refused, warning);
}

std::string_view done_label(const Desk& desk, const Step& step) {
    if (!is_last_string(desk, step))
        return desk.say("ui.next_string");
    if (step.kind == StepKind::tune && step.how == TuneHow::plain)
        return desk.say("bench.within");
    return desk.say(step.reading == ReadingKind::in_tune && !desk.view.at_bench.out_of_tune &&
                            step.kind == StepKind::read
                        ? "bench.done_in_tune"
                        : "bench.done");
}

// Done, and what else can be said of the step.
void draw_foot(const Desk& desk, const DueStep& due, float done_height) {
    BenchScreen& screen = desk.view.at_bench;
    const Step& step = due.bench.step;
    const bool asks = screen.shows == BenchScreen::Shows::step && !is_end(step.kind);
    const bool plain = step.kind == StepKind::tune && step.how == TuneHow::plain;
    if (asks) {
        float width = ImGui::GetContentRegionAvail().x;
        if (plain) {
            width = 0.5f * (width - 8.0f);
            const bool last = is_last_string(desk, step);
            if (wide_button(desk, last ? "job.again" : "job.within",
                            desk.say(last ? "bench.once_more" : "bench.within"), width, done_height, false)) {
                if (!last)
                    finish_step(desk, answer_typed(desk, due));
                screen.string = 0;
                screen.begins = true;
            }
            ImGui::SameLine(0.0f, 8.0f);
        }
        if (wide_button(desk, "job.done", done_label(desk, step), width, done_height, is_answered(desk, due)))
            press_done(desk, due);
    }
    if (can_go_back(desk)) {
        if (button(desk, "job.back", desk.say("ui.back")))
            go_back(desk);
        ImGui::SameLine();
    }
    if (asks && button(desk, "job.wrong", desk.say("bench.wrong")))
        screen.show(BenchScreen::Shows::mishaps);
}

// Done without aiming: a tap on the lower half, the space bar, Enter, or a foot switch, which sends some key
// to turn a page. While the keyboard is on a control, keys are that control's.
bool is_done_unaimed(const Desk& desk) {
    BenchScreen& screen = desk.view.at_bench;
    const ImGuiIO& io = ImGui::GetIO();
    const double now = ImGui::GetTime();
    const bool framed = std::exchange(screen.framed, io.NavVisible);
    if (!desk.view.editing.empty() || !desk.view.typing.empty()) {
        screen.deaf_until = now + after_typing_s;
        return false;
    }
    if (desk.view.term >= 0)
        screen.explained_until = now + after_typing_s;
    const float half = 0.5f * io.DisplaySize.y;
    const bool tapped = now >= screen.explained_until && ImGui::IsMouseReleased(ImGuiMouseButton_Left) &&
                        !ImGui::IsAnyItemHovered() && io.MouseClickedPos[0].y > half &&
                        io.MousePos.y > half && io.MouseDragMaxDistanceSqr[0] < 100.0f;
    bool pressed = false;
    for (const ImGuiKey key : {ImGuiKey_Space, ImGuiKey_Enter, ImGuiKey_KeypadEnter, ImGuiKey_PageDown,
                               ImGuiKey_RightArrow, ImGuiKey_DownArrow})
        pressed = pressed || ImGui::IsKeyPressed(key, false);
    if (framed)
        pressed = false;
    else if (pressed)
        GImGui->NavDisableHighlight = true; // it was no step to the next control
    return (tapped || pressed) && now >= screen.deaf_until;
}

} // namespace

const DueStep& due_step(const Desk& desk) {
    return desk.kept("job", [&] {
        const Report& report = desk.bench.report();
        DueStep due{bench(report), at_bench(report), {}, {}};
        due.said = said(report, due.bench, desk.words);
        due.head =
            is_end(due.bench.step.kind)
                ? std::string(desk.say("bench.title"))
                : desk.say(Phrase("bench.step").with("step", due.bench.number).with("of", due.bench.of));
        return due;
    });
}

bool wide_button(const Desk& desk, std::string_view id, std::string_view label, float width, float height,
                 bool primary) {
    const Colours& c = desk.theme.colours;
    ImFont* font = desk.theme.fonts.answer;
    const float room = width - 16.0f;
    if (size_of(font, label).x > room)
        font = desk.theme.fonts.strong;
    const ImVec2 size = size_of(font, label, room);
    const bool pressed = pressable(desk, id, {width, height});
    box(desk, primary ? c.accent : face_of(desk), primary ? c.accent : c.line);
    const ImVec2 low = low_of_item();
    text_at(font, {low.x + 0.5f * (width - size.x), low.y + 0.5f * (height - size.y)},
            primary ? c.on_accent : c.accent, label, room);
    desk.controls.check_fit(label, size.x, room);
    desk.controls.check_fit(label, size.y, height);
    declare(desk, id, Role::button, label);
    return pressed;
}

void finish_step(const Desk& desk, const Answer& answer) {
    BenchScreen& screen = desk.view.at_bench;
    Answered after = answered(desk.bench.report(), answer);
    if (!after.setup) {
        Problem told = after.problems.told.front();
        if (told.path == "tail_mm") // as the bench asked for it
            told.path = "job.tail_mm";
        screen.refused = refusal_in_words(told, desk.bench.setup(), desk.words);
        screen.show(BenchScreen::Shows::step);
        return;
    }
    if (after.setup->log.size() > desk.bench.setup().log.size())
        if (const ReportResult then = report(*after.setup); then.report)
            for (const Warning& told : then.report->warnings)
                if (told.kind == WarningKind::reading_unexpected) {
                    screen.doubt = desk.say(sentence_of(told));
                    screen.doubted = std::move(after.setup);
                    screen.show(BenchScreen::Shows::doubt);
                    return;
                }
    desk.bench.begin_step();
    desk.bench.edit([&](Setup& setup) { setup = std::move(*after.setup); });
}

// From the answer, and beside the work sheet.
void draw_bench_button(const Desk& desk, std::string_view id, bool wide) {
    const auto& begun = desk.bench.setup().bench;
    const bool goes_on = begun && !begun->done.empty();
    if (desk.bench.outdated() || (!desk.bench.report().next && !goes_on))
        return;
    const std::string& label = desk.kept("bench button", [&] {
        if (!goes_on)
            return std::string(desk.say("bench.begin"));
        const DueStep& due = due_step(desk);
        return is_end(due.bench.step.kind)
                   ? std::string(desk.say("bench.to_end"))
                   : desk.say(Phrase("bench.go_on").with("step", due.bench.number).with("of", due.bench.of));
    });
    if (!(wide ? wide_button(desk, id, label, ImGui::GetContentRegionAvail().x, desk.theme.target(), true)
               : button(desk, id, label, true)))
        return;
    begin_anew(desk);
    desk.view.wish = "awake";
}

void draw_bench(const Desk& desk) {
    BenchScreen& screen = desk.view.at_bench;
    if (screen.edition != desk.bench.edition())
        begin_anew(desk);
    screen.moves = false; // unless it is drawn
    const bool begins = std::exchange(screen.begins, false);
    if (begins)
        desk.bench.look_again(); // so that it is told, with the controls that it has now
    const ImVec2 all = ImGui::GetContentRegionAvail();
    const float width = std::min(all.x - 32.0f, widest);
    ImGui::SetCursorPos({0.5f * (all.x - width), 8.0f});
    ImGui::BeginChild("bench", {width, all.y - 8.0f}, ImGuiChildFlags_None, ImGuiWindowFlags_NoScrollbar);
    if (!desk.bench.has_answer() || !desk.bench.problems().none()) {
        draw_head(desk, desk.say("ui.no_answer"));
        draw_answer(desk);
        ImGui::EndChild();
        return;
    }
    const DueStep& due = due_step(desk);
    draw_head(desk, due.head);
    const bool low = all.y < low_screen;
    const float done_height = low ? 48.0f : 72.0f, between = ImGui::GetStyle().ItemSpacing.y;
    const bool has_done = screen.shows == BenchScreen::Shows::step && !is_end(due.bench.step.kind);
    const float foot =
        (has_done ? done_height + between : 0.0f) + desk.theme.target() + 2.0f * between + 6.0f;
    ImGui::BeginChild("step", {0.0f, ImGui::GetContentRegionAvail().y - foot});
    if (begins)
        ImGui::SetScrollY(0.0f);
    space(2.0f);
    if (screen.shows == BenchScreen::Shows::step)
        draw_step(desk, due);
    else
        draw_question(desk, due);
    ImGui::EndChild();
    const long edition = desk.bench.edition();
    draw_foot(desk, due, done_height);
    const bool unaimed = is_done_unaimed(desk);
    // A control may have done it in this very frame.
    if (unaimed && has_done && screen.open && screen.shows == BenchScreen::Shows::step &&
        edition == desk.bench.edition())
        press_done(desk, due);
    ImGui::EndChild();
}

} // namespace counterpull
