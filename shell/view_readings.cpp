// What was read since: each entry with what was expected, and what it did to the spread.
#include "engine/base/format.h"
#include "engine/say/answer.h"
#include "shell/drawing.h"
#include "shell/entry.h"
#include "shell/view_hearing.h"
#include "shell/views.h"
#include "shell/widgets.h"

#include <imgui_internal.h>

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

struct Kind {
    ReadingKind kind;
    const char* name;
    bool cents; // the tuner says something
};
constexpr Kind kinds[] = {
    {ReadingKind::in_tune, "ui.read_in_tune", false},
    {ReadingKind::after_turn, "ui.read_after_turn", true},
    {ReadingKind::after_pass, "ui.read_after_pass", true},
    {ReadingKind::wedge_out, "ui.read_wedge_out", true},
    {ReadingKind::bend, "ui.read_bend", true},
    {ReadingKind::drop, "ui.read_drop", true},
};

const Kind& kind_of(ReadingKind kind) {
    return *std::find_if(std::begin(kinds), std::end(kinds), [&](const Kind& k) { return k.kind == kind; });
}

std::string place_of(std::size_t entry) {
    return "log[" + std::to_string(entry) + "]";
}

double eighths(double turns) {
    return std::round(8.0 * turns) / 8.0;
}

// An entry for what the answer asked for, as if it had been done; its readings still to come.
Reading entry_for(const Desk& desk, ReadingKind kind) {
    const Setup& setup = desk.bench.setup();
    const Report& report = desk.bench.report();
    const Advice& best = report.solution.advised();
    Reading reading;
    reading.kind = kind;
    if (kind == ReadingKind::bend || kind == ReadingKind::drop) { // before the first turn
        reading.strings = reading.tuning = Which::now;
        reading.springs = setup.now.springs;
        const auto& asked = desk.bench.test_reading();
        reading.string = asked ? asked->string : 1;
        reading.by_cents = asked ? asked->by_cents : 200.0;
        return reading;
    }
    const bool wedged = kind == ReadingKind::wedge_out && report.wedge;
    const double turns = eighths(wedged ? report.wedge->turns : best.turns.value_or(0.0));
    reading.springs = best.springs;
    reading.turns = {turns, turns};
    return reading;
}

// "2⅛ turns looser; both screws, from the start; + tighter".
std::string turns_in_words(const Desk& desk, double turns) {
    std::string said(desk.say("ui.turns_note"));
    if (std::abs(turns) < least_turn)
        return said;
    return desk.say(
               Phrase(turns > 0.0 ? "compared.tighter" : "compared.looser").with("turns", Turns{turns})) +
           "; " + said;
}

// The entry that was begun, with what was entered of it.
const Reading& begun_entry(const Desk& desk) {
    return desk.kept("reading begun", [&] {
        const BegunReading& begun = *desk.view.begun_reading;
        Reading reading = entry_for(desk, begun.kind);
        if (const auto& sheet = desk.bench.report().tuning; begun.by_sheet && sheet)
            reading.aim_cents = sheet->aim_cents;
        if (begun.turns)
            reading.turns = *begun.turns;
        return reading;
    });
}

void drop_begun(const Desk& desk) {
    desk.view.begun_reading.reset();
    desk.bench.drop_drafts_of(place_of(desk.bench.setup().log.size()));
    desk.bench.look_again();
}

void put_into_log(const Desk& desk, Reading reading) {
    desk.view.begun_reading.reset();
    desk.bench.edit([&](Setup& s) { s.log.push_back(std::move(reading)); });
}

// Changes an entry of the log; one that was begun goes into the log with the first thing that was read.
template <class Change>
void change_entry(const Desk& desk, std::size_t e, Change&& change) {
    if (e < desk.bench.setup().log.size())
        return desk.bench.edit([&](Setup& s) { change(s.log[e]); });
    Reading reading = begun_entry(desk);
    change(reading);
    if (reading.tail_mm || reading.cents)
        return put_into_log(desk, std::move(reading));
    desk.view.begun_reading->turns = reading.turns;
    desk.bench.look_again();
}

std::string expected_note(const Desk& desk, int entry, Observed what, int index) {
    for (const FittedReading& reading : desk.bench.report().solution.calibration.readings) {
        const Observation& seen = reading.observation;
        if (seen.entry != entry || seen.what != what || seen.index != index)
            continue;
        const Amount expected = what == Observed::tail ? signed_millimetres(reading.predicted, 1)
                                                       : signed_number(reading.predicted, 0);
        return desk.say(Phrase(reading.trust == Trust::left_out ? "ui.expected_left_out" : "ui.expected")
                            .with("value", expected));
    }
    return "";
}

// What is said of an entry.
struct EntryText {
    std::string head, tail_expected;
    Lines warnings;          // of what was read
    Lines strings, expected; // of each string that is read
};

EntryText text_of(const Desk& desk, std::size_t e, const Reading& reading) {
    const int entry = static_cast<int>(e);
    const char* name = reading.aim_cents ? "ui.read_after_sheet" : kind_of(reading.kind).name;
    EntryText text{
        std::to_string(e + 1) + ". " +
            desk.say(Phrase(name).with("string", reading.string).with("cents", number(reading.by_cents, 0))),
        expected_note(desk, entry, Observed::tail, 0),
        {},
        {},
        {}};
    for (const Warning& told : desk.bench.report().warnings) {
        const auto& entries = told.entries;
        if (told.entry == entry + 1 || std::find(entries.begin(), entries.end(), entry + 1) != entries.end())
            text.warnings.push_back(desk.say(sentence_of(told)));
    }
    const std::size_t strings = strings_of(desk.bench.setup());
    for (std::size_t i = 0; i < strings; ++i) {
        text.strings.push_back(desk.say(Phrase("ui.string_shows").with("string", strings - i)));
        text.expected.push_back(expected_note(desk, entry, Observed::cents, static_cast<int>(i)));
    }
    return text;
}

// Beside the entry that they are about, and to be heard there.
void draw_warnings(const Desk& desk, const std::string& place, const Lines& warnings) {
    for (std::size_t i = 0; i < warnings.size(); ++i) {
        const ImVec2 at = ImGui::GetCursorScreenPos();
        warning(desk, warnings[i]);
        desk.controls.declare({place + ".warning[" + std::to_string(i) + "]", Role::status,
                               desk.say("ui.reading_warning"), warnings[i], "", true, at,
                               ImGui::GetItemRectMax()});
    }
}

// Where no string shows anything any more.
void drop_cents_unread(Reading& reading) {
    const auto is_read = [](const auto& cents) { return cents.has_value(); };
    if (std::none_of(reading.cents->begin(), reading.cents->end(), is_read))
        reading.cents.reset();
}

// The strings are heard, and what they show is entered.
void draw_heard(const Desk& desk, std::size_t e, const Reading& reading) {
    if (!kind_of(reading.kind).cents || reading.own)
        return;
    ListenFor wanted{place_of(e) + ".listen", reading.tuning};
    wanted.toward = ListenFor::Toward::nothing;
    if (!draw_listening(desk, wanted) || !desk.view.hearing.any_new())
        return;
    change_entry(desk, e, [&](Reading& r) {
        if (!r.cents)
            r.cents.emplace(strings_of(desk.bench.setup()));
        const std::vector<std::optional<double>> heard = desk.view.hearing.take_new(*r.cents);
        for (std::size_t i = 0; i < heard.size(); ++i)
            if (heard[i])
                (*r.cents)[i] = heard[i];
        if (r.kind == ReadingKind::bend || r.kind == ReadingKind::drop) // it is pushed, and shows nothing
            (*r.cents)[heard.size() - static_cast<std::size_t>(r.string)].reset();
        drop_cents_unread(r);
    });
}

// What the tuner showed, string by string.
void draw_cents(const Desk& desk, std::size_t e, const Reading& reading, const EntryText& text) {
    const std::size_t strings = strings_of(desk.bench.setup());
    const bool pushes = reading.kind == ReadingKind::bend || reading.kind == ReadingKind::drop;
    for (std::size_t i = 0; kind_of(reading.kind).cents && i < strings; ++i) {
        if (pushes && i + static_cast<std::size_t>(reading.string) == strings)
            continue;
        const std::optional<double> cents = reading.cents ? (*reading.cents)[i] : std::nullopt;
        if (const auto entered =
                maybe_field(desk, place_of(e) + ".cents[" + std::to_string(i) + "]", text.strings[i], cents,
                            {desk.say("unit.cents"), 1.0, 1, true, {}, text.expected[i]}))
            change_entry(desk, e, [&](Reading& r) {
                if (!r.cents)
                    r.cents.emplace(strings);
                (*r.cents)[i] = *entered;
                drop_cents_unread(r);
            });
    }
}

// One just begun, drawn from `low` to here, is brought into view until all around it has its place.
void show_begun(const Desk& desk, ImVec2 low) {
    auto& begun = desk.view.begun_reading;
    if (!begun || begun->frames_to_show == 0)
        return;
    --begun->frames_to_show;
    ImGui::ScrollToRect(ImGui::GetCurrentWindow(), {low, ImGui::GetItemRectMax()},
                        ImGuiScrollFlags_KeepVisibleEdgeY);
}

void draw_entry(const Desk& desk, std::size_t e) {
    const bool begun = e == desk.bench.setup().log.size();
    // A copy of one begun: what is entered makes it anew.
    const auto copy = begun ? std::optional(begun_entry(desk)) : std::nullopt;
    const Reading& reading = copy ? *copy : desk.bench.setup().log[e];
    const std::string place = place_of(e);
    const EntryText& text = desk.kept(place, [&] { return text_of(desk, e, reading); });
    const bool pushes = reading.kind == ReadingKind::bend || reading.kind == ReadingKind::drop;
    const ImVec2 low = ImGui::GetCursorScreenPos();
    paragraph(desk, text.head, desk.theme.fonts.strong, desk.theme.colours.ink);
    if (reading.own)
        faint(desk, desk.say("ui.read_on_own"));
    draw_warnings(desk, place, text.warnings);
    if (!pushes) {
        const double turns = 0.5 * (reading.turns[0] + reading.turns[1]);
        const std::string& note = desk.kept(place + " turns", [&] { return turns_in_words(desk, turns); });
        if (const auto entered = number_field(desk, place + ".turns[0]", desk.say("ui.turns_made"), turns,
                                              {"", 0.125, 3, true, {}, note}))
            change_entry(desk, e, [&](Reading& r) { r.turns = {*entered, *entered}; });
    }
    if (const auto entered = maybe_field(desk, place + ".tail_mm", desk.say("ui.tail_read"), reading.tail_mm,
                                         {"mm", 0.5, 1, true, {}, text.tail_expected}))
        change_entry(desk, e, [&](Reading& r) { r.tail_mm = *entered; });
    draw_heard(desk, e, reading);
    draw_cents(desk, e, reading, text);
    if (begun && reading.kind == ReadingKind::in_tune && desk.view.begun_reading) {
        if (button(desk, place + ".confirm", desk.say("bench.done_in_tune")))
            put_into_log(desk, reading);
        ImGui::SameLine();
    }
    if (button(desk, place + ".remove", desk.say("ui.remove_reading"))) {
        if (e < desk.bench.setup().log.size())
            desk.bench.edit([&](Setup& s) { s.log.erase(s.log.begin() + static_cast<std::ptrdiff_t>(e)); });
        else
            drop_begun(desk);
    }
    if (begun)
        show_begun(desk, low);
    space(8.0f);
}

// The spread of the turns before any reading and after each: bars that get shorter.
void draw_spread_plot(const Desk& desk) {
    const std::vector<double>& history = desk.bench.spread_history();
    if (history.size() < 2)
        return;
    struct Bar {
        std::string name, spread;
    };
    const auto& bars = desk.kept("spread plot", [&] {
        std::vector<Bar> all;
        for (std::size_t i = 0; i < history.size(); ++i)
            all.push_back({i == 0 ? std::string(desk.say("ui.before"))
                                  : desk.say(Phrase("ui.after_reading").with("entry", i)),
                           "± " + desk.say(number(ninety_percent * history[i], 2))});
        return all;
    });
    const Colours& c = desk.theme.colours;
    const float row = desk.theme.fonts.small->FontSize + 6.0f;
    const Drawing plot(desk, "spread plot", row * static_cast<float>(history.size()));
    const float width = std::min(plot.high().x - plot.low().x, 520.0f);
    const double most = *std::max_element(history.begin(), history.end());
    for (std::size_t i = 0; i < history.size(); ++i) {
        const float y = plot.low().y + static_cast<float>(i) * row, left = plot.low().x + 0.3f * width;
        const float bar = std::max(2.0f, static_cast<float>(history[i] / most) * 0.52f * width);
        plot.label({plot.low().x, y}, bars[i].name, c.ink);
        plot.rect({left, y + 2.0f}, {left + bar, y + row - 6.0f}, c.accent);
        plot.label({left + bar + 8.0f, y}, bars[i].spread, c.ink);
    }
    plot.explain(desk.say("ui.readings"), desk.say("ui.spread_plot"));
    space(6.0f);
}

// What the strings show as the guitar stands, whatever is done with it.
void draw_shown_now(const Desk& desk) {
    const std::vector<Reading>& log = desk.bench.setup().log;
    Which tuning = log.empty() ? Which::now : log.back().tuning;
    if (!can_listen(desk, tuning))
        tuning = Which::next;
    if (!can_listen(desk, tuning))
        return;
    paragraph(desk, desk.say("hearing.now"), desk.theme.fonts.strong, desk.theme.colours.ink);
    draw_listening(desk, {"hearing.now", tuning});
    space(8.0f);
}

// The entries that can be added, by name.
struct OfferedEntries {
    std::vector<BegunReading> begun;
    Lines names;
};

OfferedEntries offered_entries(const Desk& desk) {
    const Report& report = desk.bench.report();
    const auto& asked = desk.bench.test_reading();
    OfferedEntries offered;
    for (const Kind& kind : kinds) {
        const bool test = kind.kind == ReadingKind::bend || kind.kind == ReadingKind::drop;
        if (test && (!desk.bench.setup().now.in_tune || !asked || asked->kind != kind.kind))
            continue;
        offered.begun.push_back({kind.kind});
        offered.names.push_back(desk.say(Phrase(kind.name)
                                             .with("string", asked ? std::to_string(asked->string) : "")
                                             .with("cents", number(asked ? asked->by_cents : 0.0, 0))));
    }
    // Where a pass by the sheet landed says the most of all.
    if (const auto& sheet = report.tuning; sheet && !sheet->why_gentler) {
        offered.begun.push_back({ReadingKind::after_pass, true});
        offered.names.emplace_back(desk.say("ui.read_after_sheet"));
    }
    return offered;
}

} // namespace

void draw_readings(const Desk& desk) {
    faint(desk, desk.say("ui.readings_note"));
    if (!desk.bench.has_answer())
        return;
    const auto& test = desk.kept("test reading", [&] {
        const auto& asked = desk.bench.test_reading();
        return asked ? desk.say(sentence_of(*asked, desk.bench.report())) : std::string();
    });
    if (!test.empty())
        body(desk, test);
    draw_shown_now(desk);
    auto& begun = desk.view.begun_reading;
    if (begun && begun->opening != desk.bench.opening())
        begun.reset();
    for (std::size_t e = 0; e < desk.bench.setup().log.size(); ++e)
        draw_entry(desk, e);
    if (begun)
        draw_entry(desk, desk.bench.setup().log.size());
    draw_spread_plot(desk);
    const OfferedEntries& offered = desk.kept("entries to add", [&] { return offered_entries(desk); });
    if (const auto chosen = choice(desk, "log.add", desk.say("ui.add_reading"), desk.say("ui.choose_reading"),
                                   offered.names)) {
        constexpr int until_laid_out = 4;
        drop_begun(desk);
        begun = offered.begun[*chosen];
        begun->opening = desk.bench.opening();
        begun->frames_to_show = until_laid_out;
    }
}

} // namespace counterpull
