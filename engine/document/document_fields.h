// Every field of the set-up document, once. Reader, writer and range check walk the same list, each as a
// visitor with the methods used here. The last argument, where there is one, is the value of a field that is
// left out; a field without it is required.
#pragma once

#include "engine/document/setup.h"

#include <array>
#include <concepts>
#include <string_view>
#include <type_traits>

namespace counterpull::fields {

template <class S, class T>
concept As = std::same_as<std::remove_const_t<S>, T>;

template <class E>
struct Choice {
    std::string_view name;
    E value;
};

inline constexpr std::array core_names = {Choice<CoreShape>{"round", CoreShape::round},
                                          Choice<CoreShape>{"hex", CoreShape::hex}};
inline constexpr std::array wrap_names = {Choice<Wrap>{"nickel plated steel", Wrap::nickel_plated_steel},
                                          Choice<Wrap>{"nickel", Wrap::nickel},
                                          Choice<Wrap>{"stainless steel", Wrap::stainless_steel}};
inline constexpr std::array held_names = {Choice<Held>{"playing", Held::playing},
                                          Choice<Held>{"on its back", Held::on_its_back}};
inline constexpr std::array basis_names = {Choice<Basis>{"usual", Basis::usual},
                                           Choice<Basis>{"measured", Basis::measured},
                                           Choice<Basis>{"guess", Basis::guess}};
inline constexpr std::array rest_names = {Choice<RestWanted>{"floating", RestWanted::floating},
                                          Choice<RestWanted>{"on the body", RestWanted::on_the_body}};
inline constexpr std::array reading_names = {Choice<ReadingKind>{"in tune", ReadingKind::in_tune},
                                             Choice<ReadingKind>{"after turn", ReadingKind::after_turn},
                                             Choice<ReadingKind>{"after pass", ReadingKind::after_pass},
                                             Choice<ReadingKind>{"bend", ReadingKind::bend},
                                             Choice<ReadingKind>{"drop", ReadingKind::drop},
                                             Choice<ReadingKind>{"wedge out", ReadingKind::wedge_out}};
inline constexpr std::array which_names = {Choice<Which>{"now", Which::now},
                                           Choice<Which>{"next", Which::next}};

// The first half of a field's name in the table of ranges.
constexpr std::string_view group_of(const Setup&) {
    return "setup";
}
constexpr std::string_view group_of(const GuitarSetup&) {
    return "guitar";
}
constexpr std::string_view group_of(const BridgeSetup&) {
    return "bridge";
}
constexpr std::string_view group_of(const BaySetup&) {
    return "bay";
}
constexpr std::string_view group_of(const SpringSetup&) {
    return "spring";
}
constexpr std::string_view group_of(const OtherSprings&) {
    return "other";
}
constexpr std::string_view group_of(const PlacedSpring&) {
    return "place";
}
constexpr std::string_view group_of(const StringSetup&) {
    return "strings";
}
constexpr std::string_view group_of(const NowSetup&) {
    return "now";
}
constexpr std::string_view group_of(const NextSetup&) {
    return "next";
}
constexpr std::string_view group_of(const Reading&) {
    return "log";
}

template <class V, As<StringSetup> S>
void visit(V& v, S& s) {
    v.number("gauge_in", s.gauge_in);
    v.flag("wound", s.wound);
    v.maybe("core_in", s.core_in);
    v.choice("core", s.core, core_names, CoreShape::round);
    v.maybe("unit_weight_g_m", s.unit_weight_g_m);
    v.choice("wrap", s.wrap, wrap_names, Wrap::nickel_plated_steel);
}

template <class V, As<SpringSetup> S>
void visit(V& v, S& s) {
    v.number("rate_n_mm", s.rate_n_mm);
    v.number("free_length_mm", s.free_length_mm);
    v.number("initial_tension_n", s.initial_tension_n);
    v.number("longest_mm", s.longest_mm);
}

template <class V, As<OtherSprings> S>
void visit(V& v, S& s) {
    v.index("count", s.count);
    v.object("spring", s.spring);
}

template <class V, As<PlacedSpring> S>
void visit(V& v, S& s) {
    v.index("hook", s.hook);
    v.index("hole", s.hole);
    v.maybe_object("spring", s.spring);
}

template <class V, As<BridgeSetup> S>
void visit(V& v, S& s) {
    v.per_string("saddle_height_mm", s.saddle_height_mm);
    v.per_string("saddle_setback_mm", s.saddle_setback_mm);
    v.per_string("anchor_mm", s.anchor_mm);
    v.number("block_depth_mm", s.block_depth_mm);
    v.number("block_setback_mm", s.block_setback_mm);
    v.number("tail_mm", s.tail_mm);
    v.pair("tail_limits_mm", s.tail_limits_mm);
    v.number("mass_g", s.mass_g, 0.0);
    v.number("mass_setback_mm", s.mass_setback_mm, 0.0);
}

template <class V, As<BaySetup> S>
void visit(V& v, S& s) {
    v.numbers("hole_mm", s.hole_mm);
    v.numbers("hook_mm", s.hook_mm);
    v.number("claw_depth_mm", s.claw_depth_mm);
    v.number("screw_span_mm", s.screw_span_mm);
    v.number("screw_pitch_mm", s.screw_pitch_mm);
    v.number("turns_in_left", s.turns_in_left);
    v.number("turns_out_left", s.turns_out_left);
}

template <class V, As<GuitarSetup> S>
void visit(V& v, S& s) {
    v.per_string("scale_mm", s.scale_mm);
    v.flag("nut_locked", s.nut_locked, false);
    v.per_string("headstock_mm", s.headstock_mm);
    v.choice("held", s.held, held_names, Held::playing);
    v.object("bridge", s.bridge);
    v.object("bay", s.bay);
    v.object("spring", s.spring);
    v.maybe_index("springs_owned", s.springs_owned);
    v.objects("other_springs", s.other_springs, true);
    v.choices("basis", s.basis, basis_names);
}

template <class V, As<NowSetup> S>
void visit(V& v, S& s) {
    // First, since with the strings off they and their tuning may be left out.
    v.flag("in_tune", s.in_tune, true);
    v.pitches("tuning", s.tuning, !s.in_tune);
    v.per_string("offset_cents", s.offset_cents, 0.0);
    v.objects("strings", s.strings, !s.in_tune);
    v.objects("springs", s.springs, false);
    v.number("tail_mm", s.tail_mm);
    v.maybe_pair("tail_sides_mm", s.tail_sides_mm);
    v.maybe_numbers("spring_mm", s.spring_mm);
}

template <class V, As<NextSetup> S>
void visit(V& v, S& s) {
    v.pitches("tuning", s.tuning, false);
    v.per_string("offset_cents", s.offset_cents, 0.0);
    v.objects("strings", s.strings, false);
    v.number("tail_mm", s.tail_mm, 0.0);
    v.choice("rest", s.rest, rest_names, RestWanted::floating);
}

template <class V, As<Reading> S>
void visit(V& v, S& s) {
    v.choice("reading", s.kind, reading_names, ReadingKind::in_tune);
    if (s.kind == ReadingKind::bend || s.kind == ReadingKind::drop) {
        v.index("string", s.string);
        v.number("by_cents", s.by_cents);
    }
    v.choice("strings", s.strings, which_names);
    v.choice("tuning", s.tuning, which_names);
    v.objects("springs", s.springs, false);
    v.pair("turns", s.turns);
    v.maybe("tail_mm", s.tail_mm);
    v.maybe_readings("cents", s.cents);
    if (s.kind == ReadingKind::after_pass)
        v.maybe_numbers("aim_cents", s.aim_cents);
}

template <class V, As<Setup> S>
void visit(V& v, S& s) {
    v.text("title", s.title);
    v.number("a4_hz", s.a4_hz, 440.0);
    v.object("guitar", s.guitar);
    v.object("now", s.now);
    v.object("next", s.next);
    v.objects("log", s.log, true);
}

} // namespace counterpull::fields
