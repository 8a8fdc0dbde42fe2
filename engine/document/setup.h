// The set-up document in memory: one guitar, how it is now, what is wanted next, and the readings since.
//
// These structs mirror the document (format "counterpull-setup/1") name by name, in its own units, which
// every field's name carries; what is left out of a document has the default that stands here. The physics
// works on the SI model made from it (model.h).
#pragma once

#include "engine/base/pitch.h"
#include "engine/mechanics/guitar_string.h"

#include <array>
#include <cstddef>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace counterpull {

// A number for all strings, or one per string, lowest first. The form it was written in is kept.
struct PerString {
    std::vector<double> values{0.0}; // one value: common to all
    bool common() const { return values.size() == 1; }
    double at(std::size_t string) const { return common() ? values[0] : values[string]; }
    bool operator==(const PerString&) const = default;
};

struct StringSetup {
    double gauge_in = 0.0;
    bool wound = false;
    std::optional<double> core_in;
    CoreShape core = CoreShape::round;
    std::optional<double> unit_weight_g_m;
    Wrap wrap = Wrap::nickel_plated_steel;
    bool operator==(const StringSetup&) const = default;
};

struct SpringSetup {
    double rate_n_mm = 0.0;
    double free_length_mm = 0.0;
    double initial_tension_n = 0.0;
    double longest_mm = 0.0;
    bool operator==(const SpringSetup&) const = default;
};

struct PlacedSpring {
    int hook = 0;                      // on the claw, from 0 at the bass side
    int hole = 0;                      // in the block, likewise
    std::optional<SpringSetup> spring; // where it differs from the guitar's springs
    bool operator==(const PlacedSpring&) const = default;
};

struct BridgeSetup {
    PerString saddle_height_mm;
    PerString saddle_setback_mm;
    PerString anchor_mm;
    double block_depth_mm = 0.0;
    double block_setback_mm = 0.0;
    double tail_mm = 0.0;
    std::array<double, 2> tail_limits_mm{};
    double mass_g = 0.0;
    double mass_setback_mm = 0.0;
    bool operator==(const BridgeSetup&) const = default;
};

struct BaySetup {
    std::vector<double> hole_mm;
    std::vector<double> hook_mm;
    double claw_depth_mm = 0.0;
    double screw_span_mm = 0.0;
    double screw_pitch_mm = 0.0;
    double turns_in_left = 0.0;
    double turns_out_left = 0.0;
    bool operator==(const BaySetup&) const = default;
};

enum class Held { playing, on_its_back };
enum class Basis { usual, measured, guess };

// Springs of another kind that lie ready beside the guitar's own.
struct OtherSprings {
    int count = 0; // not counting those fitted
    SpringSetup spring;
    bool operator==(const OtherSprings&) const = default;
};

struct GuitarSetup {
    PerString scale_mm;
    bool nut_locked = false;
    PerString headstock_mm;
    Held held = Held::playing;
    BridgeSetup bridge;
    BaySetup bay;
    SpringSetup spring;
    std::optional<int> springs_owned; // left out: as many as are fitted or 5, whichever is more
    std::vector<OtherSprings> other_springs;
    std::vector<std::pair<std::string, Basis>> basis; // path under guitar, in the order written
    bool operator==(const GuitarSetup&) const = default;
};

struct NowSetup {
    std::vector<Pitch> tuning; // empty only where in_tune is false
    PerString offset_cents;
    std::vector<StringSetup> strings; // likewise
    std::vector<PlacedSpring> springs;
    double tail_mm = 0.0;
    std::optional<std::array<double, 2>> tail_sides_mm; // bass, treble
    bool in_tune = true;
    std::optional<std::vector<double>> spring_mm; // one per spring placed
    bool operator==(const NowSetup&) const = default;
};

enum class RestWanted { floating, on_the_body };

struct NextSetup {
    std::vector<Pitch> tuning;
    PerString offset_cents;
    std::vector<StringSetup> strings;
    double tail_mm = 0.0;
    RestWanted rest = RestWanted::floating;
    bool operator==(const NextSetup&) const = default;
};

enum class ReadingKind { in_tune, after_turn, after_pass, bend, drop, wedge_out };
enum class Which { now, next };

struct Reading {
    ReadingKind kind = ReadingKind::in_tune;
    int string = 0;        // bend and drop only; player's number, the highest string is 1
    double by_cents = 0.0; // bend and drop only
    Which strings = Which::next;
    Which tuning = Which::next;
    std::vector<PlacedSpring> springs;
    std::array<double, 2> turns{}; // bass, treble screw, from "now", + in
    std::optional<double> tail_mm;
    std::optional<std::vector<std::optional<double>>> cents; // per string
    std::optional<std::vector<double>>
        aim_cents; // after a pass only: what each string was tuned to in its turn
    bool operator==(const Reading&) const = default;
};

struct Setup {
    std::string title;
    double a4_hz = 440.0;
    GuitarSetup guitar;
    NowSetup now;
    NextSetup next;
    std::vector<Reading> log;
    bool operator==(const Setup&) const = default;
};

// How many such springs the player has, the default applied.
int springs_owned(const Setup& setup);

} // namespace counterpull
