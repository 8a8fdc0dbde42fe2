#include "engine/advice/advice.h"

#include "engine/base/put_in_order.h"
#include "engine/base/units.h"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace counterpull {

namespace {

void judge_thread(const BaySetup& bay, Advice& advice) {
    advice.thread_in = bay.turns_in_left - *advice.turns;
    advice.thread_out = bay.turns_out_left + *advice.turns;
    advice.hindrances.thread_short = advice.thread_left() < 0.0;
}

void judge_springs(const Assembly& assembly, const ClawSetting& turned, Advice& advice) {
    const Attitude attitude(advice.angle_rad);
    advice.springs_after.reserve(assembly.sprung().size());
    for (const SpringOnBridge& spring : assembly.sprung()) {
        const double length = spring_length_m(assembly, spring, turned, attitude);
        const SpringUse use = length > spring.spring.longest_m        ? SpringUse::overstretched
                              : length <= spring.spring.free_length_m ? SpringUse::closed
                                                                      : SpringUse::in_reach;
        advice.springs_after.push_back({spring_force_n(spring.spring, length), mm_from_metres(length), use});
        advice.hindrances.overstretched |= use == SpringUse::overstretched;
        advice.hindrances.closed |= use == SpringUse::closed;
    }
}

void judge_float(const Assembly& assembly, const ClawSetting& turned, Advice& advice) {
    advice.stable = net_torque_at_pitch(assembly, turned, advice.angle_rad).slope < 0.0;
    advice.per_turn_m = tail_per_turn_m(assembly, turned, advice.angle_rad);
    advice.soft = std::abs(advice.per_turn_m) * hand_turn > soft_tail_m;
    advice.hindrances.unstable = !advice.stable;
}

Advice judge(const Belief& belief, const ClawSetting& claw, const Assembly& assembly, Arrangement springs) {
    const Setup& setup = belief.setup();
    const bool on_the_body = setup.next.rest == RestWanted::on_the_body;
    Advice advice;
    advice.springs = std::move(springs);
    advice.moved = springs_moved(fitted_springs(setup), advice.springs);
    advice.angle_rad =
        on_the_body ? lowest_angle_rad(assembly.bridge) : angle_of_tail_rad(setup, setup.next.tail_mm);
    const Root root = turns_to_balance(assembly, claw, Attitude(advice.angle_rad),
                                       torque_to_balance_nm(setup, assembly, advice.angle_rad));
    if (root.status != RootStatus::converged && root.status != RootStatus::jump) {
        advice.hindrances.no_claw_position = true;
        return advice;
    }
    advice.turns = root.at + (on_the_body ? held_extra_turns : 0.0);
    const ClawSetting turned = claw.turned(*advice.turns);
    advice.hindrances.springs_missing = springs_needed(advice.springs) > springs_owned(setup);
    judge_thread(setup.guitar.bay, advice);
    advice.hindrances.just_closed = root.status == RootStatus::jump && !on_the_body;
    judge_springs(assembly, turned, advice);
    if (on_the_body)
        advice.stable = true;
    else if (root.found())
        judge_float(assembly, turned, advice);
    return advice;
}

void judge_spread(const Belief& belief, const TurnsSpread& spread, const Assembly& assembly, Advice& advice) {
    if (!advice.turns)
        return;
    advice.turns_per =
        spread.gradient(assembly, *advice.turns + (advice.hindrances.just_closed ? opened_turns : 0.0));
    advice.turns_sigma = belief.sigma_of(advice.turns_per);
    advice.tail_sigma_m = std::abs(advice.per_turn_m) * std::hypot(advice.turns_sigma, hand_turn);
}

void measure_bend(const Assembly& assembly, const ClawSetting& claw, Advice& advice) {
    if (!advice.turns || !advice.stable || advice.per_turn_m == 0.0)
        return;
    const int third = assembly.string_count - 3;
    const double bent_hz = assembly.strings[static_cast<std::size_t>(third)].frequency_hz *
                           std::exp2(told_bend_semitones / 12.0);
    const StringLengths lengths = lengths_at_pitch(assembly, Attitude(advice.angle_rad));
    const Rest bent =
        rest(assembly, one_at_pitch(lengths, third, bent_hz), claw.turned(*advice.turns), advice.angle_rad);
    advice.bend_tail_m =
        tail_at_angle_m(assembly.bridge, bent.angle_rad) - tail_at_angle_m(assembly.bridge, advice.angle_rad);
}

bool better(const Setup& setup, const Advice& a, const Advice& b) {
    auto rank = [&](const Advice& advice) {
        const bool lived_with = is_correction(setup) && advice.moved == 0 &&
                                std::abs(advice.per_turn_m) * hand_turn <= lived_with_softness * soft_tail_m;
        const bool soft = advice.soft && !lived_with;
        const int to_buy = std::max(0, springs_needed(advice.springs) - springs_owned(setup));
        return std::tuple(!advice.fits(), !advice.fits() && !advice.only_springs_missing(), !advice.stable,
                          soft, soft ? -std::floor(advice.per_turn_m / per_turn_step_m) : 0.0, to_buy,
                          is_under_way(setup) && advice.moved > 0,
                          std::floor(advice.tail_sigma_m / tail_step_m), advice.moved,
                          advice.turns ? -std::floor(advice.thread_left() / thread_step_turns) : 1e9);
    };
    return rank(a) < rank(b);
}

} // namespace

bool is_under_way(const Setup& setup) {
    return !setup.log.empty() && is_on_strings(setup.log.back(), Which::next) &&
           is_in_tuning(setup.log.back(), Which::next);
}

bool is_correction(const Setup& setup) {
    return is_under_way(setup) || (setup.now.in_tune && setup.now.strings == setup.next.strings &&
                                   setup.now.tuning == setup.next.tuning);
}

std::vector<Advice> advise(const Belief& belief, const ClawSetting& claw) {
    const Setup& setup = belief.setup();
    std::vector<Advice> all;
    std::optional<TurnsSpread> spread;
    auto add = [&](const Arrangement& springs, bool splayed) {
        const Assembly assembly = belief.assembly(fitting_next(setup, springs));
        Advice advice = judge(belief, claw, assembly, springs);
        advice.splayed = splayed;
        if (!spread)
            spread.emplace(belief, claw, advice.angle_rad);
        judge_spread(belief, *spread, assembly, advice);
        measure_bend(assembly, claw, advice);
        all.push_back(std::move(advice));
    };
    for (const Arrangement& springs : straight_arrangements(setup))
        add(springs, false);
    if (std::none_of(all.begin(), all.end(), [](const Advice& advice) { return advice.fits(); }))
        for (const Arrangement& springs : splayed_arrangements(setup))
            add(springs, true);
    put_in_order(all, [&](const Advice& a, const Advice& b) { return better(setup, a, b); });
    return all;
}

std::optional<Advice> first_that_fits(const Belief& belief, const ClawSetting& claw,
                                      const std::vector<Arrangement>& arrangements) {
    std::optional<Advice> best;
    for (const Arrangement& springs : arrangements) {
        const Assembly assembly = belief.assembly(fitting_next(belief.setup(), springs));
        Advice advice = judge(belief, claw, assembly, springs);
        if (advice.fits() && !advice.soft && (!best || better(belief.setup(), advice, *best)))
            best = std::move(advice);
    }
    return best;
}

} // namespace counterpull
