#include "tests/reference/hidden_guitar.h"

#include "engine/base/units.h"
#include "engine/document/presets.h"

#include <algorithm>
#include <cmath>

namespace reference {

using namespace counterpull;

namespace {

// 1 σ of what is usual (common practice, from memory), relative but for the free length.
constexpr double rate_share = 0.20, each_rate_share = 0.04;
constexpr double tension_share = 0.40, each_tension_share = 0.10;
constexpr double free_length_mm = 4.0, each_free_length_mm = 0.3;
constexpr double height_share = 0.08, setback_share = 0.20, depth_share = 0.04, block_setback_share = 0.25;
constexpr double pitch_share = 0.06, dead_share = 0.20, unit_weight_share = 0.015;
// Cores, 8 % in diameter in all: a maker's habit, and each string's own.
constexpr double core_share = 0.074, each_core_share = 0.03;

// How stiff floats are: mm of tail per turn of both screws (common practice: ¼ turn moves it 0.6 to 1.2 mm).
constexpr double usual_mm_per_turn = 3.4, usual_spread = 0.35;
// Friction holds within ± this torque for each cent of return (a worn knife edge, μ 0.2, radius 0.3 mm, load
// 900 N: ±0.03 N·m at 12 cents; from memory).
constexpr double friction_nm_a_cent = 0.0025;

} // namespace

HiddenGuitar::HiddenGuitar(const Setup& setup, std::uint64_t number, std::optional<double> springs_off)
    : setup_(setup), random_(number * 7919 + 17) {
    draw(springs_off);
    possible_ = exists();
    const auto& limits = setup_.guitar.bridge.tail_limits_mm;
    setup_.now.tail_mm =
        std::clamp(setup_.now.tail_mm + noise(hand_ruler_mm), limits[0] + 0.1, limits[1] - 0.1);
}

void HiddenGuitar::draw(std::optional<double> springs_off) {
    const double drawn = factor(rate_share), rate = springs_off.value_or(drawn);
    const double tension = factor(tension_share), longer = noise(free_length_mm);
    for (SpringTruth& spring : springs_truth_)
        spring = {rate * factor(each_rate_share), tension * factor(each_tension_share),
                  longer + noise(each_free_length_mm)};
    saddle_height_ = factor(height_share);
    saddle_setback_ = factor(setback_share);
    block_depth_ = factor(depth_share);
    block_setback_ = factor(block_setback_share);
    screw_pitch_ = factor(pitch_share);
    dead_length_ = factor(dead_share);
    const double core = factor(core_share);
    for (auto* strings : {&now_, &next_})
        for (StringTruth& string : *strings)
            string = {factor(unit_weight_share), core * factor(each_core_share)};
    for (std::size_t i = 0; i < setup_.next.strings.size(); ++i)
        if (i < setup_.now.strings.size() && setup_.now.strings[i] == setup_.next.strings[i])
            next_[i] = now_[i]; // it stays on
}

// The tail truly stands where the set-up says, in tune, held by friction somewhere in its band.
bool HiddenGuitar::exists() {
    springs_ = setup_.now.springs;
    held_nm_ = friction();
    const double kept = std::uniform_real_distribution<double>()(random_);
    const Assembly now = assembly();
    Problems problems;
    const auto claw = claw_now(setup_, now, problems);
    if (!claw)
        return false;
    claw_ = *claw;
    strung_.angle_rad = angle_of_tail_rad(setup_, setup_.now.tail_mm);
    strung_.lengths_m = lengths_at_pitch(now, Attitude(strung_.angle_rad));
    if (net_torque_at_pitch(now, claw_, strung_.angle_rad).slope >= 0.0)
        return false;
    for (const SpringOnBridge& spring : now.sprung())
        if (spring_length_m(now, spring, claw_, Attitude(strung_.angle_rad)) <= spring.spring.free_length_m)
            return false;
    per_turn_mm_ = usual_per_turn_mm();
    if (per_turn_mm_ >= 0.0)
        return false;
    const double off = std::log(-per_turn_mm_ / usual_mm_per_turn) / usual_spread;
    return kept < std::exp(-0.5 * off * off);
}

double HiddenGuitar::friction() {
    const double b = friction_nm_a_cent * return_cents(setup_.guitar);
    return std::uniform_real_distribution<double>(-b, b)(random_);
}

Assembly HiddenGuitar::assembly_of(const Fitting& fitting,
                                   const std::array<StringTruth, most_strings>& strings) const {
    Assembly all = counterpull::assembly_of(setup_, fitting);
    all.bridge.block_depth_m *= block_depth_;
    all.bridge.block_setback_m *= block_setback_;
    all.claw.screw_pitch_m *= screw_pitch_;
    for (std::size_t i = 0; i < all.strung().size(); ++i) {
        StringOnBridge& string = all.strings[i];
        string.saddle_height_m *= saddle_height_;
        string.saddle_setback_m *= saddle_setback_;
        string.dead_m *= dead_length_;
        StringBuild build = build_of(fitting.strings[i]);
        if (build.wound && !build.core_m) {
            build.core_m =
                std::min(estimated_core_m(build.diameter_m) * strings[i].core, 0.95 * build.diameter_m);
            string.mechanics = mechanics_of(build);
        }
        string.mechanics.unit_weight_kg_m *= strings[i].weight;
    }
    for (std::size_t i = 0; i < all.sprung().size(); ++i) {
        const SpringTruth& truth = spring_truth(fitting.springs[i]);
        Spring& spring = all.springs[i].spring;
        spring.rate_n_m *= truth.rate;
        spring.initial_tension_n *= truth.initial_tension;
        spring.free_length_m += metres_from_mm(truth.longer_mm);
    }
    return all;
}

Assembly HiddenGuitar::assembly_now() const {
    const Fitting now = fitting_now(setup_);
    return assembly_of({now.strings, now.tuning, now.offset_cents, springs_, Which::now}, now_);
}

Assembly HiddenGuitar::assembly_next(const Arrangement& springs) const {
    return assembly_of(fitting_next(setup_, springs), next_);
}

Assembly HiddenGuitar::assembly() const {
    Assembly all = next_on_ ? assembly_next(springs_) : assembly_now();
    all.unexplained_nm = held_nm_;
    return all;
}

double HiddenGuitar::usual_per_turn_mm() const {
    static const std::vector<StringSetup> strings = [] {
        for (const StringSetPreset& preset : presets().string_sets)
            if (preset.name == "10–46")
                return preset.strings;
        return std::vector<StringSetup>{};
    }();
    static const std::vector<Pitch> tuning = {{'E', 0, 2}, {'A', 0, 2}, {'D', 0, 3},
                                              {'G', 0, 3}, {'B', 0, 3}, {'E', 0, 4}};
    static const PerString offsets{{0.0}};
    const Arrangement three = {{0, 0, {}}, {2, 2, {}}, {4, 4, {}}};
    const Assembly usual = assembly_of({strings, tuning, offsets, three, std::nullopt}, now_);
    return mm_from_metres(tail_per_turn_balanced_m(usual, 0.0).value_or(0.0));
}

void HiddenGuitar::turn(const Arrangement& springs, double more_turns) {
    claw_ = claw_.turned(more_turns + noise(hand_screw_turns));
    turn_nothing(springs);
}

void HiddenGuitar::turn_nothing(const Arrangement& springs) {
    springs_ = springs;
    strung_ = settled(assembly(), claw_, strung_);
}

double HiddenGuitar::turn_until(int string, double cents, double about_turns) {
    work_the_arm();
    const Assembly on = assembly();
    const double wanted = cents + noise(hand_tuner_cents);
    auto off = [&](double turns) {
        const Strung there = settled(on, claw_.turned(turns), strung_);
        return cents_shown(on, there.lengths_m, Attitude(there.angle_rad))[static_cast<std::size_t>(string)] -
               wanted;
    };
    // Tighter is sharper: halve between far looser and far tighter.
    double low = about_turns - 4.0, high = about_turns + 4.0;
    for (int i = 0; i < 50; ++i) {
        const double middle = 0.5 * (low + high);
        (off(middle) < 0.0 ? low : high) = middle;
    }
    claw_ = claw_.turned(low);
    strung_ = settled(on, claw_, strung_);
    return low + noise(hand_screw_turns);
}

void HiddenGuitar::string_up() {
    next_on_ = true;
    strung_ = slack(assembly());
}

void HiddenGuitar::mean_next() {
    next_on_ = true;
}

int HiddenGuitar::tune_plainly_once() {
    mean_next();
    work_the_arm();
    const Assembly on = assembly();
    int tuned = 0;
    for (int i = 0; i < on.string_count; ++i) {
        const auto index = static_cast<std::size_t>(i);
        if (std::abs(cents_shown(on.strings[index], strung_.lengths_m[index], Attitude(strung_.angle_rad))) <=
            in_tune_cents)
            continue;
        strung_ = after_pass(on, claw_, strung_, {i});
        ++tuned;
    }
    return tuned;
}

int HiddenGuitar::tune_until_in_tune() {
    mean_next();
    int tuned = 0;
    auto in_tune = [&] {
        const std::vector<double> shown = cents();
        return std::all_of(shown.begin(), shown.end(), [](double c) { return std::abs(c) <= in_tune_cents; });
    };
    for (int pass = 0; pass < most_passes && !in_tune(); ++pass)
        tuned += tune_plainly_once();
    return tuned;
}

void HiddenGuitar::aim(const std::vector<double>& cents) {
    mean_next();
    work_the_arm();
    for (std::size_t i = 0; i < cents.size(); ++i)
        tune_one(static_cast<int>(i), cents[i]);
}

void HiddenGuitar::tune_one(int string, double cents) {
    const Assembly on = assembly();
    const double hz = on.strings[static_cast<std::size_t>(string)].frequency_hz * std::exp2(cents / 1200.0);
    const Tuners tuners = one_at_pitch(strung_.lengths_m, string, hz);
    strung_.angle_rad = rest(on, tuners, claw_, strung_.angle_rad).angle_rad;
    strung_.lengths_m = lengths_as_tuned(on, tuners, Attitude(strung_.angle_rad));
}

double HiddenGuitar::inharmonicity(int string) const {
    const Assembly on = assembly();
    const StringOnBridge& of = on.strings[static_cast<std::size_t>(string)];
    const double length = speaking_length_m(of, Attitude(strung_.angle_rad));
    const double tension = tension_at_length_n(
        of.mechanics, strung_.lengths_m[static_cast<std::size_t>(string)], length + of.dead_m);
    return counterpull::inharmonicity(of.mechanics, tension, length);
}

void HiddenGuitar::wedge_and_tune() {
    next_on_ = true;
    strung_.angle_rad = angle_of_tail_rad(setup_, setup_.next.tail_mm + noise(hand_ruler_mm));
    strung_.lengths_m = lengths_at_pitch(assembly(), Attitude(strung_.angle_rad));
}

bool HiddenGuitar::holds_wedge() const {
    return net_torque_free(assembly(), strung_.lengths_m, claw_, strung_.angle_rad).value < 0.0;
}

void HiddenGuitar::pull_wedge() {
    work_the_arm();
}

void HiddenGuitar::work_the_arm() {
    held_nm_ = friction();
    strung_ = settled(assembly(), claw_, strung_);
}

double HiddenGuitar::tail_mm() const {
    return mm_from_metres(tail_at_angle_m(assembly().bridge, strung_.angle_rad));
}

std::vector<double> HiddenGuitar::cents() const {
    return cents_shown(assembly(), strung_.lengths_m, Attitude(strung_.angle_rad));
}

double HiddenGuitar::read_tail_mm() {
    const auto& limits = setup_.guitar.bridge.tail_limits_mm;
    return std::clamp(tail_mm() + noise(hand_ruler_mm), limits[0], limits[1]);
}

std::vector<std::optional<double>> HiddenGuitar::read_cents() {
    std::vector<std::optional<double>> read;
    for (const double cents : cents())
        read.push_back(cents > -2000.0 ? std::optional(cents + noise(hand_tuner_cents)) : std::nullopt);
    return read;
}

double HiddenGuitar::spring_rate_log() const {
    double sum = 0.0;
    for (const PlacedSpring& spring : springs_)
        sum += std::log(spring_truth(spring).rate);
    return sum / static_cast<double>(springs_.size());
}

std::optional<double> HiddenGuitar::turns_wanted(const Arrangement& springs) const {
    const Root root =
        turns_for_attitude(assembly_next(springs), claw_, angle_of_tail_rad(setup_, setup_.next.tail_mm));
    return root.status == RootStatus::converged ? std::optional(root.at) : std::nullopt;
}

// In tune as it stands, one string let down (or up), the arm worked, the others read; then back.
Reading HiddenGuitar::read_test(const TestReading& test) {
    const double held_before = held_nm_;
    const int string = assembly().string_count - test.string;
    const double by = test.kind == ReadingKind::bend ? test.by_cents : -test.by_cents;
    held_nm_ = friction();
    const Assembly on = assembly();
    const Tuners tuners =
        one_at_pitch(strung_.lengths_m, string,
                     on.strings[static_cast<std::size_t>(string)].frequency_hz * std::exp2(by / 1200.0));
    const Attitude attitude(rest(on, tuners, claw_, strung_.angle_rad).angle_rad);
    const std::vector<double> shown = cents_shown(on, lengths_as_tuned(on, tuners, attitude), attitude);
    held_nm_ = held_before;
    Reading reading;
    reading.kind = test.kind;
    reading.string = test.string;
    reading.by_cents = test.by_cents;
    reading.strings = reading.tuning = Which::now;
    reading.springs = springs_;
    reading.cents.emplace();
    for (std::size_t i = 0; i < shown.size(); ++i)
        reading.cents->push_back(
            static_cast<int>(i) == string ? std::nullopt : std::optional(shown[i] + noise(hand_tuner_cents)));
    return reading;
}

} // namespace reference
