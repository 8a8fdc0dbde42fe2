// What a step at the bench asks, and what may come between.
#include "shell/view_bench.h"

#include "engine/base/format.h"
#include "engine/say/names.h"
#include "shell/widgets.h"

#include <imgui.h>

#include <algorithm>

namespace counterpull {

namespace {

using Shows = BenchScreen::Shows;

bool is_at_the_claw(const Step& step) {
    return step.kind == StepKind::turn || step.kind == StepKind::turn_until;
}
std::size_t place_of(const Desk& desk, int string) {
    return strings_of(desk.bench.setup()) - static_cast<std::size_t>(string);
}

// A number that is no part of the set-up: `value` takes what is entered.
void ask_for(const Desk& desk, std::string_view id, std::string_view label, std::optional<double>& value,
             const NumberLook& look) {
    const auto entered = maybe_field(desk, id, label, value, look);
    if (!entered)
        return;
    value = *entered;
    desk.view.at_bench.refused.clear();
    desk.bench.look_again();
}

std::string expected(const Desk& desk, const DueStep& due, const Asked& asked) {
    if (!asked.expected)
        return asked.needed ? "" : std::string(desk.say("bench.if_read"));
    if (asked.field == AskedField::tail_mm)
        return desk.say(Phrase("bench.expected").with("value", signed_millimetres(*asked.expected, 1)));
    const Setup& setup = desk.bench.setup();
    const std::size_t place = place_of(desk, asked.string);
    const bool now = due.bench.against == Which::now;
    const PerString& offset = now ? setup.now.offset_cents : setup.next.offset_cents;
    const Pitch& note = (now ? setup.now.tuning : setup.next.tuning)[place];
    return desk.say(Phrase("bench.expected_cents")
                        .with("cents", signed_number(*asked.expected, 0))
                        .with("shown", shown_by_tuner(note, offset.at(place) + *asked.expected)));
}

void ask_for_tail(const Desk& desk, const DueStep& due, const Asked& asked) {
    BenchScreen& screen = desk.view.at_bench;
    NumberLook look{"mm", 0.5, 1, true};
    const std::string& note = desk.kept("job.tail note", [&] { return expected(desk, due, asked); });
    look.note = note;
    if (screen.both_sides) {
        ask_for(desk, "job.tail_bass", desk.say("ui.tail_bass"), screen.sides_mm[0], look);
        ask_for(desk, "job.tail_treble", desk.say("ui.tail_treble"), screen.sides_mm[1], look);
    } else {
        ask_for(desk, "job.tail_mm", desk.say("ui.tail_read"), screen.tail_mm, look);
    }
    if (toggle(desk, "job.sides", desk.say("bench.sides"), screen.both_sides))
        desk.bench.drop_drafts_of("job.tail");
}

void ask_for_cents(const Desk& desk, const DueStep& due, const Asked& asked) {
    BenchScreen& screen = desk.view.at_bench;
    screen.cents.resize(strings_of(desk.bench.setup()));
    struct Text {
        std::string id, label, note;
    };
    const Text& text = desk.kept("job.cents of " + std::to_string(asked.string), [&] {
        return Text{"job.cents[" + std::to_string(asked.string) + "]",
                    desk.say(Phrase("ui.string_shows").with("string", asked.string)),
                    expected(desk, due, asked)};
    });
    NumberLook look{desk.say("unit.cents"), 1.0, 1, true};
    look.note = text.note;
    ask_for(desk, text.id, text.label, screen.cents[place_of(desk, asked.string)], look);
}

// What was really turned, screw by screw, where it is not as told.
void ask_for_turns(const Desk& desk, std::array<double, 2>& turned) {
    const char* const ids[] = {"job.turned[0]", "job.turned[1]"};
    const char* const labels[] = {"bench.bass_turned", "bench.treble_turned"};
    for (std::size_t i = 0; i < turned.size(); ++i)
        if (const auto entered =
                number_field(desk, ids[i], desk.say(labels[i]), turned[i], {"", 0.125, 3, true})) {
            turned[i] = *entered;
            desk.bench.look_again();
        }
    faint(desk, desk.say("bench.turned_note"));
}

struct Wrong {
    const char *id, *key;
    bool possible;
    Shows leads_to;
    Mishap mishap;
};

void draw_mishaps(const Desk& desk, const DueStep& due) {
    BenchScreen& screen = desk.view.at_bench;
    const bool claw = is_at_the_claw(due.bench.step);
    const Wrong all[] = {
        {"job.fell_out", "bench.fell_out", due.at.wedged, Shows::step, Mishap::wedge_fell_out},
        {"job.no_wedge", "bench.no_wedge", due.bench.step.kind == StepKind::wedge_in, Shows::step,
         Mishap::wedge_will_not_go_in},
        {"job.hard", "bench.hard", claw, Shows::screw, Mishap::screw_hard},
        {"job.no_thread", "bench.no_thread", claw, Shows::screw, Mishap::no_thread},
        {"job.broke", "bench.broke", true, Shows::string, Mishap::string_broke},
        {"job.spring_off", "bench.spring_off", !due.at.springs.empty(), Shows::hook, Mishap::spring_off},
    };
    for (const Wrong& wrong : all) {
        if (!wrong.possible ||
            !wide_button(desk, wrong.id, desk.say(wrong.key), ImGui::GetContentRegionAvail().x, 52.0f, false))
            continue;
        screen.mishap = wrong.mishap;
        screen.show(wrong.leads_to);
        screen.turned.reset();
        if (wrong.leads_to == Shows::screw)
            screen.turned.emplace();
        if (wrong.leads_to != Shows::step)
            continue;
        Answer answer;
        answer.happened = wrong.mishap;
        finish_step(desk, answer);
    }
    if (claw && wide_button(desk, "job.too_far", desk.say("bench.too_far"), ImGui::GetContentRegionAvail().x,
                            52.0f, false)) {
        screen.turned = due.bench.step.turns;
        screen.show(Shows::step);
    }
}

// Which of them, a button each.
void draw_which(const Desk& desk, const DueStep& due) {
    const bool string = desk.view.at_bench.shows == Shows::string;
    const auto count = string ? strings_of(desk.bench.setup()) : due.at.springs.size();
    for (std::size_t i = 0; i < count; ++i) {
        const int which = string ? static_cast<int>(count - i) : due.at.springs[i].hook;
        const std::string id = (string ? "job.string[" : "job.hook[") + std::to_string(which) + "]";
        const std::string& label = desk.kept(id, [&] {
            return desk.say(string ? Phrase("bench.string_of")
                                         .with("string", which)
                                         .with("note", Parts{desk.bench.setup().next.tuning[i]})
                                   : Phrase("bench.hook").with("hook", which + 1));
        });
        if (!wide_button(desk, id, label, ImGui::GetContentRegionAvail().x, 52.0f, false))
            continue;
        Answer answer;
        answer.happened = desk.view.at_bench.mishap;
        (string ? answer.string : answer.hook) = which;
        finish_step(desk, answer);
        return; // it may be another guitar's springs by now
    }
}

void draw_screw(const Desk& desk) {
    BenchScreen& screen = desk.view.at_bench;
    ask_for_turns(desk, *screen.turned);
    space(6.0f);
    const bool read = !desk.bench.has_drafts_of("job.");
    if (!wide_button(desk, "job.so_far", desk.say("bench.so_far"), ImGui::GetContentRegionAvail().x, 60.0f,
                     read) ||
        !read)
        return;
    Answer answer;
    answer.happened = screen.mishap;
    answer.turned = screen.turned;
    finish_step(desk, answer);
}

void draw_doubt(const Desk& desk) {
    BenchScreen& screen = desk.view.at_bench;
    const float width = ImGui::GetContentRegionAvail().x;
    if (wide_button(desk, "job.correct", desk.say("bench.correct"), width, 60.0f, true))
        screen.show(Shows::step);
    if (!wide_button(desk, "job.right", desk.say("bench.right"), width, 60.0f, false))
        return;
    desk.bench.begin_step();
    desk.bench.edit([&](Setup& setup) { setup = std::move(*screen.doubted); });
}

} // namespace

void draw_asks(const Desk& desk, const DueStep& due) {
    BenchScreen& screen = desk.view.at_bench;
    const Step& step = due.bench.step;
    for (const Asked& asked : step.asks)
        asked.field == AskedField::tail_mm ? ask_for_tail(desk, due, asked) : ask_for_cents(desk, due, asked);
    if (step.kind == StepKind::read && step.reading == ReadingKind::in_tune) {
        if (toggle(desk, "job.out_of_tune", desk.say("bench.out_of_tune"), screen.out_of_tune)) {
            screen.cents.clear();
            desk.bench.drop_drafts_of("job.cents");
        }
        for (std::size_t i = 0; screen.out_of_tune && i < strings_of(desk.bench.setup()); ++i)
            ask_for_cents(
                desk, due,
                {AskedField::cents, true, static_cast<int>(strings_of(desk.bench.setup()) - i), {}});
    }
    if (!is_at_the_claw(step))
        return;
    bool other = screen.turned.has_value();
    if (toggle(desk, "job.other_turns", desk.say("bench.other_turns"), other)) {
        screen.turned = other ? std::optional(step.turns) : std::nullopt;
        desk.bench.drop_drafts_of("job.turned");
    }
    if (screen.turned)
        ask_for_turns(desk, *screen.turned);
}

bool is_answered(const Desk& desk, const DueStep& due) {
    const BenchScreen& screen = desk.view.at_bench;
    const auto given = [](const auto& value) { return value.has_value(); };
    for (const Asked& asked : due.bench.step.asks) {
        const bool there =
            asked.field == AskedField::tail_mm
                ? (screen.both_sides ? std::all_of(screen.sides_mm.begin(), screen.sides_mm.end(), given)
                                     : screen.tail_mm.has_value())
                : !screen.cents.empty() && screen.cents[place_of(desk, asked.string)].has_value();
        const bool one_side = asked.field == AskedField::tail_mm && screen.both_sides &&
                              screen.sides_mm[0].has_value() != screen.sides_mm[1].has_value();
        if ((asked.needed && !there) || one_side)
            return false;
    }
    return !screen.out_of_tune || std::any_of(screen.cents.begin(), screen.cents.end(), given);
}

Answer answer_typed(const Desk& desk, const DueStep& due) {
    const BenchScreen& screen = desk.view.at_bench;
    Answer answer;
    if (!screen.both_sides)
        answer.tail_mm = screen.tail_mm;
    else if (screen.sides_mm[0] && screen.sides_mm[1])
        answer.tail_sides_mm = {*screen.sides_mm[0], *screen.sides_mm[1]};
    const bool read = due.bench.step.reading.has_value();
    if (read &&
        std::any_of(screen.cents.begin(), screen.cents.end(), [](const auto& c) { return c.has_value(); }))
        answer.cents = screen.cents;
    answer.in_tune = due.bench.step.reading == ReadingKind::in_tune && !answer.cents;
    answer.turned = screen.turned;
    return answer;
}

void draw_question(const Desk& desk, const DueStep& due) {
    BenchScreen& screen = desk.view.at_bench;
    const std::string_view question = screen.shows == Shows::doubt
                                          ? std::string_view(screen.doubt)
                                          : desk.say(screen.shows == Shows::string  ? "bench.which_string"
                                                     : screen.shows == Shows::hook  ? "bench.which_hook"
                                                     : screen.shows == Shows::screw ? "bench.how_far"
                                                                                    : "bench.what");
    const ImVec2 low = ImGui::GetCursorScreenPos();
    paragraph(desk, question, desk.theme.fonts.answer, desk.theme.colours.ink);
    desk.controls.declare({"job.question", Role::status, desk.say("bench.title"), question, "", true, low,
                           ImGui::GetItemRectMax()});
    space(6.0f);
    switch (screen.shows) {
    case Shows::mishaps:
        return draw_mishaps(desk, due);
    case Shows::string:
    case Shows::hook:
        return draw_which(desk, due);
    case Shows::screw:
        return draw_screw(desk);
    case Shows::doubt:
        return draw_doubt(desk);
    case Shows::step:
        return;
    }
}

} // namespace counterpull
