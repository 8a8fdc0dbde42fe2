#include "engine/mechanics/tuning.h"

#include <algorithm>
#include <cmath>
#include <numeric>

namespace counterpull {

namespace {

bool in_tune(const std::vector<double>& cents) {
    return std::all_of(cents.begin(), cents.end(), [](double c) { return std::abs(c) <= in_tune_cents; });
}

std::vector<double> shown(const Assembly& assembly, const Strung& strung) {
    return cents_shown(assembly, strung.lengths_m, Attitude(strung.angle_rad));
}

} // namespace

Strung slack(const Assembly& assembly) {
    Strung strung;
    strung.angle_rad = lowest_angle_rad(assembly.bridge);
    const Attitude attitude(strung.angle_rad);
    for (std::size_t i = 0; i < assembly.strung().size(); ++i)
        strung.lengths_m[i] = speaking_length_m(assembly.strings[i], attitude) + assembly.strings[i].dead_m;
    return strung;
}

Strung settled(const Assembly& assembly, const ClawSetting& claw, Strung strung) {
    strung.angle_rad = rest_free(assembly, strung.lengths_m, claw, strung.angle_rad).angle_rad;
    return strung;
}

Strung after_pass(const Assembly& assembly, const ClawSetting& claw, Strung strung,
                  const std::vector<int>& order) {
    std::vector<int> strings = order;
    if (strings.empty()) {
        strings.resize(static_cast<std::size_t>(assembly.string_count));
        std::iota(strings.begin(), strings.end(), 0);
    }
    for (const int string : strings) {
        const Tuners tuners = one_at_pitch(strung.lengths_m, string,
                                           assembly.strings[static_cast<std::size_t>(string)].frequency_hz);
        strung.angle_rad = rest(assembly, tuners, claw, strung.angle_rad).angle_rad;
        strung.lengths_m = lengths_as_tuned(assembly, tuners, Attitude(strung.angle_rad));
    }
    return strung;
}

std::vector<Pass> plain_tuning(const Assembly& assembly, const ClawSetting& claw, Strung strung) {
    std::vector<Pass> passes;
    if (in_tune(shown(assembly, strung)))
        return passes;
    for (int pass = 0; pass < most_passes; ++pass) {
        strung = after_pass(assembly, claw, strung);
        passes.push_back({shown(assembly, strung)});
        if (in_tune(passes.back().cents))
            break;
    }
    return passes;
}

std::optional<int> passes_needed(const Assembly& assembly, const ClawSetting& claw, const Strung& strung) {
    const std::vector<Pass> passes = plain_tuning(assembly, claw, strung);
    if (!passes.empty() && !in_tune(passes.back().cents))
        return std::nullopt;
    return static_cast<int>(passes.size());
}

Aims one_pass(const Assembly& assembly, const ClawSetting& claw, Strung strung, const StringLengths& wanted,
              const std::vector<std::size_t>& order) {
    Aims aims;
    for (const std::size_t i : order) {
        strung.lengths_m[i] = wanted[i];
        const Rest now = rest_free(assembly, strung.lengths_m, claw, strung.angle_rad);
        strung.angle_rad = now.angle_rad;
        aims.against_stop = aims.against_stop || now.at_stop();
        aims.cents.push_back(shown(assembly, strung)[i]);
        const StringOnBridge& string = assembly.strings[i];
        const double tension = tension_free_n(string, wanted[i], Attitude(strung.angle_rad));
        aims.most_strength = std::max(aims.most_strength, tension / string.mechanics.breaking_load_n);
    }
    aims.after = strung;
    return aims;
}

Aims one_pass(const Assembly& assembly, const ClawSetting& claw, Strung strung, const StringLengths& wanted) {
    std::vector<std::size_t> all(assembly.strung().size());
    std::iota(all.begin(), all.end(), std::size_t{0});
    return one_pass(assembly, claw, strung, wanted, all);
}

} // namespace counterpull
