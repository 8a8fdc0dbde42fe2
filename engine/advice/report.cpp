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

void warn_of_strength(const BridgeState& state, std::vector<Warning>& warnings) {
    for (std::size_t i = 0; i < state.strings.size(); ++i) {
        const double used = state.strings[i].strength_used.value_or(0.0);
        if (used > strength_warning)
            warnings.push_back({used < 1.0 ? WarningKind::strength : WarningKind::breaks,
                                static_cast<int>(state.strings.size() - i), used});
    }
}

// Only the claw is turned: where the tail stands before the strings are brought back to pitch.
std::optional<double> tail_before_retuning_mm(const Solution& solution) {
    const Setup& setup = solution.setup();
    const Advice& advised = solution.advised();
    const bool only_turns = setup.log.empty() && is_correction(setup) && advised.fits() && advised.moved == 0;
    if (!only_turns)
        return std::nullopt;
    const double now_rad = solution.belief().angle_now_rad(solution.belief().mean());
    const Rest rest = rest_free(solution.now, lengths_at_pitch(solution.now, Attitude(now_rad)),
                                solution.claw_as_said.turned(*advised.turns), now_rad);
    return mm_from_metres(tail_at_angle_m(solution.now.bridge, rest.angle_rad));
}

Warning about(WarningKind kind, const FittedReading& reading) {
    Warning warning{kind};
    warning.entry = reading.observation.entry + 1;
    warning.sigmas = reading.sigmas;
    warning.expected = reading.predicted;
    warning.read = reading.observation.value;
    return warning;
}

// A claw that hangs askew has its springs' lengths so far apart and no further (common practice, from
// memory).
constexpr double most_lengths_apart_m = 6e-3;

void warn_of_readings(const Solution& solution, std::vector<Warning>& warnings) {
    const Calibration& calibration = solution.calibration;
    std::vector<int> apart;
    bool lengths = spring_lengths_apart_m(solution.setup(), solution.now) > most_lengths_apart_m;
    for (const FittedReading& reading : calibration.readings) {
        if (reading.observation.entry < 0) {
            lengths = lengths || reading.trust != Trust::full;
            continue;
        }
        if (reading.trust == Trust::left_out)
            warnings.push_back(about(WarningKind::reading_left_out, reading));
        const int entry = reading.observation.entry + 1;
        if (reading.trust == Trust::suspect && (apart.empty() || apart.back() != entry))
            apart.push_back(entry);
    }
    if (lengths)
        warnings.push_back({WarningKind::spring_lengths_apart});
    if (apart.size() == 1) {
        warnings.push_back({WarningKind::reading_unexplained});
        warnings.back().entry = apart.front();
    } else if (!apart.empty()) {
        warnings.push_back({WarningKind::readings_pull_apart});
        warnings.back().entries = apart;
    }
    for (const FittedReading& reading : unexpected_readings(solution.setup())) {
        Warning warning = about(WarningKind::reading_unexpected, reading);
        if (reading.observation.what == Observed::cents)
            warning.string =
                static_cast<int>(solution.setup().next.strings.size()) - reading.observation.index;
        const bool told = std::any_of(warnings.begin(), warnings.end(), [&](const Warning& other) {
            return other.entry == warning.entry && other.kind != WarningKind::reading_unexplained;
        });
        if (!told) // one of an entry is asked about; the rest follows
            warnings.push_back(std::move(warning));
    }
    if (!calibration.converged)
        warnings.push_back({WarningKind::fit_not_settled});
    if (solution.advised().by_direction)
        warnings.push_back({WarningKind::direction_held});
}

void warn(const Rest& untouched, Report& report) {
    const Solution& solution = report.solution;
    const Setup& setup = solution.setup();
    std::vector<Warning>& warnings = report.warnings;
    const double now_rad = angle_of_tail_rad(setup, setup.now.tail_mm);
    if (setup.now.in_tune && net_torque_at_pitch(solution.now, solution.claw_as_said, now_rad).slope >= 0.0)
        warnings.push_back({WarningKind::unstable_now});
    if (untouched.kind == RestKind::spring_closed)
        warnings.push_back({WarningKind::spring_closed});
    warn_of_strength(report.carried_out, warnings);
    const auto& limits = setup.guitar.bridge.tail_limits_mm;
    if (setup.next.rest == RestWanted::floating &&
        (setup.next.tail_mm <= limits[0] || setup.next.tail_mm >= limits[1]))
        warnings.push_back({WarningKind::wanted_at_stop});
    if (setup.guitar.nut_locked && needs_an_open_nut(setup))
        warnings.push_back({WarningKind::nut_locked});
    warn_of_readings(solution, warnings);
}

// What follows from the advice.
void carry_out(Report& report) {
    const Solution& solution = report.solution;
    const Setup& setup = solution.setup();
    const Advice& advised = solution.advised();
    report.carried_out = state_of(solution.assembly_advised(), advised.springs,
                                  solution.claw.turned(advised.turns.value_or(0.0)), advised.angle_rad, true,
                                  setup.next.strings.size());
    if (advised.fits()) {
        report.next = report.carried_out;
        report.tuning = tuning_sheet(solution);
    } else if (!solution.recommended().fits()) {
        report.instead = nearest_that_works(solution);
    }
    report.wedge = wedge_way(solution);
    report.worth = worth_of_measuring(solution);
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

Report report(Solution solved) {
    Report report(std::move(solved));
    const Solution& solution = report.solution;
    const Setup& setup = solution.setup();
    // Now and left alone, as the set-up says; what to do, as the readings have it by now.
    const double now_rad = angle_of_tail_rad(setup, setup.now.tail_mm);
    report.now = state_of(solution.now, setup.now.springs, solution.claw_as_said, now_rad, setup.now.in_tune,
                          setup.next.strings.size());
    const Assembly next = assembly_of(setup, fitting_next(setup, setup.now.springs));
    const Rest untouched = rest_at_pitch(next, solution.claw_as_said, now_rad);
    report.untouched = untouched_of(next, untouched);
    carry_out(report);
    report.before_retuning_tail_mm = tail_before_retuning_mm(solution);
    report.fitted = fitted_values(solution.belief());
    warn(untouched, report);
    return report;
}

ReportResult report(const Setup& setup) {
    Solved solved = solve(setup);
    ReportResult result;
    result.problems = std::move(solved.problems);
    if (solved.solution)
        result.report = report(std::move(*solved.solution));
    return result;
}

} // namespace counterpull
