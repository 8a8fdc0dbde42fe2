// What else changes, put into sentences and tables.
#include "engine/say/whatif_topics.h"
#include "engine/base/units.h"
#include "engine/say/answer.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

using Cells = std::vector<Parts>;

Parts none() {
    return {"–"};
}

Parts mm(double metres, int digits = 1) {
    return {signed_millimetres(mm_from_metres(metres), digits)};
}
Parts cents(const std::optional<double>& value) {
    return value ? Parts{signed_number(*value, 0)} : none();
}
Parts semitones(double value_cents) {
    return {signed_number(value_cents / 100.0, 1)};
}
Parts percent(double share) {
    return {number(100.0 * share, 0), " %"};
}

// The largest of them, by size.
std::optional<double> most(const std::vector<std::optional<double>>& all, int without = -1) {
    std::optional<double> found;
    for (std::size_t i = 0; i < all.size(); ++i)
        if (all[i] && static_cast<int>(i) != without && (!found || std::abs(*all[i]) > std::abs(*found)))
            found = all[i];
    return found;
}

bool is_stop(RestKind kind) {
    return kind == RestKind::tail_up_stop || kind == RestKind::tail_down_stop;
}

class Topics {
  public:
    Topics(const Report& report, const WhatIf& answer)
        : setup_(report.setup()), report_(report), answer_(answer), strings_(setup_.next.strings.size()) {}

    std::vector<Topic> write() {
        if (!answer_.now && !answer_.next)
            return {};
        bends();
        arm();
        lost();
        tunings();
        surroundings();
        loads();
        intonation();
        nut();
        return std::move(topics_);
    }

  private:
    Topic& topic(std::string_view id, const char* title) {
        return topics_.emplace_back(Topic{id, title, {}, {}, {}});
    }
    static TopicTable& table(Topic& topic, const char* title, std::vector<Phrase> heads) {
        return topic.tables.emplace_back(TopicTable{title, std::move(heads), {}});
    }
    // The player's number of a place.
    Phrase string(std::size_t place) const {
        return Phrase("ui.tune_string").with("string", strings_ - place);
    }
    std::size_t place(std::size_t number) const { return strings_ - number; }
    // What `of` says of now and of next, a dash where there is none.
    template <class Of>
    Cells sides(Of&& of) const {
        return {answer_.now ? of(*answer_.now) : none(), answer_.next ? of(*answer_.next) : none()};
    }
    template <class Of>
    void each_string(TopicTable& table, Of&& cells) const {
        for (std::size_t i = strings_; i-- > 0;)
            table.rows.push_back({string(i), cells(i)});
    }
    const SideEffects& after() const { return answer_.next ? *answer_.next : *answer_.now; }

    static std::size_t bend_index(std::size_t string, std::size_t which) {
        return string * bend_cents.size() + which;
    }

    void bends() {
        Topic& t = topic("bends", "whatif.bends");
        t.says.push_back({"whatif.bends_note"});
        struct DoubleStop {
            std::size_t bent, held, which; // players' numbers; of bend_cents
        };
        static constexpr DoubleStop common[] = {{3, 2, 1}, {3, 1, 1}, {3, 2, 0},
                                                {2, 1, 1}, {2, 1, 2}, {4, 3, 1}};
        TopicTable& held = table(t, "whatif.held", {"whatif.double_stop", "text.now", "ui.next_short"});
        for (const DoubleStop& stop : common)
            held.rows.push_back(
                {Phrase("whatif.bent_and_held")
                     .with("bent", stop.bent)
                     .with("cents", number(bend_cents[stop.which], 0))
                     .with("held", stop.held),
                 sides([&](const SideEffects& side) {
                     return cents(
                         side.bends[bend_index(place(stop.bent), stop.which)].moved.cents[place(stop.held)]);
                 })});
        auto a_tone = [&](const char* title, bool fixed_too, auto&& of) {
            std::vector<Phrase> heads = {"ui.string", "text.now", "ui.next_short"};
            if (fixed_too)
                heads.push_back({"whatif.fixed"});
            TopicTable& rows = table(t, title, std::move(heads));
            each_string(rows, [&](std::size_t i) {
                Cells cells =
                    sides([&](const SideEffects& side) { return of(side.bends[bend_index(i, 1)], side); });
                if (fixed_too)
                    cells.push_back(of(after().fixed_bends[bend_index(i, 1)], after()));
                return cells;
            });
        };
        a_tone("whatif.bend_tail", false, [](const Bent& b, const SideEffects& side) {
            return mm(b.moved.tail_m - side.stand.tail_m());
        });
        a_tone("whatif.finger_way", true, [](const Bent& b, const SideEffects&) {
            return Parts{millimetres(mm_from_metres(b.travel_m), 1)};
        });
        a_tone("whatif.finger_force", true,
               [](const Bent& b, const SideEffects&) { return Parts{newtons(b.force_n, 1)}; });
    }

    void arm() {
        Topic& t = topic("arm", "whatif.arm");
        t.says.push_back({"whatif.arm_note"});
        for (const auto& [key, side] :
             {std::pair("whatif.spread_now", &answer_.now), {"whatif.spread_next", &answer_.next}})
            if (*side)
                if (const auto spread = chord_spread_cents((*side)->arm, -200.0))
                    t.says.push_back(Phrase(key).with("cents", number(*spread, 0)));
        TopicTable& range =
            table(t, "whatif.arm_range",
                  {"ui.string", "whatif.down_now", "whatif.down_next", "whatif.up_now", "whatif.up_next"});
        each_string(range, [&](std::size_t i) {
            Cells cells = sides([&](const SideEffects& side) {
                const auto& down = side.arm.strings[i].down_cents;
                return down ? semitones(*down) : Parts{Word{"whatif.slack"}};
            });
            const Cells up =
                sides([&](const SideEffects& side) { return semitones(side.arm.strings[i].up_cents); });
            cells.insert(cells.end(), up.begin(), up.end());
            return cells;
        });
        slack(t);
    }

    void slack(Topic& t) const {
        auto angle = [](const SideEffects& side, std::size_t i) {
            const auto& slack = side.arm.strings[i].slack_rad;
            return slack ? Parts{number(degrees_from_radians(*slack), 1), "°"} : none();
        };
        TopicTable& at = table(t, "whatif.slack_at", {"ui.string", "text.now", "ui.next_short"});
        each_string(at, [&](std::size_t i) {
            return sides([&](const SideEffects& side) { return angle(side, i); });
        });
    }

    void lost() {
        Topic& t = topic("lost", "whatif.lost");
        t.says.push_back({"whatif.lost_note"});
        TopicTable& off =
            table(t, "whatif.off_left",
                  {"whatif.off", "whatif.tail_now", "unit.cents", "whatif.tail_next", "unit.cents"});
        auto tail_and_cents = [&](const Moved& m, int without) {
            return Cells{mm(m.tail_m), cents(most(m.cents, without))};
        };
        auto pair = [&](auto&& of, int without) {
            Cells cells;
            for (const auto* side : {&answer_.now, &answer_.next}) {
                const Cells two = *side ? tail_and_cents(of(**side), without) : Cells{none(), none()};
                cells.insert(cells.end(), two.begin(), two.end());
            }
            return cells;
        };
        each_string(off, [&](std::size_t i) {
            return pair([&](const SideEffects& side) -> const Moved& { return side.without[i].moved; },
                        static_cast<int>(i));
        });
        auto play_on = [](const Loss& loss) {
            return Cells{mm(loss.retuned_tail_m), loss.turns ? Parts{signed_number(*loss.turns, 2)} : none()};
        };
        TopicTable& on = table(t, "whatif.play_on", {"whatif.off", "text.tail", "whatif.turns"});
        each_string(on, [&](std::size_t i) { return play_on(after().without[i]); });
        TopicTable& dropped =
            table(t, "whatif.dropped",
                  {"whatif.others", "whatif.tail_now", "unit.cents", "whatif.tail_next", "unit.cents"});
        dropped.rows.push_back(
            {{"whatif.left"},
             pair([](const SideEffects& side) -> const Moved& { return side.dropped.moved; }, 0)});
        TopicTable& right = table(t, "whatif.dropped_right", {"whatif.others", "text.tail", "whatif.turns"});
        right.rows.push_back({{"whatif.retuned"}, play_on(after().dropped)});
        t.cautions = {{"caution.eyes"}, {"caution.repairer"}};
    }

    void tunings() {
        if (answer_.tunings.empty())
            return;
        Topic& t = topic("tunings", "whatif.tunings");
        t.says.push_back(Phrase("whatif.tunings_note")
                             .with("from", notes_of(setup_.now.tuning))
                             .with("to", notes_of(setup_.next.tuning))
                             .with("tail", signed_millimetres(setup_.next.tail_mm, 1)));
        TopicTable& springs = table(t, "whatif.tunings_springs", {"ui.spring_kind", "text.tail"});
        for (const TuningMove& move : answer_.tunings)
            springs.rows.push_back({Phrase("whatif.on_springs").with("springs", choice_of(move.springs)),
                                    {is_stop(move.kind) ? Parts{Word{"whatif.stop"}} : mm(move.tail_m)}});
        if (answer_.better_set)
            t.says.push_back(Phrase("whatif.better_set")
                                 .with("name", Parts{PresetName{answer_.better_set->set}})
                                 .with("tail", mm(answer_.better_set->tail_m)));
    }

    void surroundings() {
        Topic& t = topic("surroundings", "whatif.surroundings");
        t.says.push_back({"whatif.surroundings_note"});
        TopicTable& rows =
            table(t, "whatif.moves", {"", "whatif.tail_now", "unit.cents", "whatif.tail_next", "unit.cents"});
        auto add = [&](const char* key, auto&& of) {
            Cells cells;
            for (const auto* side : {&answer_.now, &answer_.next}) {
                cells.push_back(*side ? mm(of(**side).tail_m - (**side).stand.tail_m(), 2) : none());
                cells.push_back(*side ? cents(most(of(**side).cents)) : none());
            }
            rows.rows.push_back({{key}, std::move(cells)});
        };
        add(setup_.guitar.held == Held::on_its_back ? "whatif.played" : "whatif.on_its_back",
            [](const SideEffects& side) -> const Moved& { return side.turned_over; });
        add("whatif.warmer", [](const SideEffects& side) -> const Moved& { return side.warmer; });
    }

    void loads() {
        Topic& t = topic("loads", "whatif.loads");
        TopicTable& strength =
            table(t, "whatif.strength",
                  {"ui.string", "text.now", "ui.next_short", "whatif.up_now", "whatif.up_next"});
        each_string(strength, [&](std::size_t i) {
            auto used = [&](const BridgeState& state) {
                return state.strings[i].strength_used ? percent(*state.strings[i].strength_used) : none();
            };
            Cells cells = {used(report_.now), report_.next ? used(*report_.next) : none()};
            const Cells up =
                sides([&](const SideEffects& side) { return percent(side.arm.strings[i].strength_up); });
            cells.insert(cells.end(), up.begin(), up.end());
            return cells;
        });
        if (answer_.next)
            for (std::size_t i = 0; i < strings_; ++i)
                if (const double up = answer_.next->arm.strings[i].strength_up; up > strength_warning)
                    t.cautions.push_back(Phrase("whatif.strength_up")
                                             .with("string", strings_ - i)
                                             .with("percent", number(100.0 * up, 0)));
        neck(t);
        screws(t);
    }

    void neck(Topic& t) const {
        const bool two = report_.now.total_tension_n && report_.next;
        const double before = report_.now.total_tension_n.value_or(0.0);
        const double then = report_.carried_out.total_tension_n.value_or(0.0);
        TopicTable& rows =
            table(t, "whatif.neck", {"text.pull", "text.now", "ui.next_short", "whatif.change"});
        for (const auto& [key, unit] : {std::pair("whatif.in_n", 1.0),
                                        {"whatif.in_lbf", newtons_per_lbf},
                                        {"whatif.in_kgf", newtons_per_kgf}})
            rows.rows.push_back({{key},
                                 {before > 0.0 ? Parts{number(before / unit, 1)} : none(),
                                  report_.next ? Parts{number(then / unit, 1)} : none(),
                                  two ? Parts{signed_number((then - before) / unit, 1)} : none()}});
        if (two)
            t.says.push_back(Phrase("sheet.neck")
                                 .with("pull", signed_newtons(then - before, 0))
                                 .with("percent", signed_number(100.0 * (then / before - 1.0), 0)));
    }

    void screws(Topic& t) const {
        const double lasting =
            lasting_share *
            withdrawal_n(shank_of_pitch_m(after().stand.assembly.claw.screw_pitch_m), usual_thread_m);
        t.says.push_back(Phrase("whatif.screws_note")
                             .with("load", newtons(lasting, 0))
                             .with("deep", millimetres(mm_from_metres(usual_thread_m), 0)));
        TopicTable& rows =
            table(t, "whatif.screws", {"whatif.screw", "text.now", "ui.next_short", "whatif.of_lasting"});
        bool too_much = false;
        auto add = [&](const char* key, double ScrewLoads::*load) {
            Cells cells =
                sides([&](const SideEffects& side) { return Parts{newtons(side.screws.*load, 0)}; });
            cells.push_back(percent(after().screws.*load / lasting));
            too_much = too_much || after().screws.*load > lasting;
            rows.rows.push_back({{key}, std::move(cells)});
        };
        add("whatif.bass_screw", &ScrewLoads::bass_n);
        add("whatif.treble_screw", &ScrewLoads::treble_n);
        if (too_much)
            t.cautions.push_back({"whatif.screws_too_much"});
    }

    void intonation() {
        if (answer_.saddle_change.empty())
            return;
        Topic& t = topic("intonation", "whatif.intonation");
        t.says = {{"whatif.height_note"}, {"whatif.saddle_note"}};
        TopicTable& rows =
            table(t, "whatif.intonation_rows", {"ui.string", "whatif.height", "whatif.saddle"});
        each_string(rows, [&](std::size_t i) {
            return Cells{mm(answer_.height_change[i], 2), mm(answer_.saddle_change[i], 2)};
        });
    }

    void nut() {
        Topic& t = topic("nut", "whatif.nut");
        const SideEffects& side = after();
        t.says.push_back(Phrase("whatif.nut_note")
                             .with("clamped", mm(side.bend_clamped.moved.tail_m - side.stand.tail_m(), 2))
                             .with("open", mm(side.bend_open.moved.tail_m - side.stand.tail_m(), 2)));
        t.says.push_back(Phrase("whatif.clamping_note").with("cents", number(clamping_cents, 0)));
        TopicTable& rows =
            table(t, "whatif.fine_tuners",
                  {"ui.string", "whatif.fine_down", "whatif.fine_up", "whatif.before_clamping"});
        each_string(rows, [&](std::size_t i) {
            return Cells{cents(side.fine_tuners[i].down_cents), cents(side.fine_tuners[i].up_cents),
                         cents(side.before_clamping[i])};
        });
    }

    const Setup& setup_;
    const Report& report_;
    const WhatIf& answer_;
    std::size_t strings_;
    std::vector<Topic> topics_;
};

} // namespace

std::vector<Topic> whatif_topics(const Report& report, const WhatIf& answer) {
    return Topics(report, answer).write();
}

} // namespace counterpull
