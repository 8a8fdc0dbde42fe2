#include "engine/say/whatif_json.h"
#include "engine/base/units.h"
#include "engine/document/json_text.h"
#include "engine/say/springs_json.h"

namespace counterpull {

namespace {

Json mm(double metres) {
    return json_number(mm_from_metres(metres));
}
template <class List, class Make>
Json list_of(const List& list, Make&& make) {
    Json all = Json::array();
    for (const auto& entry : list)
        all.push_back(make(entry));
    return all;
}
Json numbers(const std::vector<std::optional<double>>& list) {
    return list_of(list, [](const auto& value) { return json_number(value); });
}

Json moved_json(const Moved& moved) {
    return {{"tail_mm", mm(moved.tail_m)}, {"cents", numbers(moved.cents)}};
}

Json bent_json(const Bent& bent, std::size_t strings) {
    Json json = {{"string", strings - static_cast<std::size_t>(bent.string)},
                 {"by_cents", json_number(bent.by_cents)},
                 {"finger_mm", mm(bent.travel_m)},
                 {"finger_n", json_number(bent.force_n)},
                 {"tension_n", json_number(bent.tension_n)}};
    json.update(moved_json(bent.moved));
    return json;
}

Json loss_json(const Loss& loss) {
    Json json = moved_json(loss.moved);
    json["retuned_tail_mm"] = mm(loss.retuned_tail_m);
    json["turns"] = json_number(loss.turns);
    return json;
}

Json arm_json(const ArmRange& arm) {
    return {{"angle_deg",
             list_of(arm.samples,
                     [](const ArmSample& s) { return json_number(degrees_from_radians(s.angle_rad)); })},
            {"tail_mm", list_of(arm.samples, [](const ArmSample& s) { return mm(s.tail_m); })},
            {"cents", list_of(arm.samples, [](const ArmSample& s) { return numbers(s.cents); })},
            {"strings", list_of(arm.strings,
                                [](const ArmString& s) {
                                    return Json{{"up_cents", json_number(s.up_cents)},
                                                {"down_cents", json_number(s.down_cents)},
                                                {"slack_deg",
                                                 s.slack_rad ? json_number(degrees_from_radians(*s.slack_rad))
                                                             : Json(nullptr)},
                                                {"strength_up", json_number(s.strength_up)}};
                                })},
            {"spread_cents_a_tone_down", json_number(chord_spread_cents(arm, -200.0))}};
}

Json side_json(const SideEffects& side) {
    const std::size_t strings = side.stand.assembly.strung().size();
    auto bent = [&](const Bent& b) { return bent_json(b, strings); };
    return {
        {"bends", list_of(side.bends, bent)},
        {"fixed_bridge_bends", list_of(side.fixed_bends, bent)},
        {"arm", arm_json(side.arm)},
        {"without_string", list_of(side.without, loss_json)},
        {"lowest_a_tone_down", loss_json(side.dropped)},
        {"turned_over", moved_json(side.turned_over)},
        {"warmer_10_k", moved_json(side.warmer)},
        {"screw_n", {json_number(side.screws.bass_n), json_number(side.screws.treble_n)}},
        {"compensation", list_of(side.compensation,
                                 [](const Compensation& c) {
                                     return Json{{"stretch_cents", json_number(c.stretch_cents)},
                                                 {"stiffness_cents", json_number(c.stiffness_cents)},
                                                 {"saddle_back_mm", mm(c.saddle_back_m)}};
                                 })},
        {"nut",
         {{"fine_tuner_cents", list_of(side.fine_tuners,
                                       [](const FineTuner& t) {
                                           return Json{json_number(t.down_cents), json_number(t.up_cents)};
                                       })},
          {"before_clamping_cents", numbers(side.before_clamping)},
          {"third_string_a_tone_clamped", bent(side.bend_clamped)},
          {"third_string_a_tone_open", bent(side.bend_open)}}}};
}

Json tuning_json(const TuningMove& move) {
    return {{"springs", placed_json(move.springs)}, {"set", move.set}, {"tail_mm", mm(move.tail_m)}};
}

} // namespace

std::string whatif_json(const WhatIf& answer) {
    const Json all = {{"format", "counterpull-whatif/1"},
                      {"now", answer.now ? side_json(*answer.now) : Json(nullptr)},
                      {"next", answer.next ? side_json(*answer.next) : Json(nullptr)},
                      {"height_change_mm", list_of(answer.height_change, mm)},
                      {"saddle_back_mm", list_of(answer.saddle_change, mm)},
                      {"tunings", list_of(answer.tunings, tuning_json)},
                      {"better_set", answer.better_set ? tuning_json(*answer.better_set) : Json(nullptr)}};
    return all.dump(1) + "\n";
}

} // namespace counterpull
