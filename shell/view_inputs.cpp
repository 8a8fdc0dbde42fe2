// The five choices that make a set-up: the bridge and its guitar, what is on it now, what is wanted.
#include "engine/base/format.h"
#include "engine/say/answer.h"
#include "shell/entry.h"
#include "shell/inputs.h"
#include "shell/views.h"
#include "shell/widgets.h"

#include <imgui.h>

#include <cmath>

namespace counterpull {

namespace {

constexpr float subsection = 16.0f; // its indent

// What is said of a string in its row of fields.
struct StringText {
    std::string gauge_label, gauge, note_label, note, wound_label;
};

// One string: its gauge, its note, and whether it is wound.
void draw_string(const Desk& desk, Side side, std::size_t i) {
    const std::size_t count = strings_of(desk.bench.setup());
    const auto& tuning = tuning_on(desk.bench.setup(), side);
    const std::string name(name_of(side)), index = "[" + std::to_string(i) + "]";
    const std::string place = name + ".strings" + index, tuned = name + ".tuning" + index;
    const bool has_note = i < tuning.size();
    const StringSetup& string = strings_on(desk.bench.setup(), side)[i];
    const StringText& text = desk.kept(place, [&] {
        auto of = [&](const char* key) {
            return desk.say(Phrase(key).with("string", std::to_string(count - i)));
        };
        return StringText{of("ui.gauge"), gauge_in_words(string.gauge_in), of("ui.note"),
                          has_note ? desk.say(tuning[i]) : "", of("ui.wound")};
    });
    if (const auto entered = stepper_field(
            desk, place + ".gauge_in", text.gauge_label, string.gauge_in,
            {text.gauge, 0.0005, "refused.not_gauge", desk.say(string.wound ? "text.wound" : "text.plain")},
            parse_gauge_in))
        desk.bench.edit([&](Setup& s) { strings_on(s, side)[i].gauge_in = *entered; });
    if (!has_note)
        return;
    const auto read_note = [&](std::string_view typed) -> std::optional<double> {
        const auto read = desk.words.read_pitch(typed);
        return read ? std::optional<double>(key_number(*read)) : std::nullopt;
    };
    if (const auto entered =
            stepper_field(desk, tuned, text.note_label, key_number(tuning[i]),
                          {text.note, 1.0, "refused.not_pitch", "", Typed::text}, read_note)) {
        const int key = static_cast<int>(std::lround(*entered));
        if (key >= lowest_key && key <= highest_key)
            desk.bench.edit([&](Setup& s) { tuning_on(s, side)[i] = pitch_of_key(key); });
    }
    bool wound = string.wound;
    if (toggle(desk, place + ".wound", text.wound_label, wound))
        desk.bench.edit([&](Setup& s) { strings_on(s, side)[i].wound = wound; });
}

// Strings and tuning of one side of the change, then each string alone.
void draw_strings(const Desk& desk, Side side) {
    pick_strings(desk, side, choice, "");
    pick_tuning(desk, side, choice, "");
    if (!section(desk, std::string("section.").append(name_of(side)) + ".each", desk.say("ui.each_string"),
                 ""))
        return;
    ImGui::Indent(subsection);
    for (std::size_t i = 0; i < strings_of(desk.bench.setup()); ++i)
        draw_string(desk, side, i);
    ImGui::Unindent(subsection);
}

void draw_spring_count(const Desk& desk) {
    const Setup& setup = desk.bench.setup();
    const auto places = static_cast<int>(std::min(
        {setup.guitar.bay.hook_mm.size(), setup.guitar.bay.hole_mm.size(), std::size_t{most_springs}}));
    NumberLook look;
    look.digits = 0;
    look.note = desk.kept("springs on hooks", [&] {
        return desk.say(Phrase("ui.on_hooks").with("hooks", hooks_of(setup.now.springs)));
    });
    if (const auto entered = number_field(desk, "now.springs", desk.say("ui.springs_now"),
                                          static_cast<double>(setup.now.springs.size()), look)) {
        const int count = std::clamp(static_cast<int>(std::lround(*entered)), 1, places);
        desk.bench.edit([&](Setup& s) { put_springs(s, evenly_placed(s.guitar.bay, count)); });
    }
}

void draw_springs_owned(const Desk& desk) {
    const GuitarSetup& guitar = desk.bench.setup().guitar;
    NumberLook look;
    look.digits = 0;
    look.note = desk.say(guitar.springs_owned ? "ui.owned_note" : "ui.owned_unsaid");
    if (const auto entered = number_field(desk, "guitar.springs_owned", desk.say("ui.springs_owned"),
                                          springs_owned(desk.bench.setup()), look))
        desk.bench.edit([&](Setup& s) { s.guitar.springs_owned = static_cast<int>(std::lround(*entered)); });
}

void draw_spring_lengths(const Desk& desk) {
    const Setup& setup = desk.bench.setup();
    for (std::size_t i = 0; setup.now.spring_mm && i < setup.now.spring_mm->size(); ++i) {
        const std::string path = "now.spring_mm[" + std::to_string(i) + "]";
        if (const auto entered = number_field(
                desk, path, desk.say(Phrase("ui.spring_length").with("hook", setup.now.springs[i].hook + 1)),
                (*setup.now.spring_mm)[i], {"mm", 0.5, 1, false, {}, desk.say("ui.hook_to_hook")}))
            desk.bench.edit([&](Setup& s) { (*s.now.spring_mm)[i] = *entered; });
    }
}

// One reading of the tail, or its two sides, of which the mean is the one that the balance knows.
void draw_tail_now(const Desk& desk) {
    const NowSetup& now = desk.bench.setup().now;
    bool sides = now.tail_sides_mm.has_value();
    if (!sides) {
        if (const auto entered = number_field(desk, "now.tail_mm", desk.say("ui.tail_now"), now.tail_mm,
                                              {"mm", 0.5, 2, true, {}, desk.say("ui.tail_note")}))
            desk.bench.edit([&](Setup& s) { s.now.tail_mm = *entered; });
    } else {
        for (const std::size_t side : {std::size_t{0}, std::size_t{1}})
            if (const auto entered = number_field(desk, "now.tail_sides_mm[" + std::to_string(side) + "]",
                                                  desk.say(side == 0 ? "ui.tail_bass" : "ui.tail_treble"),
                                                  (*now.tail_sides_mm)[side],
                                                  {"mm", 0.5, 2, true, {}, desk.say("ui.tail_note")}))
                desk.bench.edit([&](Setup& s) {
                    (*s.now.tail_sides_mm)[side] = *entered;
                    s.now.tail_mm = 0.5 * ((*s.now.tail_sides_mm)[0] + (*s.now.tail_sides_mm)[1]);
                });
    }
    if (toggle(desk, "now.tail_sides_mm", desk.say("ui.sides"), sides))
        desk.bench.edit([&](Setup& s) {
            if (sides)
                s.now.tail_sides_mm = {{s.now.tail_mm, s.now.tail_mm}};
            else
                s.now.tail_sides_mm.reset();
        });
    draw_how_tail(desk);
}

// What the choice of the bridge has set besides, at that choice.
void draw_tails_set(const Desk& desk) {
    const Workbench::TailsSet& set = desk.bench.tails_set();
    if (!set.now_mm && !set.next_mm)
        return;
    const std::string& said = desk.kept("tails set", [&] {
        std::string text;
        if (set.next_mm)
            text = desk.say(Phrase("ui.tail_next_set").with("tail", signed_millimetres(*set.next_mm, 1)));
        if (set.now_mm)
            text += (text.empty() ? "" : " ") +
                    desk.say(Phrase("ui.tail_now_set").with("tail", signed_millimetres(*set.now_mm, 1)));
        return text;
    });
    const ImVec2 low = ImGui::GetCursorScreenPos();
    warning(desk, said);
    desk.controls.declare({"guitar.bridge.set", Role::status, desk.say("ui.bridge"), said, "", true, low,
                           ImGui::GetItemRectMax()});
}

} // namespace

std::string guitar_summary(const Desk& desk) {
    return desk.name(desk.bench.bridge_preset().name);
}

std::string now_summary(const Desk& desk) {
    const NowSetup& now = desk.bench.setup().now;
    return name_of_set(desk, now.strings) + ", " + name_of_tuning(desk, now.tuning) + ", " +
           desk.say(signed_millimetres(now.tail_mm, 1));
}

std::string next_summary(const Desk& desk) {
    const NextSetup& next = desk.bench.setup().next;
    return name_of_set(desk, next.strings) + ", " + name_of_tuning(desk, next.tuning) + ", " +
           desk.say(signed_millimetres(next.tail_mm, 1));
}

void draw_guitar(const Desk& desk) {
    const Setup& setup = desk.bench.setup();
    pick_bridge(desk, choice, "");
    draw_tails_set(desk);
    draw_gone(desk, false);
    pick_scale(desk, choice, "");
    const Lines& counts = desk.kept("counts of strings", [] { return Lines{"4", "5", "6", "7", "8"}; });
    if (const auto chosen = choice(desk, "strings.count", desk.say("ui.string_count"),
                                   std::to_string(strings_of(setup)), counts))
        desk.bench.edit([&](Setup& s) { change_string_count(s, *chosen + 4); });
    space(4.0f);
}

void draw_now(const Desk& desk) {
    const Setup& setup = desk.bench.setup();
    bool off = !setup.now.in_tune;
    if (toggle(desk, "now.in_tune", desk.say("ui.strings_off"), off))
        desk.bench.edit([&](Setup& s) {
            s.now.in_tune = !off;
            // What the springs measure says where the claw is; start from what the answer took them to be.
            if (off && !s.now.spring_mm) {
                s.now.spring_mm.emplace();
                for (std::size_t i = 0; desk.bench.has_answer() && i < desk.bench.report().now.springs.size();
                     ++i)
                    s.now.spring_mm->push_back(
                        std::round(desk.bench.report().now.springs[i].length_mm * 2.0) / 2.0);
                s.now.spring_mm->resize(s.now.springs.size(), 75.0);
            } else if (!off) {
                s.now.spring_mm.reset();
                if (s.now.strings.empty())
                    s.now.strings = s.next.strings;
                if (s.now.tuning.empty())
                    s.now.tuning = s.next.tuning;
            }
        });
    if (off)
        faint(desk, desk.say("ui.strings_off_note"));
    draw_tail_now(desk);
    draw_spring_count(desk);
    draw_springs_fitted(desk);
    draw_springs_owned(desk);
    draw_spring_lengths(desk);
    if (setup.now.in_tune)
        draw_strings(desk, Side::now);
    space(4.0f);
}

void draw_next(const Desk& desk) {
    const Setup& setup = desk.bench.setup();
    draw_strings(desk, Side::next);
    if (const auto entered = number_field(desk, "next.tail_mm", desk.say("ui.tail_next"), setup.next.tail_mm,
                                          {"mm", 0.5, 2, true, desk.bench.bridge_preset().usual_aim_mm, ""}))
        desk.bench.edit([&](Setup& s) { s.next.tail_mm = *entered; });
    draw_chosen(desk);
    bool on_body = setup.next.rest == RestWanted::on_the_body;
    if (toggle(desk, "next.rest", desk.say("ui.on_the_body"), on_body))
        desk.bench.edit(
            [&](Setup& s) { s.next.rest = on_body ? RestWanted::on_the_body : RestWanted::floating; });
    space(4.0f);
}

} // namespace counterpull
