#include "engine/say/work_sheet.h"

#include "engine/base/format.h"
#include "engine/base/units.h"
#include "engine/say/answer.h"
#include "engine/say/string_search_text.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

// Under full pull screws are hard to turn: up to this the strings may stay up, beyond it they come down.
constexpr double few_turns = 0.5;
// A change of the neck's load beyond this asks for a look at relief and intonation (practice).
constexpr double big_pull_change = 0.08;
// Tuner readings are told for this much.
constexpr double told_cents = 10.0;
// A tail off by this much is corrected by the turns told for it.
constexpr double told_tail_mm = 0.5;

class Sheet {
  public:
    Sheet(const Report& report, SheetWay way)
        : setup_(report.setup()), report_(report), best_(report.solution.advised()),
          new_strings_(!is_under_way(setup_) &&
                       (setup_.now.strings != setup_.next.strings || !setup_.now.in_tune)),
          wedge_(way == SheetWay::wedge && report.wedge ? &*report.wedge : nullptr),
          turns_((wedge_ ? wedge_->turns : *best_.turns) - report.solution.turns_made()) {}

    WorkSheet write() {
        buy();
        note_state();
        slacken();
        springs();
        turn();
        strings();
        if (wedge_) {
            put_wedge();
            tune_wedged();
            pull_wedge();
        } else {
            tune();
        }
        read_tail();
        settle();
        way_back();
        return std::move(sheet_);
    }

  private:
    SheetStep& step(Phrase text) {
        return sheet_.steps.emplace_back(SheetStep{std::move(text), {}, std::nullopt});
    }
    // A small turn is made with the strings in tune, an eye on the tuner.
    bool stays_up() const {
        return !wedge_ && report_.tuning && report_.tuning->watch && std::abs(turns_) <= few_turns;
    }
    bool hardly_any_turn() const { return std::abs(turns_) < least_turn; }
    static Amount decimal(double n) { return number(std::abs(n), 2); }
    static Amount mm(double value) { return signed_millimetres(value, 1); }

    void buy() {
        if (new_strings_ && setup_.now.strings != setup_.next.strings)
            sheet_.buy.push_back(
                Phrase("sheet.buy_strings").with("gauges", gauges_in_words(setup_.next.strings)));
    }

    void note_state() {
        SheetStep& s = step(Phrase("sheet.note")
                                .with("tail", mm(setup_.now.tail_mm))
                                .with("hooks", hooks_of(setup_.now.springs)));
        s.blank = Phrase("sheet.blank_tail");
    }

    void slacken() {
        if (!new_strings_ && best_.moved == 0 && hardly_any_turn())
            return;
        if (stays_up())
            return;
        const bool all = new_strings_ || best_.moved > 0;
        SheetStep& s = step(all ? "sheet.slacken_all" : "sheet.slacken_little");
        s.cautions.push_back({"caution.eyes"});
    }

    // Where a spring was before and is not after, it is taken off; and the other way about.
    void springs() {
        if (best_.moved == 0)
            return;
        auto without = [](const Arrangement& these, const Arrangement& in) {
            Arrangement left;
            for (const PlacedSpring& spring : these)
                if (std::find(in.begin(), in.end(), spring) == in.end())
                    left.push_back(spring);
            return left;
        };
        const Arrangement off = without(fitted_springs(setup_), best_.springs);
        const Arrangement on = without(best_.springs, fitted_springs(setup_));
        const std::size_t first = sheet_.steps.size();
        if (!off.empty())
            step(Phrase("sheet.springs_off").with("hooks", hooks_of(off)));
        if (!on.empty())
            step(Phrase("sheet.springs_on")
                     .with("hooks", hooks_of(on))
                     .with("holes", holes_of(on))
                     .with("all", hooks_of(best_.springs)));
        sheet_.steps[first].cautions = {{"caution.spring"}, {"caution.finish"}};
    }

    void turn() {
        if (hardly_any_turn()) {
            step("sheet.leave_claw");
            return;
        }
        SheetStep& s = step(Phrase(turns_ > 0.0 ? "sheet.tighten" : "sheet.loosen")
                                .with("turns", Turns{turns_})
                                .with("decimal", decimal(turns_)));
        s.cautions = {{"caution.driver"}, {"caution.strip"}};
        if (stays_up())
            s.cautions.insert(s.cautions.begin(), {"caution.strings_up"});
        if (const auto& sheet = report_.tuning; stays_up())
            step(Phrase("sheet.watch")
                     .with("string", sheet->aim_cents.size() - static_cast<std::size_t>(*sheet->watch))
                     .with("cents", signed_number(sheet->watch_cents, 0)));
        if (!new_strings_ && best_.moved == 0 && report_.before_retuning_tail_mm && !wedge_)
            step(Phrase("sheet.before_retuning").with("tail", mm(*report_.before_retuning_tail_mm)));
    }

    void strings() {
        if (new_strings_)
            step("sheet.strings");
    }

    void put_wedge() {
        SheetStep& s = step(Phrase(wedge_->side == WedgeSide::neck ? "sheet.wedge_neck" : "sheet.wedge_tail")
                                .with("tail", mm(setup_.next.tail_mm)));
        s.cautions.push_back({"caution.finish"});
    }

    void tune_wedged() { step(Phrase("sheet.tune_once").with("notes", notes_of(setup_.next.tuning))); }

    void pull_wedge() {
        const auto i = static_cast<std::size_t>(wedge_->read_string);
        const std::string string = std::to_string(wedge_->cents.size() - i);
        SheetStep& s = step(Phrase("sheet.wedge_out")
                                .with("string", string)
                                .with("cents", signed_number(wedge_->cents[i], 0))
                                .with("tail", mm(wedge_->tail_mm)));
        s.blank = Phrase("sheet.blank_cents").with("string", string);
        step(Phrase("sheet.ease")
                 .with("turns", number(wedge_->turns_to_ease_per_cent * told_cents, 2))
                 .with("expected", Turns{wedge_surplus_turns})
                 .with("cents", number(told_cents, 0))
                 .with("string", string));
    }

    // Each string's note with its aim: "D2 +80".
    Parts aims(const std::vector<double>& cents) const {
        Parts parts;
        for (std::size_t i = 0; i < cents.size(); ++i) {
            if (i > 0)
                parts.emplace_back(", ");
            parts.emplace_back(setup_.next.tuning[i]);
            parts.emplace_back(" ");
            parts.emplace_back(signed_number(cents[i], 0));
        }
        return parts;
    }

    void tune() {
        const auto& sheet = report_.tuning;
        if (!sheet) {
            step(Phrase("sheet.tune").with("notes", notes_of(setup_.next.tuning)));
            return;
        }
        if (sheet->start == SheetStart::brought_up_roughly)
            step(Phrase("sheet.tune_roughly").with("notes", notes_of(setup_.next.tuning)));
        if (!sheet->why_gentler) {
            step(Phrase("sheet.tune_aims").with("aims", aims(sheet->aim_cents)));
            return;
        }
        step(Phrase("sheet.tune_aims_first").with("aims", aims(sheet->gentler_cents[0])));
        step(Phrase("sheet.tune_aims_then").with("aims", aims(sheet->gentler_cents[1])));
    }

    void read_tail() {
        if (setup_.next.rest == RestWanted::on_the_body) {
            step("sheet.read_on_body");
            return;
        }
        const double tail = report_.next->tail_mm;
        SheetStep& s =
            step(Phrase(wedge_ ? "sheet.read_tail_wedged" : "sheet.read_tail")
                     .with("tail", mm(tail))
                     .with("spread", millimetres(mm_from_metres(ninety_percent * best_.tail_sigma_m), 1)));
        s.blank = Phrase("sheet.blank_tail");
        step(Phrase("sheet.correct")
                 .with("move", millimetres(told_tail_mm, 1))
                 .with("turns", number(told_tail_mm / std::abs(mm_from_metres(best_.per_turn_m)), 2)));
    }

    void settle() {
        SheetStep& s = step(new_strings_ ? "sheet.wait_new" : "sheet.wait");
        s.blank = Phrase("sheet.blank_tail");
        step("sheet.lock");
        const auto before = report_.now.total_tension_n, after = report_.next->total_tension_n;
        if (before && after && std::abs(*after / *before - 1.0) > big_pull_change)
            step(Phrase("sheet.neck")
                     .with("pull", signed_newtons(*after - *before, 0))
                     .with("percent", signed_number(100.0 * (*after / *before - 1.0), 0)));
        else if (new_strings_)
            step("sheet.intonation");
        sheet_.steps.back().cautions.push_back({"caution.repairer"});
    }

    void way_back() {
        if (!hardly_any_turn())
            sheet_.back.push_back(Phrase(*best_.turns > 0.0 ? "sheet.back_loosen" : "sheet.back_tighten")
                                      .with("turns", Turns{*best_.turns})
                                      .with("decimal", decimal(*best_.turns)));
        if (springs_moved(setup_.now.springs, best_.springs) > 0)
            sheet_.back.push_back(Phrase("sheet.back_springs")
                                      .with("hooks", hooks_of(setup_.now.springs))
                                      .with("holes", holes_of(setup_.now.springs)));
        if (!setup_.now.tuning.empty())
            sheet_.back.push_back(Phrase("sheet.back_tuning")
                                      .with("notes", notes_of(setup_.now.tuning))
                                      .with("tail", mm(setup_.now.tail_mm)));
    }

    const Setup& setup_;
    const Report& report_;
    const Advice& best_;
    bool new_strings_;
    const WedgeWay* wedge_;
    double turns_; // still to be made, with the wedge's surplus
    WorkSheet sheet_;
};

} // namespace

SheetWay usual_way(const Report& report) {
    return report.wedge && !is_correction(report.setup()) ? SheetWay::wedge : SheetWay::plain;
}

WorkSheet work_sheet(const Report& report, SheetWay way) {
    return report.next ? Sheet(report, way).write() : WorkSheet{};
}

} // namespace counterpull
