// The rows. What a row says, and what may be done to it, is told in fields.h.
#include "engine/document/member.h"

namespace counterpull {

namespace {

// Choices, in the order of their enums.
constexpr std::string_view core_names[] = {"round", "hex"};
constexpr std::string_view wrap_names[] = {"nickel plated steel", "nickel", "stainless steel"};
constexpr std::string_view held_names[] = {"playing", "on its back"};
constexpr std::string_view basis_names[] = {"usual", "measured", "guess"};
constexpr std::string_view rest_names[] = {"floating", "on the body"};
constexpr std::string_view reading_names[] = {"in tune", "after turn", "after pass",
                                              "bend",    "drop",       "wedge out"};
constexpr std::string_view which_names[] = {"now", "next"};
constexpr std::string_view kind_names[] = {"knife edge", "two posts", "screw plate"};
constexpr std::string_view way_names[] = {"wedge", "plain"};
constexpr std::string_view step_names[] = {"note",      "test",  "open the nut", "close the nut", "slacken",
                                           "springs",   "turn",  "turn until",   "strings",       "wedge in",
                                           "wedge out", "tune",  "read",         "wait",          "check",
                                           "finished",  "cannot"};
constexpr std::string_view how_names[] = {"aimed", "rough", "plain"};
constexpr std::string_view mishap_names[] = {"wedge fell out", "string broke", "spring off",
                                             "screw hard",     "no thread",    "wedge will not go in"};

// Conditions.
bool always(const void*) {
    return true;
}
bool strings_are_off(const void* now) {
    return !static_cast<const NowSetup*>(now)->in_tune;
}
bool one_string_is_moved(const void* reading) {
    const ReadingKind kind = static_cast<const Reading*>(reading)->kind;
    return kind == ReadingKind::bend || kind == ReadingKind::drop;
}
bool after_a_pass(const void* reading) {
    return static_cast<const Reading*>(reading)->kind == ReadingKind::after_pass;
}

// How sure a measurement is (common practice, from memory).
constexpr Sigma share(double of_its_value) {
    return {of_its_value, 0.0};
}
constexpr Sigma by_ruler{0.0, 0.3};
constexpr Sigma by_scales{0.03, 0.0};
constexpr Sigma by_threads{0.01, 0.0};

constexpr Field string_fields[] = {
    {.key = "gauge_in", .member = member<&StringSetup::gauge_in>, .range = {0.005, 0.150, 3}},
    {.key = "wound", .member = member<&StringSetup::wound>},
    {.key = "core_in", .member = member<&StringSetup::core_in>, .range = {0.004, 0.100, 3}},
    {.key = "core", .member = member<&StringSetup::core>, .names = core_names, .left_out = always},
    {.key = "unit_weight_g_m", .member = member<&StringSetup::unit_weight_g_m>, .range = {0.05, 80, 2}},
    {.key = "wrap", .member = member<&StringSetup::wrap>, .names = wrap_names, .left_out = always},
};

constexpr Field spring_fields[] = {
    {.key = "rate_n_mm",
     .member = member<&SpringSetup::rate_n_mm>,
     .range = {0.1, 20, 1},
     .prior = {Unknown::spring_rate, share(0.20), by_scales}},
    {.key = "free_length_mm",
     .member = member<&SpringSetup::free_length_mm>,
     .range = {20, 150},
     .prior = {Unknown::free_length, {0.0, 4.0}, by_ruler}},
    {.key = "initial_tension_n",
     .member = member<&SpringSetup::initial_tension_n>,
     .range = {0, 60},
     .prior = {Unknown::initial_tension, share(0.40), by_scales}},
    {.key = "longest_mm", .member = member<&SpringSetup::longest_mm>, .range = {21, 300}},
};

constexpr Field other_springs_fields[] = {
    {.key = "count", .member = member<&OtherSprings::count>, .range = {1, 6}},
    {.key = "spring", .member = member<&OtherSprings::spring>},
};

constexpr Field placed_spring_fields[] = {
    {.key = "hook", .member = member<&PlacedSpring::hook>, .range = {0, 23}},
    {.key = "hole", .member = member<&PlacedSpring::hole>, .range = {0, 23}},
    {.key = "spring", .member = member<&PlacedSpring::spring>},
};

constexpr Field bridge_fields[] = {
    {.key = "saddle_height_mm",
     .member = member<&BridgeSetup::saddle_height_mm>,
     .range = {2, 30},
     .prior = {Unknown::saddle_height, share(0.08), by_ruler}},
    {.key = "saddle_setback_mm",
     .member = member<&BridgeSetup::saddle_setback_mm>,
     .range = {-10, 80},
     .prior = {Unknown::saddle_setback, share(0.20), by_ruler}},
    {.key = "anchor_mm",
     .member = member<&BridgeSetup::anchor_mm>,
     .range = {0, 150},
     .prior = {Unknown::dead_length, share(0.20), by_ruler}},
    {.key = "block_depth_mm",
     .member = member<&BridgeSetup::block_depth_mm>,
     .range = {10, 80},
     .prior = {Unknown::block_depth, share(0.04), by_ruler}},
    {.key = "block_setback_mm",
     .member = member<&BridgeSetup::block_setback_mm>,
     .range = {-20, 50},
     .prior = {Unknown::block_setback, share(0.25), by_ruler}},
    {.key = "tail_mm", .member = member<&BridgeSetup::tail_mm>, .range = {10, 120}},
    {.key = "tail_limits_mm", .member = member<&BridgeSetup::tail_limits_mm>, .range = {-60, 60}},
    {.key = "mass_g", .member = member<&BridgeSetup::mass_g>, .range = {0, 2000}, .left_out = always},
    {.key = "mass_setback_mm",
     .member = member<&BridgeSetup::mass_setback_mm>,
     .range = {-50, 100},
     .left_out = always},
    {.key = "kind", .member = member<&BridgeSetup::kind>, .names = kind_names, .since = 'B'},
    {.key = "return_cents", .member = member<&BridgeSetup::return_cents>, .range = {0, 60}, .since = 'B'},
};

constexpr Field bay_fields[] = {
    {.key = "hole_mm", .member = member<&BaySetup::hole_mm>, .range = {-80, 80}},
    {.key = "hook_mm", .member = member<&BaySetup::hook_mm>, .range = {-80, 80}},
    {.key = "claw_depth_mm", .member = member<&BaySetup::claw_depth_mm>, .range = {5, 80}},
    {.key = "screw_span_mm", .member = member<&BaySetup::screw_span_mm>, .range = {10, 120}},
    {.key = "screw_pitch_mm",
     .member = member<&BaySetup::screw_pitch_mm>,
     .range = {0.3, 5, 1},
     .prior = {Unknown::screw_pitch, share(0.06), by_threads}},
    {.key = "turns_in_left", .member = member<&BaySetup::turns_in_left>, .range = {0, 40}},
    {.key = "turns_out_left", .member = member<&BaySetup::turns_out_left>, .range = {0, 40}},
};

constexpr Field guitar_fields[] = {
    {.key = "scale_mm", .member = member<&GuitarSetup::scale_mm>, .range = {300, 1000}},
    {.key = "nut_locked", .member = member<&GuitarSetup::nut_locked>, .left_out = always},
    {.key = "nut_clamps", .member = member<&GuitarSetup::nut_clamps>, .since = 'B'},
    // Stretched by the same unknown as the anchor, which stands for both.
    {.key = "headstock_mm",
     .member = member<&GuitarSetup::headstock_mm>,
     .range = {0, 400},
     .prior = {{}, share(0.20), by_ruler}},
    {.key = "held", .member = member<&GuitarSetup::held>, .names = held_names, .left_out = always},
    {.key = "bridge", .member = member<&GuitarSetup::bridge>},
    {.key = "bay", .member = member<&GuitarSetup::bay>},
    {.key = "spring", .member = member<&GuitarSetup::spring>},
    {.key = "springs_owned", .member = member<&GuitarSetup::springs_owned>, .range = {1, 30}},
    {.key = "other_springs", .member = member<&GuitarSetup::other_springs>, .left_out = always},
    {.key = "basis", .member = member<&GuitarSetup::basis>, .names = basis_names, .left_out = always},
};

constexpr Field now_fields[] = {
    {.key = "in_tune", .member = member<&NowSetup::in_tune>, .left_out = always},
    {.key = "tuning", .member = member<&NowSetup::tuning>, .left_out = strings_are_off},
    {.key = "offset_cents",
     .member = member<&NowSetup::offset_cents>,
     .range = {-100, 100},
     .left_out = always},
    {.key = "strings", .member = member<&NowSetup::strings>, .left_out = strings_are_off},
    {.key = "springs", .member = member<&NowSetup::springs>},
    {.key = "tail_mm", .member = member<&NowSetup::tail_mm>, .range = {-60, 60}},
    {.key = "tail_sides_mm", .member = member<&NowSetup::tail_sides_mm>, .range = {-60, 60}},
    {.key = "spring_mm", .member = member<&NowSetup::spring_mm>, .range = {20, 300}},
};

constexpr Field next_fields[] = {
    {.key = "tuning", .member = member<&NextSetup::tuning>},
    {.key = "offset_cents",
     .member = member<&NextSetup::offset_cents>,
     .range = {-100, 100},
     .left_out = always},
    {.key = "strings", .member = member<&NextSetup::strings>},
    {.key = "tail_mm", .member = member<&NextSetup::tail_mm>, .range = {-60, 60}, .left_out = always},
    {.key = "rest", .member = member<&NextSetup::rest>, .names = rest_names, .left_out = always},
    {.key = "springs", .member = member<&NextSetup::springs>, .since = 'B'},
};

constexpr Field own_fields[] = {
    {.key = "strings", .member = member<&OwnStrings::strings>, .since = 'B'},
    {.key = "tuning", .member = member<&OwnStrings::tuning>, .since = 'B'},
    {.key = "offset_cents",
     .member = member<&OwnStrings::offset_cents>,
     .range = {-100, 100},
     .left_out = always,
     .since = 'B'},
};

constexpr Field reading_fields[] = {
    {.key = "reading", .member = member<&Reading::kind>, .names = reading_names, .left_out = always},
    {.key = "string", .member = member<&Reading::string>, .range = {1, 12}, .there = one_string_is_moved},
    {.key = "by_cents",
     .member = member<&Reading::by_cents>,
     .range = {1, 1200},
     .there = one_string_is_moved},
    {.key = "strings", .member = member<&Reading::strings>, .names = which_names},
    {.key = "tuning", .member = member<&Reading::tuning>, .names = which_names},
    {.key = "springs", .member = member<&Reading::springs>},
    {.key = "turns", .member = member<&Reading::turns>, .range = {-40, 40}},
    {.key = "tail_mm", .member = member<&Reading::tail_mm>, .range = {-60, 60}},
    {.key = "cents", .member = member<&Reading::cents>, .range = {-2400, 2400}},
    {.key = "aim_cents",
     .member = member<&Reading::aim_cents>,
     .range = {-2400, 2400},
     .there = after_a_pass},
    {.key = "own", .member = member<&Reading::own>, .since = 'B'},
    {.key = "from_slack", .member = member<&Reading::from_slack>, .left_out = always, .since = 'B'},
    {.key = "counted", .member = member<&Reading::counted>, .left_out = always, .since = 'B'},
};

constexpr Field step_fields[] = {
    {.key = "do", .member = member<&StepDone::kind>, .names = step_names, .since = 'B'},
    {.key = "how", .member = member<&StepDone::how>, .names = how_names, .since = 'B'},
    {.key = "turned", .member = member<&StepDone::turned>, .range = {-40, 40}, .since = 'B'},
    {.key = "off", .member = member<&StepDone::off>, .since = 'B'},
    {.key = "on", .member = member<&StepDone::on>, .since = 'B'},
    {.key = "happened", .member = member<&StepDone::happened>, .names = mishap_names, .since = 'B'},
    {.key = "string", .member = member<&StepDone::string>, .range = {1, 12}, .since = 'B'},
    {.key = "hook", .member = member<&StepDone::hook>, .range = {0, 23}, .since = 'B'},
    {.key = "entered",
     .member = member<&StepDone::entered>,
     .range = {0, 8},
     .left_out = always,
     .since = 'B'},
};

constexpr Field before_fields[] = {
    {.key = "turns", .member = member<&BenchBefore::turns>, .range = {-40, 40}, .since = 'B'},
    {.key = "springs", .member = member<&BenchBefore::springs>, .since = 'B'},
    {.key = "strings_on", .member = member<&BenchBefore::strings_on>, .since = 'B'},
};

constexpr Field bench_fields[] = {
    {.key = "way", .member = member<&BenchSetup::way>, .names = way_names, .since = 'B'},
    {.key = "test", .member = member<&BenchSetup::test>, .since = 'B'},
    {.key = "before", .member = member<&BenchSetup::before>, .since = 'B'},
    {.key = "strings_since",
     .member = member<&BenchSetup::strings_since>,
     .range = {0, 200},
     .left_out = always,
     .since = 'B'},
    {.key = "tuning_since",
     .member = member<&BenchSetup::tuning_since>,
     .range = {0, 200},
     .left_out = always,
     .since = 'B'},
    {.key = "done", .member = member<&BenchSetup::done>, .left_out = always, .since = 'B'},
};

// What a player answers at the bench is no part of the document.
constexpr Field answer_fields[] = {
    {.key = "tail_mm", .member = member<&Answer::tail_mm>, .range = {-60, 60}},
    {.key = "tail_sides_mm", .member = member<&Answer::tail_sides_mm>, .range = {-60, 60}},
    {.key = "cents", .member = member<&Answer::cents>, .range = {-2400, 2400}},
    {.key = "in_tune", .member = member<&Answer::in_tune>, .left_out = always},
    {.key = "turned", .member = member<&Answer::turned>, .range = {-40, 40}},
    {.key = "happened", .member = member<&Answer::happened>, .names = mishap_names},
    {.key = "string", .member = member<&Answer::string>, .range = {1, 12}},
    {.key = "hook", .member = member<&Answer::hook>, .range = {0, 23}},
};

constexpr Field setup_fields[] = {
    {.key = "title", .member = member<&Setup::title>, .left_out = always},
    {.key = "a4_hz", .member = member<&Setup::a4_hz>, .range = {390, 470}, .left_out = always},
    {.key = "guitar", .member = member<&Setup::guitar>},
    {.key = "now", .member = member<&Setup::now>},
    {.key = "next", .member = member<&Setup::next>},
    {.key = "log", .member = member<&Setup::log>, .left_out = always},
    {.key = "bench", .member = member<&Setup::bench>, .since = 'B'},
};

// A number without a range, or a choice without names, is a row half written.
constexpr bool complete(std::span<const Field> fields) {
    for (const Field& field : fields) {
        const bool choice = field.member.kind == Kind::choice || field.member.kind == Kind::bases;
        if (is_numeric(field.member.kind) != (field.range.low < field.range.high) ||
            choice != !field.names.empty())
            return false;
    }
    return true;
}

template <class S, const auto& fields>
const Group& group() {
    static_assert(complete(fields));
    static constexpr Group all = group_with<S>(fields);
    return all;
}
template <class S, const auto& fields>
const Group& listed_group() {
    static_assert(complete(fields));
    static constexpr Group all = listed_group_with<S>(fields);
    return all;
}

} // namespace

template <>
const Group& group_of<Setup>() {
    return group<Setup, setup_fields>();
}
template <>
const Group& group_of<GuitarSetup>() {
    return group<GuitarSetup, guitar_fields>();
}
template <>
const Group& group_of<BridgeSetup>() {
    return group<BridgeSetup, bridge_fields>();
}
template <>
const Group& group_of<BaySetup>() {
    return group<BaySetup, bay_fields>();
}
template <>
const Group& group_of<SpringSetup>() {
    return group<SpringSetup, spring_fields>();
}
template <>
const Group& group_of<OtherSprings>() {
    return listed_group<OtherSprings, other_springs_fields>();
}
template <>
const Group& group_of<PlacedSpring>() {
    return listed_group<PlacedSpring, placed_spring_fields>();
}
template <>
const Group& group_of<StringSetup>() {
    return listed_group<StringSetup, string_fields>();
}
template <>
const Group& group_of<NowSetup>() {
    return group<NowSetup, now_fields>();
}
template <>
const Group& group_of<NextSetup>() {
    return group<NextSetup, next_fields>();
}
template <>
const Group& group_of<Reading>() {
    return listed_group<Reading, reading_fields>();
}
template <>
const Group& group_of<OwnStrings>() {
    return group<OwnStrings, own_fields>();
}
template <>
const Group& group_of<BenchSetup>() {
    return group<BenchSetup, bench_fields>();
}
template <>
const Group& group_of<BenchBefore>() {
    return group<BenchBefore, before_fields>();
}
template <>
const Group& group_of<Answer>() {
    return group<Answer, answer_fields>();
}
template <>
const Group& group_of<StepDone>() {
    return listed_group<StepDone, step_fields>();
}

} // namespace counterpull
