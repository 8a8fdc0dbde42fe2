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

// What the bridge turns on: the kind of bridge that it is.
enum class Pivot { knife_edge, two_posts, screw_plate };

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
    std::optional<Pivot> kind;          // nothing: not said
    std::optional<double> return_cents; // nothing: usual of the kind, see return_cents()
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
    std::optional<bool> nut_clamps; // nothing: as nut_locked says, see nut_has_clamps()
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
    std::optional<std::vector<PlacedSpring>> springs; // as the player has chosen
    bool operator==(const NextSetup&) const = default;
};

enum class ReadingKind { in_tune, after_turn, after_pass, bend, drop, wedge_out };
enum class Which { now, next };

// What was on the guitar at a reading, where it is neither "now" nor "next" any more.
struct OwnStrings {
    std::vector<StringSetup> strings;
    std::vector<Pitch> tuning;
    PerString offset_cents;
    bool operator==(const OwnStrings&) const = default;
};

struct Reading {
    ReadingKind kind = ReadingKind::in_tune;
    int string = 0;        // bend and drop only; player's number, the highest string is 1
    double by_cents = 0.0; // bend and drop only
    Which strings = Which::next;
    Which tuning = Which::next;
    std::vector<PlacedSpring> springs;
    std::array<double, 2> turns{}; // bass, treble screw, from "now", + in
    bool from_slack =
        false;           // the same strings, let down until slack and brought up once, since the one before
    bool counted = true; // else the last of them are as expected: they were stopped by the tuner
    std::optional<double> tail_mm;
    std::optional<std::vector<std::optional<double>>> cents; // per string
    std::optional<std::vector<double>>
        aim_cents;                 // after a pass only: what each string was tuned to in its turn
    std::optional<OwnStrings> own; // where given, it stands before `strings` and `tuning`
    bool operator==(const Reading&) const = default;
};

// One step of the job at the bench, and what can come between.
enum class StepKind {
    note,
    test,
    open_the_nut,
    close_the_nut,
    slacken,
    springs,
    turn,
    turn_until,
    strings,
    wedge_in,
    wedge_out,
    tune,
    read,
    wait,
    check,
    finished,
    cannot
};
enum class Mishap { wedge_fell_out, string_broke, spring_off, screw_hard, no_thread, wedge_will_not_go_in };

// How strings are tuned: each to its aim once; once, no matter how near; or again from the first until all
// are within 2 cents.
enum class TuneHow { aimed, rough, plain };

struct StepDone {
    StepKind kind = StepKind::note;
    std::optional<TuneHow> how;                  // tune
    std::optional<std::array<double, 2>> turned; // really, bass and treble screw, + in; nothing: as told
    std::optional<std::vector<PlacedSpring>> off, on;
    std::optional<Mishap> happened; // instead of the step
    std::optional<int> string;      // that broke; player's number, the highest string is 1
    std::optional<int> hook;        // that lost its spring
    int entered = 0;                // so many entries of the log came of it
    bool operator==(const StepDone&) const = default;
};

enum class BenchWay { wedge, plain };

// How the guitar stood when a job was begun that there were readings before.
struct BenchBefore {
    std::array<double, 2> turns{}; // as counted from "now"
    std::vector<PlacedSpring> springs;
    bool strings_on = false; // the strings wanted are on it
    bool operator==(const BenchBefore&) const = default;
};

// Where the job has got to; its readings are in the log.
struct BenchSetup {
    BenchWay way = BenchWay::wedge;
    bool test = false;                 // whether it begins with the test reading
    std::optional<BenchBefore> before; // nothing: it was begun from "now"
    // When the wanted strings, or the wanted tuning, were changed last: so many steps were done by then.
    int strings_since = 0, tuning_since = 0;
    std::vector<StepDone> done;
    bool operator==(const BenchSetup&) const = default;
};

struct Setup {
    std::string title;
    double a4_hz = 440.0;
    GuitarSetup guitar;
    NowSetup now;
    NextSetup next;
    std::vector<Reading> log;
    std::optional<BenchSetup> bench; // nothing: not begun
    bool operator==(const Setup&) const = default;
};

// How many such springs the player has, the default applied.
int springs_owned(const Setup& setup);

// Whether the nut has clamps at all, open or closed; where it is not said, as it is while the work is done.
bool nut_has_clamps(const GuitarSetup& guitar);

// How far apart the lowest string comes back after the arm was pressed and after it was pulled up, in cents:
// friction at the pivot. Where it is not said, what is usual of the kind of bridge: knife edge 3, two posts
// 6, screw plate 10, kind not said 6 (common practice, from memory).
double return_cents(const GuitarSetup& guitar);

// Whether an entry was read on the strings or in the tuning of one side as that stands today. One that
// carries its own was not.
bool is_on_strings(const Reading& entry, Which which);
bool is_in_tuning(const Reading& entry, Which which);
// What is on it by now: as the newest entry says, or where there is none as "now" does.
const std::vector<StringSetup>& fitted_strings(const Setup& setup);
bool wanted_strings_are_on(const Setup& setup);

} // namespace counterpull
