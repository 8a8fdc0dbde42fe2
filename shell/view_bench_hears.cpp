// Listening at the bench: what a step asks is entered as it is heard, and tuning goes on from string to
// string by itself, each aim worked out anew from what the others show.
#include "shell/view_bench.h"
#include "shell/view_hearing.h"
#include "shell/widgets.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

constexpr double stands_for_s = 1.0;                    // then a string is done
constexpr double rough_cents = 10.0, rough_for_s = 0.5; // the same where it need not be fine
constexpr double turned_cents = 3.0;  // so far from what it showed first a string is being tuned
constexpr double same_cents = 0.5;    // less makes no other aims
constexpr double narrow_cents = 50.0; // looked for in steps of this

std::size_t place_of(const Desk& desk, int string) {
    return strings_of(desk.bench.setup()) - static_cast<std::size_t>(string);
}

bool asks_for(const Desk& desk, const Step& step, std::size_t place) {
    return std::any_of(step.asks.begin(), step.asks.end(), [&](const Asked& asked) {
        return asked.field == AskedField::cents && place_of(desk, asked.string) == place;
    });
}

// Whether strings are played in it.
bool is_heard(const Desk& desk, const Step& step) {
    return step.kind == StepKind::tune || step.kind == StepKind::turn_until ||
           desk.view.at_bench.out_of_tune ||
           std::any_of(step.asks.begin(), step.asks.end(),
                       [](const Asked& asked) { return asked.field == AskedField::cents; });
}

// Where to look for a string that is on its way: around what it showed last.
double around(const Hearing& hearing, std::size_t place, double otherwise) {
    const bool heard = place < hearing.last.size() && hearing.last[place].heard;
    return narrow_cents * std::round((heard ? hearing.last[place].cents : otherwise) / narrow_cents);
}

ListenFor listen_for(const Desk& desk, const DueStep& due) {
    const Step& step = due.bench.step;
    const std::size_t strings = strings_of(desk.bench.setup());
    ListenFor wanted{"job.listen", due.bench.against, {}, {}, {}, {}};
    if (step.kind == StepKind::tune) {
        wanted.wanted_cents.assign(strings, 0.0);
        for (const Aim& aim : aims_of(desk, step))
            wanted.wanted_cents[place_of(desk, aim.string)] = aim.cents;
        const Aim& aim = due_aim(desk, step);
        wanted.due = place_of(desk, aim.string);
        wanted.wanted_cents[*wanted.due] = aim.cents; // it may be in the list twice
        wanted.around_cents = desk.view.at_bench.expected_cents;
        wanted.around_cents.resize(strings);
        wanted.around_cents[*wanted.due] = around(desk.view.hearing, *wanted.due, 0.5 * aim.cents);
    } else if (step.kind == StepKind::turn_until) {
        wanted.wanted_cents =
            desk.kept("job.stops", [&] { return shown_when_turned(desk.bench.report(), step); });
        wanted.wanted_cents.resize(strings);
        wanted.due = place_of(desk, step.string);
        wanted.wanted_cents[*wanted.due] = step.cents;
        for (std::size_t i = 0; i < strings; ++i)
            wanted.around_cents.push_back(around(desk.view.hearing, i, 0.0));
    }
    if (step.kind != StepKind::tune)
        wanted.toward =
            step.kind == StepKind::turn_until ? ListenFor::Toward::stop : ListenFor::Toward::nothing;
    wanted.expected_cents.resize(strings);
    for (const Asked& asked : step.asks)
        if (asked.field == AskedField::cents && asked.expected)
            wanted.expected_cents[place_of(desk, asked.string)] = asked.expected;
    return wanted;
}

// What is asked, as it was heard best.
void enter_heard(const Desk& desk, const Step& step) {
    BenchScreen& screen = desk.view.at_bench;
    if (!desk.view.hearing.any_new())
        return;
    screen.cents.resize(strings_of(desk.bench.setup()));
    const std::vector<std::optional<double>> heard = desk.view.hearing.take_new(screen.cents);
    for (std::size_t i = 0; i < heard.size(); ++i)
        if (heard[i] && (screen.out_of_tune || asks_for(desk, step, i)))
            screen.cents[i] = heard[i];
    screen.refused.clear();
    desk.bench.look_again();
}

void aim_anew(const Desk& desk, const Step& step) {
    BenchScreen& screen = desk.view.at_bench;
    const std::vector<Aim> to_come = aims_by_ear(desk.bench.report(), step, screen.pass);
    screen.expected_cents = expected_by_ear(desk.bench.report(), step, screen.pass);
    const std::vector<Aim> before = aims_of(desk, step);
    const auto tuned = static_cast<std::ptrdiff_t>(std::min(screen.string, before.size()));
    screen.aims.emplace(before.begin(), before.begin() + tuned);
    screen.aims->insert(screen.aims->end(), to_come.begin(), to_come.end());
    desk.bench.look_again();
}

// The pass begins: nothing is heard of it yet. Strings that come up from slack then are aimed sharp.
void begin_pass(const Desk& desk, const Step& step) {
    BenchScreen& screen = desk.view.at_bench;
    screen.pass.push_back({0, std::vector<std::optional<double>>(strings_of(desk.bench.setup()))});
    if (step.how == TuneHow::rough)
        aim_anew(desk, step);
}

// What the strings show that nobody is tuning just now. The one that is due counts until it is being turned.
void note_shown(const Desk& desk, const Step& step) {
    BenchScreen& screen = desk.view.at_bench;
    const Hearing& hearing = desk.view.hearing;
    const std::size_t due = place_of(desk, due_aim(desk, step).string);
    std::vector<std::optional<double>>& shown = screen.pass.back().shown_cents;
    const auto now = shows_now(hearing, due);
    if (shown[due] && now && std::abs(now->cents - *shown[due]) > turned_cents)
        return;
    bool any = false;
    for (std::size_t i = 0; i < hearing.latest.size(); ++i) {
        const HeardString& heard = hearing.latest[i];
        const bool as_before = shown[i] && (i == due || std::abs(*shown[i] - heard.cents) < same_cents);
        if (!heard.heard || heard.at_s < screen.done_at_s || as_before)
            continue;
        shown[i] = heard.cents;
        any = true;
    }
    if (any)
        aim_anew(desk, step);
}

bool all_heard(const BenchScreen& screen) {
    const auto& shown = screen.pass.back().shown_cents;
    return std::all_of(shown.begin(), shown.end(), [](const auto& cents) { return cents.has_value(); });
}
bool all_in_tune(const BenchScreen& screen) {
    const auto& shown = screen.pass.back().shown_cents;
    return std::all_of(shown.begin(), shown.end(),
                       [](const auto& cents) { return cents && std::abs(*cents) <= finished_cents; });
}

// A string has been where it is wanted for long enough.
bool stands(const Desk& desk, const Step& step) {
    BenchScreen& screen = desk.view.at_bench;
    const Hearing& hearing = desk.view.hearing;
    const Aim& aim = due_aim(desk, step);
    const bool rough = step.how == TuneHow::rough;
    const bool there = hearing.live && hearing.live->string == place_of(desk, aim.string) &&
                       std::abs(hearing.live->cents - aim.cents) <= (rough ? rough_cents : stands_cents);
    if (!there)
        screen.stood_from_s = -1.0;
    else if (screen.stood_from_s < 0.0)
        screen.stood_from_s = hearing.seconds;
    return there && hearing.seconds - screen.stood_from_s >= (rough ? rough_for_s : stands_for_s);
}

void take_in_tuning(const Desk& desk, const DueStep& due) {
    const Step& step = due.bench.step;
    BenchScreen& screen = desk.view.at_bench;
    const bool rough = step.how == TuneHow::rough;
    if (desk.view.hearing.seconds < std::max(screen.done_at_s, screen.stood_from_s)) {
        screen.done_at_s = 0.0; // it was stopped, and counts from nothing again
        screen.stood_from_s = -1.0;
    }
    if (screen.pass.empty())
        begin_pass(desk, step);
    if (!rough)
        note_shown(desk, step);
    if (screen.string < aims_of(desk, step).size() && stands(desk, step))
        next_string(desk, step, desk.view.hearing.live->cents);
    if (screen.string < aims_of(desk, step).size() || !(rough || all_heard(screen)))
        return;
    Answer answer = answer_typed(desk, due);
    answer.in_tune = !rough && all_in_tune(screen);
    finish_step(desk, answer);
}

} // namespace

const std::vector<Aim>& aims_of(const Desk& desk, const Step& step) {
    const auto& by_ear = desk.view.at_bench.aims;
    return by_ear ? *by_ear : step.aims;
}

const Aim& due_aim(const Desk& desk, const Step& step) {
    const std::vector<Aim>& aims = aims_of(desk, step);
    return aims.empty() ? step.aims.back() : aims[std::min(desk.view.at_bench.string, aims.size() - 1)];
}

void next_string(const Desk& desk, const Step& step, std::optional<double> shows) {
    BenchScreen& screen = desk.view.at_bench;
    const Aim aim = due_aim(desk, step);
    ++screen.string;
    screen.begins = true;
    screen.stood_from_s = -1.0;
    screen.done_at_s = desk.view.hearing.seconds;
    if (screen.pass.empty() || step.how == TuneHow::rough) // as it was said before
        return;
    screen.pass.push_back({aim.string, std::vector<std::optional<double>>(strings_of(desk.bench.setup()))});
    screen.pass.back().shown_cents[place_of(desk, aim.string)] = shows.value_or(aim.cents);
    aim_anew(desk, step);
}

void draw_step_heard(const Desk& desk, const DueStep& due) {
    const Step& step = due.bench.step;
    const Hearing& hearing = desk.view.hearing;
    BenchScreen& screen = desk.view.at_bench;
    if (!is_heard(desk, step))
        return;
    if (!draw_listening(desk, hearing.on_for("job.listen") ? listen_for(desk, due)
                                                           : ListenFor{"job.listen", due.bench.against}))
        return;
    const bool tunes = step.kind == StepKind::tune;
    if (tunes && screen.string >= aims_of(desk, step).size())
        body(desk, desk.say("hearing.strum"));
    if (std::exchange(screen.tellings, hearing.tellings) == hearing.tellings ||
        hearing.latest.size() != strings_of(desk.bench.setup()))
        return;
    if (tunes)
        take_in_tuning(desk, due);
    else
        enter_heard(desk, step);
}

} // namespace counterpull
