#include "engine/whatif/whatif.h"

#include "engine/base/units.h"

namespace counterpull {

namespace {

// The same guitar with its nut clamped or open; `dead_z`: as in the stand, see Belief::dead_m.
Stand with_nut(const Stand& stand, const Belief& belief, double dead_z, bool clamped) {
    Assembly assembly = stand.assembly;
    for (std::size_t i = 0; i < assembly.strung().size(); ++i)
        assembly.strings[i].dead_m = belief.dead_m(i, dead_z, clamped);
    return standing(assembly, stand.claw, stand.angle_rad);
}

// The third string from the top, or the only ones there are.
int third_string(const Stand& stand) {
    return std::max(0, stand.assembly.string_count - 3);
}

void fill_bends(SideEffects& side) {
    for (int string = 0; string < side.stand.assembly.string_count; ++string)
        for (const double cents : bend_cents) {
            side.bends.push_back(bend(side.stand, string, cents));
            side.fixed_bends.push_back(bend(side.stand, string, cents, BridgeKind::fixed));
        }
}

void fill_nut(const Belief& belief, double dead_z, SideEffects& side) {
    const Stand clamped = with_nut(side.stand, belief, dead_z, true);
    side.fine_tuners = fine_tuner_range(clamped);
    side.before_clamping = aims_before_clamping(clamped);
    side.bend_clamped = bend(clamped, third_string(clamped), 200.0);
    side.bend_open = bend(with_nut(side.stand, belief, dead_z, false), third_string(clamped), 200.0);
}

Moved turned_over(const Stand& stand, const GuitarSetup& guitar) {
    const BridgeSetup& bridge = guitar.bridge;
    const bool weighed = bridge.mass_g > 0.0;
    return turned_over(stand, guitar.held == Held::on_its_back,
                       weighed ? bridge.mass_g * 1e-3 : usual_bridge_kg,
                       metres_from_mm(weighed ? bridge.mass_setback_mm : bridge.block_setback_mm));
}

SideEffects side_effects(const Belief& belief, double dead_z, const Stand& stand) {
    const GuitarSetup& guitar = belief.setup().guitar;
    SideEffects side;
    side.stand = stand;
    fill_bends(side);
    side.arm = arm_range(stand);
    for (int string = 0; string < stand.assembly.string_count; ++string)
        side.without.push_back(without_string(stand, string));
    side.dropped = with_string_at(stand, 0, dropped_cents);
    side.turned_over = turned_over(stand, guitar);
    side.warmer = warmer(stand, warmer_kelvin);
    side.screws = screw_loads(stand);
    for (std::size_t i = 0; i < stand.assembly.strung().size(); ++i)
        side.compensation.push_back(compensation(stand.assembly.strings[i], stand.angle_rad,
                                                 usual_height_m(i, stand.assembly.strung().size())));
    fill_nut(belief, dead_z, side);
    return side;
}

} // namespace

WhatIf whatif(const Solution& solution) {
    WhatIf answer;
    const Setup& setup = solution.setup();
    const Belief& belief = solution.belief();
    if (setup.now.in_tune)
        answer.now = side_effects(
            belief, 0.0,
            standing(solution.now, solution.claw_as_said, angle_of_tail_rad(setup, setup.now.tail_mm)));
    const double dead_z = belief.mean()[static_cast<std::size_t>(Unknown::dead_length)];
    if (const Advice& advised = solution.advised(); advised.fits())
        answer.next = side_effects(
            belief, dead_z,
            standing(solution.assembly_advised(), solution.claw.turned(*advised.turns), advised.angle_rad));
    if (!answer.now || !answer.next)
        return answer;
    const Stand &now = answer.now->stand, &next = answer.next->stand;
    for (std::size_t i = 0; i < next.assembly.strung().size(); ++i) {
        answer.height_change.push_back(height_change_m(now.assembly.strings[i], now.angle_rad,
                                                       next.assembly.strings[i], next.angle_rad));
        // Saddles stay where they are on the plate: what changes is what each string wants there.
        answer.saddle_change.push_back(answer.next->compensation[i].saddle_back_m -
                                       answer.now->compensation[i].saddle_back_m);
    }
    answer.tunings = between_tunings(solution);
    if (!answer.tunings.empty())
        answer.better_set = set_that_moves_least(solution, answer.tunings.front());
    return answer;
}

} // namespace counterpull
