#include "tests/reference/hidden_guitar.h"

#include "engine/base/units.h"

#include <algorithm>
#include <cmath>

namespace reference {

using namespace counterpull;

HiddenGuitar::HiddenGuitar(const Setup& setup, std::uint64_t number)
    : setup_(setup), random_(number * 7919 + 17) {
    const Belief belief(setup_);
    for (int u = 0; u < most_unknowns; ++u)
        if (belief.used(u))
            truth_[static_cast<std::size_t>(u)] = normal_(random_);
    // The tail truly stands where the set-up says; what the player reads is off by the ruler's error.
    const double true_tail = setup_.now.tail_mm;
    truth_[static_cast<std::size_t>(Unknown::tail_now)] = 0.0;
    springs_ = setup_.now.springs;
    const Assembly now = belief.assembly(fitting_now(setup_), truth_);
    Problems problems;
    const auto claw = belief.claw(now, truth_, problems);
    if (!claw)
        return;
    claw_ = *claw;
    strung_.angle_rad = angle_of_tail_rad(setup_, true_tail);
    // It floats there in tune, or it would not be a guitar that somebody describes.
    possible_ = net_torque_at_pitch(now, claw_, strung_.angle_rad).slope < 0.0;
    for (const SpringOnBridge& spring : now.sprung())
        possible_ = possible_ && spring_length_m(now, spring, claw_, Attitude(strung_.angle_rad)) >
                                     spring.spring.free_length_m;
    strung_.lengths_m = lengths_at_pitch(now, Attitude(strung_.angle_rad));
    const auto& limits = setup_.guitar.bridge.tail_limits_mm;
    setup_.now.tail_mm = std::clamp(true_tail + noise(tail_reading_mm), limits[0] + 0.1, limits[1] - 0.1);
}

Assembly HiddenGuitar::assembly() const {
    const Belief belief(setup_);
    Fitting fitting = next_on_ ? fitting_next(setup_, springs_) : fitting_now(setup_);
    return belief.assembly(
        {fitting.strings, setup_.next.tuning, setup_.next.offset_cents, springs_, fitting.which}, truth_);
}

bool HiddenGuitar::can_be_held() const {
    Belief belief(setup_);
    belief.condition(truth_, {});
    std::vector<Arrangement> all = straight_arrangements(setup_);
    std::erase_if(
        all, [&](const Arrangement& springs) { return springs_needed(springs) > springs_owned(setup_); });
    return first_that_fits(belief, claw_, all).has_value();
}

void HiddenGuitar::turn(const Arrangement& springs, double more_turns) {
    springs_ = springs;
    if (setup_.now.strings == setup_.next.strings)
        next_on_ = true; // the same strings, from now on meant for the next tuning
    claw_ = claw_.turned(more_turns + noise(screw_reading_turns));
    strung_ = settled(assembly(), claw_, strung_);
}

double HiddenGuitar::turn_until(int string, double cents, double about_turns) {
    if (setup_.now.strings == setup_.next.strings)
        next_on_ = true;
    const Assembly on = assembly();
    const double wanted = cents + noise(tuner_reading_cents);
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
    return low + noise(screw_reading_turns);
}

void HiddenGuitar::string_up() {
    next_on_ = true;
    strung_ = slack(assembly());
}

void HiddenGuitar::tune_plainly_once() {
    strung_ = after_pass(assembly(), claw_, strung_);
}

int HiddenGuitar::tune_until_in_tune() {
    const auto passes = passes_needed(assembly(), claw_, strung_);
    const int count = passes.value_or(most_passes);
    for (int i = 0; i < count; ++i)
        tune_plainly_once();
    return count;
}

void HiddenGuitar::aim(const std::vector<double>& cents) {
    const Assembly on = assembly();
    for (int i = 0; i < on.string_count; ++i) {
        const auto index = static_cast<std::size_t>(i);
        const Tuners tuners = one_at_pitch(strung_.lengths_m, i,
                                           on.strings[index].frequency_hz * std::exp2(cents[index] / 1200.0));
        strung_.angle_rad = rest(on, tuners, claw_, strung_.angle_rad).angle_rad;
        strung_.lengths_m = lengths_as_tuned(on, tuners, Attitude(strung_.angle_rad));
    }
}

void HiddenGuitar::wedge_and_tune() {
    next_on_ = true;
    strung_.angle_rad = angle_of_tail_rad(setup_, setup_.next.tail_mm);
    strung_.lengths_m = lengths_at_pitch(assembly(), Attitude(strung_.angle_rad));
}

void HiddenGuitar::pull_wedge() {
    strung_ = settled(assembly(), claw_, strung_);
}

double HiddenGuitar::tail_mm() const {
    return mm_from_metres(tail_at_angle_m(assembly().bridge, strung_.angle_rad));
}

double HiddenGuitar::tail_in_tune_mm() const {
    const Assembly on = assembly();
    return mm_from_metres(tail_at_angle_m(on.bridge, rest_at_pitch(on, claw_, strung_.angle_rad).angle_rad));
}

std::vector<double> HiddenGuitar::cents() const {
    return cents_shown(assembly(), strung_.lengths_m, Attitude(strung_.angle_rad));
}

double HiddenGuitar::read_tail_mm() {
    const auto& limits = setup_.guitar.bridge.tail_limits_mm;
    return std::clamp(tail_mm() + noise(tail_reading_mm), limits[0], limits[1]);
}

std::vector<std::optional<double>> HiddenGuitar::read_cents() {
    std::vector<std::optional<double>> read;
    for (const double cents : cents())
        read.push_back(cents > -2000.0 ? std::optional(cents + noise(tuner_reading_cents)) : std::nullopt);
    return read;
}

Reading HiddenGuitar::read_test(const TestReading& test) {
    const Belief belief(setup_);
    const Assembly on = belief.assembly(fitting_now(setup_), truth_);
    const int string = on.string_count - test.string;
    const double by = test.kind == ReadingKind::bend ? test.by_cents : -test.by_cents;
    const Tuners tuners =
        one_at_pitch(strung_.lengths_m, string,
                     on.strings[static_cast<std::size_t>(string)].frequency_hz * std::exp2(by / 1200.0));
    const Attitude attitude(rest(on, tuners, claw_, strung_.angle_rad).angle_rad);
    const std::vector<double> shown = cents_shown(on, lengths_as_tuned(on, tuners, attitude), attitude);
    Reading reading;
    reading.kind = test.kind;
    reading.string = test.string;
    reading.by_cents = test.by_cents;
    reading.strings = reading.tuning = Which::now;
    reading.springs = springs_;
    reading.cents.emplace();
    for (std::size_t i = 0; i < shown.size(); ++i)
        reading.cents->push_back(static_cast<int>(i) == string
                                     ? std::nullopt
                                     : std::optional(shown[i] + noise(tuner_reading_cents)));
    return reading;
}

} // namespace reference
