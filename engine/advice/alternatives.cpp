#include "engine/advice/alternatives.h"

#include "engine/base/put_in_order.h"
#include "engine/document/presets.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

// Only with springs that are there.
std::vector<Arrangement> with_what_is_there(const Setup& setup) {
    std::vector<Arrangement> all = straight_arrangements(setup);
    std::erase_if(all,
                  [&](const Arrangement& springs) { return springs_needed(springs) > springs_owned(setup); });
    return all;
}

std::optional<Alternative> with_springs(const Belief& belief, const ClawSetting& claw,
                                        const SpringPreset& preset) {
    std::vector<Arrangement> all;
    const BaySetup& bay = belief.setup().guitar.bay;
    const std::size_t places = std::min({bay.hook_mm.size(), bay.hole_mm.size(), std::size_t{most_springs}});
    for (int count = 1; count <= static_cast<int>(places); ++count) {
        Arrangement springs = evenly_placed(bay, count);
        for (PlacedSpring& placed : springs)
            placed.spring = preset.spring;
        all.push_back(std::move(springs));
    }
    const auto best = first_that_fits(belief, claw, all);
    if (!best)
        return std::nullopt;
    return Alternative{Change::springs, preset.name, 0, best->springs, *best->turns};
}

double total_pull_n(const Setup& setup) {
    const std::vector<PlacedSpring> none;
    const Assembly assembly = assembly_of(setup, fitting_next(setup, none));
    double sum = 0.0;
    for (const StringOnBridge& string : assembly.strung())
        sum += tension_at_pitch_n(string, Attitude(0.0));
    return sum;
}

std::optional<Alternative> with_strings(const Belief& belief, const ClawSetting& claw) {
    const Setup& setup = belief.setup();
    struct Candidate {
        const StringSetPreset* preset;
        double distance_n;
    };
    const double wanted_n = total_pull_n(setup);
    Setup other = setup;
    std::vector<Candidate> candidates;
    for (const StringSetPreset& preset : presets().string_sets) {
        if (preset.strings.size() != setup.next.strings.size() || preset.strings == setup.next.strings)
            continue;
        other.next.strings = preset.strings;
        candidates.push_back({&preset, std::abs(total_pull_n(other) - wanted_n)});
    }
    put_in_order(candidates,
                 [](const Candidate& a, const Candidate& b) { return a.distance_n < b.distance_n; });
    const std::vector<Arrangement> arrangements = with_what_is_there(setup);
    for (const Candidate& candidate : candidates) {
        other.next.strings = candidate.preset->strings;
        if (const auto best = first_that_fits(belief.about(other), claw, arrangements))
            return Alternative{Change::strings, candidate.preset->name, 0, best->springs, *best->turns};
    }
    return std::nullopt;
}

std::optional<Alternative> with_tuning(const Belief& belief, const ClawSetting& claw) {
    const Setup& setup = belief.setup();
    const std::vector<Arrangement> arrangements = with_what_is_there(setup);
    for (int step = 1; step <= farthest_tuning; ++step)
        for (const int semitones : {-step, step}) {
            Setup other = setup;
            for (double& cents : other.next.offset_cents.values)
                cents += 100.0 * semitones;
            Problems problems;
            const std::vector<PlacedSpring> none;
            check_pitches(assembly_of(other, fitting_next(other, none)), "", problems);
            if (!problems.none())
                continue;
            if (const auto best = first_that_fits(belief.about(other), claw, arrangements))
                return Alternative{Change::tuning, "", semitones, best->springs, *best->turns};
        }
    return std::nullopt;
}

} // namespace

std::vector<Alternative> nearest_that_works(const Solution& solution) {
    const Belief& belief = solution.belief();
    const ClawSetting& claw = solution.claw;
    std::vector<Alternative> all;
    auto add = [&](std::optional<Alternative> found) {
        if (found)
            all.push_back(std::move(*found));
    };
    std::optional<Alternative> springs; // of those kinds that work, the one with the least to turn
    for (const SpringPreset& preset : presets().springs)
        if (preset.spring != belief.setup().guitar.spring)
            if (auto found = with_springs(belief, claw, preset))
                if (!springs || std::abs(found->turns) < std::abs(springs->turns))
                    springs = std::move(found);
    add(std::move(springs));
    add(with_strings(belief, claw));
    add(with_tuning(belief, claw));
    return all;
}

} // namespace counterpull
