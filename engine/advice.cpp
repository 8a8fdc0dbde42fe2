#include "engine/advice.h"

#include "engine/format.h"
#include "engine/units.h"

#include <algorithm>
#include <cmath>
#include <tuple>

namespace counterpull {

namespace {

int count_missing(const std::vector<PlacedSpring>& from, const std::vector<PlacedSpring>& in) {
    return static_cast<int>(std::count_if(from.begin(), from.end(), [&](const PlacedSpring& spring) {
        return std::find(in.begin(), in.end(), spring) == in.end();
    }));
}

// The arrangement with one spring more or one fewer than now, spread evenly. Springs of another kind keep
// their order across; the one that comes or goes is in the middle.
std::vector<PlacedSpring> with_one(const Setup& setup, bool more) {
    std::vector<PlacedSpring> kinds = setup.now.springs;
    std::sort(kinds.begin(), kinds.end(),
              [](const PlacedSpring& a, const PlacedSpring& b) { return a.hook < b.hook; });
    const auto middle = kinds.begin() + static_cast<std::ptrdiff_t>(kinds.size() / 2);
    if (more)
        kinds.insert(middle, PlacedSpring{});
    else
        kinds.erase(middle);
    std::vector<PlacedSpring> placed = evenly_placed(setup.guitar.bay, static_cast<int>(kinds.size()));
    for (std::size_t i = 0; i < placed.size(); ++i)
        placed[i].spring = kinds[i].spring;
    return placed;
}

// Thread left in the direction that has less, after the turns.
double thread_left(const BaySetup& bay, double turns) {
    return std::min(bay.turns_in_left - turns, bay.turns_out_left + turns);
}

void judge_thread(const BaySetup& bay, Advice& advice) {
    const double turns = *advice.turns;
    const double left = turns > 0.0 ? bay.turns_in_left : bay.turns_out_left;
    if (std::abs(turns) > left)
        advice.reasons.push_back({turns > 0.0 ? "reason.thread_in" : "reason.thread_out",
                                  {{"turns", fixed(std::abs(turns), 1)}, {"left", shortest(left)}}});
}

void judge_springs(const Assembly& assembly, const ClawSetting& claw, Advice& advice) {
    const Attitude attitude(advice.angle_rad);
    const ClawSetting turned = claw.turned(*advice.turns);
    for (const SpringOnBridge& spring : assembly.sprung()) {
        const double length = spring_length_m(assembly, spring, turned, attitude);
        if (length > spring.spring.longest_m) {
            advice.reasons.push_back({"reason.overstretched",
                                      {{"length", fixed(mm_from_metres(length), 0)},
                                       {"longest", shortest(mm_from_metres(spring.spring.longest_m))}}});
            return;
        }
        if (length < spring.spring.free_length_m) {
            advice.reasons.push_back({"reason.closed"});
            return;
        }
    }
}

void judge_ownership(const Setup& setup, Advice& advice) {
    const auto needed = std::count_if(advice.springs.begin(), advice.springs.end(),
                                      [](const PlacedSpring& placed) { return !placed.spring; });
    advice.springs_missing = needed > springs_owned(setup);
    if (advice.springs_missing)
        advice.reasons.push_back(
            {"reason.not_owned",
             {{"needed", std::to_string(needed)}, {"owned", std::to_string(springs_owned(setup))}}});
}

void judge_float(const Assembly& assembly, const ClawSetting& claw, Advice& advice) {
    const ClawSetting turned = claw.turned(*advice.turns);
    advice.stable = net_torque_at_pitch(assembly, turned, advice.angle_rad).slope < 0.0;
    advice.per_turn_m = tail_per_turn_m(assembly, turned, advice.angle_rad);
    advice.soft = std::abs(advice.per_turn_m) * hand_turn > soft_tail_m;
    if (!advice.stable)
        advice.reasons.push_back({"reason.unstable"});
}

// What to know about an arrangement that fits.
void praise(const BaySetup& bay, Advice& advice) {
    const bool little = thread_left(bay, *advice.turns) < spare_turns;
    if (advice.soft)
        advice.reasons.push_back(
            {little ? "reason.soft_and_little_thread" : "reason.soft",
             {{"tail", fixed(mm_from_metres(std::abs(advice.per_turn_m)) * hand_turn, 1)}}});
    else if (little)
        advice.reasons.push_back({"reason.little_thread"});
    if (advice.reasons.empty())
        advice.reasons.push_back({"reason.fits"});
}

Advice advice_for(const Setup& setup, const ClawSetting& claw, std::vector<PlacedSpring> springs) {
    const bool on_the_body = setup.next.rest == RestWanted::on_the_body;
    Advice advice;
    advice.springs = std::move(springs);
    advice.springs_moved = std::max(count_missing(advice.springs, setup.now.springs),
                                    count_missing(setup.now.springs, advice.springs));
    const Assembly assembly = assembly_of(setup, fitting_next(setup, advice.springs));
    advice.angle_rad =
        on_the_body ? lowest_angle_rad(assembly.bridge) : angle_of_tail_rad(setup, setup.next.tail_mm);
    const Root root = on_the_body ? turns_to_balance(assembly, claw, Attitude(advice.angle_rad),
                                                     torque_to_hold_on_body_nm(assembly))
                                  : turns_for_attitude(assembly, claw, advice.angle_rad);
    if (root.status != RootStatus::converged && root.status != RootStatus::jump) {
        advice.reasons.push_back({"reason.no_claw_position"});
        return advice;
    }
    advice.turns = root.at + (on_the_body ? held_extra_turns : 0.0);
    judge_ownership(setup, advice);
    judge_thread(setup.guitar.bay, advice);
    if (root.status == RootStatus::jump && !on_the_body)
        advice.reasons.push_back({"reason.closed"});
    else
        judge_springs(assembly, claw, advice);
    if (on_the_body)
        advice.stable = true;
    else if (root.found())
        judge_float(assembly, claw, advice);
    advice.fits = advice.reasons.empty();
    if (advice.fits)
        praise(setup.guitar.bay, advice);
    return advice;
}

} // namespace

std::vector<PlacedSpring> evenly_placed(const BaySetup& bay, int count) {
    auto spread = [count](int i, std::size_t places) {
        return static_cast<int>((i + 0.5) * static_cast<double>(places) / count);
    };
    std::vector<PlacedSpring> placed;
    for (int i = 0; i < count; ++i)
        placed.push_back({spread(i, bay.hook_mm.size()), spread(i, bay.hole_mm.size()), std::nullopt});
    return placed;
}

double torque_to_hold_on_body_nm(const Assembly& assembly) {
    const Attitude attitude(lowest_angle_rad(assembly.bridge));
    double most_added = 0.0;
    for (const StringOnBridge& string : assembly.strung()) {
        const Reach at = reach(string.nut(), string.saddle(), 0.0, attitude);
        const double bent_hz = string.frequency_hz * std::exp2(held_bend_semitones / 12.0);
        const double added = tension_at_pitch_n(string.mechanics, bent_hz, at.length_m) -
                             tension_at_pitch_n(string.mechanics, string.frequency_hz, at.length_m);
        most_added = std::max(most_added, -added * at.per_rad_m);
    }
    return string_torque_at_pitch(assembly, attitude).value + weight_torque(assembly, attitude).value +
           most_added;
}

std::vector<Advice> advise(const Setup& setup, const ClawSetting& claw) {
    const BaySetup& bay = setup.guitar.bay;
    const std::size_t places = std::min({bay.hook_mm.size(), bay.hole_mm.size(), std::size_t{most_springs}});
    std::vector<Advice> all;
    all.push_back(advice_for(setup, claw, setup.now.springs));
    if (setup.now.springs.size() < places)
        all.push_back(advice_for(setup, claw, with_one(setup, true)));
    if (setup.now.springs.size() > 1)
        all.push_back(advice_for(setup, claw, with_one(setup, false)));

    const bool correction =
        setup.now.in_tune && setup.now.strings == setup.next.strings && setup.now.tuning == setup.next.tuning;
    auto rank = [&](const Advice& advice) {
        const bool only_springs_missing = advice.springs_missing && advice.reasons.size() == 1;
        const bool lived_with = correction && advice.springs == setup.now.springs;
        return std::tuple(!advice.fits, !advice.fits && !only_springs_missing, !advice.stable,
                          advice.soft && !lived_with ? -advice.per_turn_m : 0.0, advice.springs_moved,
                          advice.turns ? -thread_left(bay, *advice.turns) : 1e9);
    };
    std::stable_sort(all.begin(), all.end(),
                     [&](const Advice& a, const Advice& b) { return rank(a) < rank(b); });
    return all;
}

} // namespace counterpull
