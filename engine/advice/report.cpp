#include "engine/advice/report.h"

#include "engine/base/units.h"

#include <algorithm>

namespace counterpull {

namespace {

void fill_strings(const Assembly& assembly, const Attitude& attitude, bool in_tune, std::size_t string_count,
                  BridgeState& state) {
    if (assembly.string_count == 0) { // strings off and not described
        state.strings.resize(string_count);
        return;
    }
    double total = 0.0;
    for (const StringOnBridge& string : assembly.strung()) {
        StringState& entry = state.strings.emplace_back();
        entry.pitch_hz = string.frequency_hz;
        if (!in_tune)
            continue;
        entry.tension_n = tension_at_pitch_n(string, attitude);
        entry.strength_used = *entry.tension_n / string.mechanics.breaking_load_n;
        total += *entry.tension_n;
    }
    if (in_tune)
        state.total_tension_n = total;
}

BridgeState state_of(const Assembly& assembly, const std::vector<PlacedSpring>& placed,
                     const ClawSetting& claw, double angle_rad, bool in_tune, std::size_t string_count) {
    const Attitude attitude(angle_rad);
    BridgeState state;
    fill_strings(assembly, attitude, in_tune, string_count, state);
    state.placed = placed;
    for (const SpringOnBridge& spring : assembly.sprung()) {
        const double length = spring_length_m(assembly, spring, claw, attitude);
        state.springs.push_back({spring_force_n(spring.spring, length), mm_from_metres(length)});
    }
    state.angle_deg = degrees_from_radians(angle_rad);
    state.tail_mm = mm_from_metres(tail_at_angle_m(assembly.bridge, angle_rad));
    state.claw = claw;
    return state;
}

UntouchedState untouched_of(const Assembly& next, const Rest& rest) {
    UntouchedState state;
    state.outcome = rest.kind;
    state.angle_deg = degrees_from_radians(rest.angle_rad);
    state.tail_mm = mm_from_metres(tail_at_angle_m(next.bridge, rest.angle_rad));
    if (rest.kind == RestKind::floats && rest.stable)
        state.per_turn_mm = mm_from_metres(rest.per_turn_m);
    return state;
}

void warn_of_strength(const BridgeState& state, std::vector<Phrase>& warnings) {
    for (std::size_t i = 0; i < state.strings.size(); ++i) {
        const double used = state.strings[i].strength_used.value_or(0.0);
        if (used > strength_warning)
            warnings.push_back(Phrase(used < 1.0 ? "warning.strength" : "warning.breaks")
                                   .with("string", state.strings.size() - i)
                                   .with("percent", number(100.0 * used, 0)));
    }
}

// Only the claw is turned: where the tail stands before the strings are brought back to pitch.
std::optional<double> tail_before_retuning_mm(const Belief& belief, const Assembly& now,
                                              const ClawSetting& claw, const Advice& best) {
    const Setup& setup = belief.setup();
    const bool only_turns = setup.log.empty() && is_correction(setup) && best.fits && best.moved == 0 &&
                            setup.now.offset_cents == setup.next.offset_cents;
    if (!only_turns)
        return std::nullopt;
    const double now_rad = belief.angle_now_rad(belief.mean());
    const Rest rest =
        rest_free(now, lengths_at_pitch(now, Attitude(now_rad)), claw.turned(*best.turns), now_rad);
    return mm_from_metres(tail_at_angle_m(now.bridge, rest.angle_rad));
}

void warn(const Setup& setup, const Assembly& now, const Rest& untouched, Report& report) {
    std::vector<Phrase>& warnings = report.warnings;
    const double now_rad = radians_from_degrees(report.now.angle_deg);
    if (setup.now.in_tune && net_torque_at_pitch(now, report.now.claw, now_rad).slope >= 0.0)
        warnings.push_back({"warning.unstable_now"});
    if (untouched.kind == RestKind::spring_closed)
        warnings.push_back({"warning.spring_closed"});
    warn_of_strength(report.carried_out, warnings);
    const auto& limits = setup.guitar.bridge.tail_limits_mm;
    if (setup.next.rest == RestWanted::floating &&
        (setup.next.tail_mm <= limits[0] || setup.next.tail_mm >= limits[1]))
        warnings.push_back({"warning.wanted_at_stop"});
    for (const FittedReading& reading : report.readings)
        if (reading.left_out)
            warnings.push_back(Phrase("warning.reading_does_not_fit")
                                   .with("entry", reading.observation.entry + 1)
                                   .with("sigmas", number(reading.sigmas, 0)));
}

// What follows from the best advice.
void carry_out(const Calibration& calibration, const ClawSetting& counted, Report& report) {
    const Belief& belief = calibration.belief;
    const Setup& setup = belief.setup();
    const Advice& best = report.advice.front();
    const Assembly advised = belief.assembly(fitting_next(setup, best.springs));
    report.carried_out = state_of(advised, best.springs, counted.turned(best.turns.value_or(0.0)),
                                  best.angle_rad, true, setup.next.strings.size());
    if (best.fits) {
        report.next = report.carried_out;
        report.tuning = tuning_sheet(belief, counted, best, calibration.left);
    } else {
        report.instead = nearest_that_works(belief, counted);
    }
    report.wedge = wedge_way(belief, counted, best);
    report.worth = worth_of_measuring(belief, best);
}

std::vector<FittedValue> fitted_values(const Belief& belief) {
    std::vector<FittedValue> all;
    for (int u = 0; u < common_unknowns; ++u) {
        const auto unknown = static_cast<Unknown>(u);
        const auto value = value_of(belief.setup().guitar, unknown);
        if (!value || path_of(unknown).empty())
            continue;
        const double fitted = belief.spread(unknown).at(*value, belief.mean()[static_cast<std::size_t>(u)]);
        all.push_back({unknown, fitted, belief.spread(unknown).size_at(fitted) * belief.sigma_of(unknown)});
    }
    return all;
}

} // namespace

ReportResult report(const Setup& setup) {
    ReportResult result;
    const std::optional<ClawSetting> claw = checked_claw_now(setup, result.problems);
    if (!claw)
        return result;
    // Now and left alone, as the set-up says; what to do, as the readings have it by now.
    const Assembly now = assembly_of(setup, fitting_now(setup));
    const Assembly next = assembly_of(setup, fitting_next(setup, setup.now.springs));
    const double now_rad = angle_of_tail_rad(setup, setup.now.tail_mm);
    Report answer;
    answer.now =
        state_of(now, setup.now.springs, *claw, now_rad, setup.now.in_tune, setup.next.strings.size());
    const Rest untouched = rest_at_pitch(next, *claw, now_rad);
    answer.untouched = untouched_of(next, untouched);

    const Calibration calibration = calibrate(setup);
    const Belief& belief = calibration.belief;
    answer.readings = calibration.readings;
    const auto believed = belief.claw(belief.assembly(fitting_now(setup)), belief.mean(), result.problems);
    if (!believed)
        return result;
    // Turns are counted; the screws may have turned further than that.
    const ClawSetting counted =
        believed->turned(belief.mean()[static_cast<std::size_t>(Unknown::screws_now)] * screw_reading_turns);
    answer.advice = advise(belief, counted);
    carry_out(calibration, counted, answer);
    answer.before_retuning_tail_mm = tail_before_retuning_mm(belief, now, *claw, answer.advice.front());
    answer.fitted = fitted_values(belief);
    if (!setup.log.empty())
        answer.turns_made = 0.5 * (setup.log.back().turns[0] + setup.log.back().turns[1]);
    warn(setup, now, untouched, answer);
    result.report = std::move(answer);
    return result;
}

void ask_test_reading(const Setup& setup, Report& report) {
    const Advice& best = report.advice.front();
    if (report.next)
        report.test_reading = best_test_reading(setup, best.turns_per, best.turns_sigma);
}

} // namespace counterpull
