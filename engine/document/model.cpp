#include "engine/document/model.h"

#include "engine/base/units.h"
#include "engine/document/problems.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

Bridge bridge_of(const GuitarSetup& guitar) {
    const BridgeSetup& from = guitar.bridge;
    Bridge bridge;
    bridge.block_depth_m = metres_from_mm(from.block_depth_mm);
    bridge.block_setback_m = metres_from_mm(from.block_setback_mm);
    bridge.tail_m = metres_from_mm(from.tail_mm);
    bridge.tail_low_m = metres_from_mm(from.tail_limits_mm[0]);
    bridge.tail_high_m = metres_from_mm(from.tail_limits_mm[1]);
    if (guitar.held == Held::on_its_back)
        bridge.weight_n = from.mass_g * 1e-3 * standard_gravity_m_s2;
    bridge.weight_setback_m = metres_from_mm(from.mass_setback_mm);
    return bridge;
}

// The claw's x at which one spring has its measured length, or nothing where it cannot be so short.
std::optional<double> claw_x_from_spring(const Assembly& assembly, const SpringOnBridge& spring,
                                         const Attitude& attitude, double length_m) {
    const Point hole = attitude.of(assembly.bridge.block());
    const double up = -assembly.claw.depth_m - hole.y;
    const double across = spring.hook_z_m - spring.hole_z_m;
    const double along2 = length_m * length_m - up * up - across * across;
    if (along2 <= 0.0)
        return std::nullopt;
    return hole.x + std::sqrt(along2);
}

std::optional<ClawSetting> claw_from_springs(const Setup& setup, const Assembly& assembly, double angle_rad,
                                             double error_mm, Problems& problems) {
    const Attitude attitude(angle_rad);
    double sum = 0.0;
    for (std::size_t i = 0; i < setup.now.spring_mm->size(); ++i) {
        const double length_mm = (*setup.now.spring_mm)[i];
        const auto x =
            claw_x_from_spring(assembly, assembly.springs[i], attitude, metres_from_mm(length_mm + error_mm));
        if (!x) {
            problems.add(Path("now.spring_mm", i),
                         Phrase("refused.spring_shorter_than_gap").with("found", document_mm(length_mm)));
            return std::nullopt;
        }
        sum += *x;
    }
    return ClawSetting{sum / static_cast<double>(assembly.spring_count), 0.0, 0.0};
}

} // namespace

StringBuild build_of(const StringSetup& string) {
    StringBuild build;
    build.diameter_m = metres_from_inches(string.gauge_in);
    build.wound = string.wound;
    if (string.core_in)
        build.core_m = metres_from_inches(*string.core_in);
    build.core = string.core;
    build.wrap = string.wrap;
    if (string.unit_weight_g_m)
        build.unit_weight_kg_m = *string.unit_weight_g_m * 1e-3;
    return build;
}

Spring spring_of(const SpringSetup& spring) {
    return {spring.rate_n_mm / metres_per_mm, metres_from_mm(spring.free_length_mm), spring.initial_tension_n,
            metres_from_mm(spring.longest_mm)};
}

Fitting fitting_now(const Setup& setup) {
    return {setup.now.strings, setup.now.tuning, setup.now.offset_cents, setup.now.springs, Which::now};
}

Fitting fitting_of(const Setup& setup, const Reading& entry) {
    if (entry.own)
        return {entry.own->strings, entry.own->tuning, entry.own->offset_cents, entry.springs, std::nullopt};
    const bool next = entry.tuning == Which::next;
    return {entry.strings == Which::next ? setup.next.strings : setup.now.strings,
            next ? setup.next.tuning : setup.now.tuning,
            next ? setup.next.offset_cents : setup.now.offset_cents, entry.springs, entry.strings};
}

Fitting fitting_next(const Setup& setup, const std::vector<PlacedSpring>& springs) {
    return {setup.next.strings, setup.next.tuning, setup.next.offset_cents, springs, Which::next};
}

Assembly assembly_of(const Setup& setup, const Fitting& fitting) {
    const GuitarSetup& guitar = setup.guitar;
    Assembly assembly;
    assembly.bridge = bridge_of(guitar);
    assembly.claw = {metres_from_mm(guitar.bay.claw_depth_mm), metres_from_mm(guitar.bay.screw_span_mm),
                     metres_from_mm(guitar.bay.screw_pitch_mm)};
    const bool strung = !fitting.strings.empty() && !fitting.tuning.empty();
    assembly.string_count = strung ? static_cast<int>(fitting.strings.size()) : 0;
    for (std::size_t i = 0; i < assembly.strung().size(); ++i) {
        StringOnBridge& string = assembly.strings[i];
        string.mechanics = mechanics_of(build_of(fitting.strings[i]));
        string.frequency_hz = frequency_hz(fitting.tuning[i], setup.a4_hz, fitting.offset_cents.at(i));
        string.scale_m = metres_from_mm(guitar.scale_mm.at(i));
        string.saddle_height_m = metres_from_mm(guitar.bridge.saddle_height_mm.at(i));
        string.saddle_setback_m = metres_from_mm(guitar.bridge.saddle_setback_mm.at(i));
        string.dead_m = metres_from_mm(guitar.bridge.anchor_mm.at(i) +
                                       (guitar.nut_locked ? 0.0 : guitar.headstock_mm.at(i)));
    }
    assembly.spring_count = static_cast<int>(fitting.springs.size());
    for (std::size_t i = 0; i < fitting.springs.size(); ++i) {
        const PlacedSpring& placed = fitting.springs[i];
        assembly.springs[i] = {spring_of(placed.spring.value_or(guitar.spring)),
                               metres_from_mm(guitar.bay.hole_mm[static_cast<std::size_t>(placed.hole)]),
                               metres_from_mm(guitar.bay.hook_mm[static_cast<std::size_t>(placed.hook)])};
    }
    return assembly;
}

bool claw_from_spring_lengths(const Setup& setup) {
    const auto& limits = setup.guitar.bridge.tail_limits_mm;
    return !setup.now.in_tune || setup.now.tail_mm <= limits[0] || setup.now.tail_mm >= limits[1];
}

double spring_lengths_apart_m(const Setup& setup, const Assembly& assembly) {
    if (!setup.now.spring_mm)
        return 0.0;
    const Attitude attitude(angle_of_tail_rad(setup, setup.now.tail_mm));
    double least = HUGE_VAL, most = -HUGE_VAL;
    for (std::size_t i = 0; i < setup.now.spring_mm->size(); ++i)
        if (const auto x = claw_x_from_spring(assembly, assembly.springs[i], attitude,
                                              metres_from_mm((*setup.now.spring_mm)[i]))) {
            least = std::min(least, *x);
            most = std::max(most, *x);
        }
    return std::max(most - least, 0.0);
}

ClawSetting turned_by(const ClawSetting& claw, const Reading& entry) {
    return {claw.x_m, claw.bass_turns + entry.turns[0], claw.treble_turns + entry.turns[1]};
}

double angle_of_tail_rad(const Setup& setup, double tail_mm) {
    return std::asin(tail_mm / setup.guitar.bridge.tail_mm);
}

std::optional<ClawSetting> claw_now(const Setup& setup, const Assembly& assembly, Problems& problems,
                                    const ReadingErrors& errors) {
    const double angle = angle_of_tail_rad(setup, setup.now.tail_mm + errors.tail_mm);
    if (claw_from_spring_lengths(setup))
        return claw_from_springs(setup, assembly, angle, errors.spring_mm, problems);

    // Any starting place serves: the answer is where the hooks are, not how they got there.
    const ClawSetting start{assembly.bridge.block().x, 0.0, 0.0};
    const Root root = turns_for_attitude(assembly, start, angle);
    if (root.found())
        return ClawSetting{start.x_m + root.at * assembly.claw.screw_pitch_m, 0.0, 0.0};
    if (root.status == RootStatus::jump)
        problems.add("now.springs", {"refused.springs_closed_now"});
    else
        problems.add("now.springs", {"refused.no_claw_position"});
    return std::nullopt;
}

void check_pitches(const Assembly& assembly, std::string_view path, Problems& problems) {
    for (std::size_t i = 0; i < assembly.strung().size(); ++i) {
        const StringOnBridge& string = assembly.strings[i];
        if (tension_at_pitch_n(string.mechanics, string.frequency_hz, string.scale_m) <= 0.0)
            problems.add(Path(path, i), {"refused.too_low_for_this_string"});
    }
}

std::optional<ClawSetting> checked_claw_now(const Setup& setup, Problems& problems) {
    check_setup(setup, problems);
    if (!problems.none())
        return std::nullopt;
    const Assembly now = assembly_of(setup, fitting_now(setup));
    check_pitches(now, "now.tuning", problems);
    check_pitches(assembly_of(setup, fitting_next(setup, setup.now.springs)), "next.tuning", problems);
    const Path log("log");
    for (std::size_t i = 0; i < setup.log.size() && problems.none(); ++i) {
        const Reading& entry = setup.log[i];
        const Path path(log, i), own(path, "own");
        check_pitches(assembly_of(setup, fitting_of(setup, entry)),
                      Path(entry.own ? own : path, "tuning").text(), problems);
    }
    if (!problems.none())
        return std::nullopt;
    return claw_now(setup, now, problems);
}

} // namespace counterpull
