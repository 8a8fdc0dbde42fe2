#include "engine/advice/advice.h"

#include "engine/advice/at_bench.h"
#include "engine/advice/wedge.h"
#include "engine/base/put_in_order.h"
#include "engine/base/units.h"
#include "engine/belief/standing.h"

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
    const StringLengths lengths = lengths_at_pitch(assembly, Attitude(advice.angle_rad));
    advice.arm_nm_per_rad = -net_torque_free(assembly, lengths, turned, advice.angle_rad).slope;
    advice.hindrances.unstable = !advice.stable;
}

// What the last entry read in tune with the next strings says of the way to turn, on the springs it was read
// with: the tail that is too much, m. Nothing where it says nothing.
std::optional<double> tail_off_m(const Setup& setup, const Arrangement& springs) {
    if (!is_under_way(setup) || setup.next.rest != RestWanted::floating)
        return std::nullopt;
    const Reading& last = setup.log.back();
    const bool in_tune = last.kind == ReadingKind::in_tune && !last.cents;
    if (!in_tune || !last.tail_mm || springs_moved(last.springs, springs) != 0)
        return std::nullopt;
    const double off_m = metres_from_mm(*last.tail_mm - setup.next.tail_mm);
    return std::abs(off_m) > wrong_tail_m ? std::optional(off_m) : std::nullopt;
}

// Too high is tightened, too low loosened. Where the fit says otherwise it is dropped for this, and what the
// numbers of the set-up say of a turn takes its place.
void hold_direction(const Setup& setup, Advice& advice) {
    const auto off_m = tail_off_m(setup, advice.springs);
    if (!off_m || !advice.turns)
        return;
    const Reading& last = setup.log.back();
    const double made = 0.5 * (last.turns[0] + last.turns[1]);
    if ((*advice.turns - made) * *off_m > 0.0)
        return;
    const Assembly as_said = assembly_of(setup, fitting_next(setup, advice.springs));
    const double per_turn_m = tail_per_turn_balanced_m(as_said, advice.angle_rad).value_or(0.0);
    if (per_turn_m >= 0.0 && !advice.stable)
        return; // it runs away when retuned: no reading says which way
    const double more = *off_m / (per_turn_m < 0.0 ? -per_turn_m : metres_from_mm(usual_per_turn_mm));
    advice.turns = made + more;
    advice.by_direction = true;
}

// By what is believed alone.
Advice judge_by_belief(const Belief& belief, const ClawSetting& claw, const Assembly& assembly,
                       Arrangement springs) {
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
    advice.hindrances.just_closed = root.status == RootStatus::jump && !on_the_body;
    if (on_the_body)
        advice.stable = true;
    else if (root.found())
        judge_float(assembly, turned, advice);
    return advice;
}

// What the final turns leave.
void judge_turned(const Belief& belief, const ClawSetting& claw, const Assembly& assembly, Advice& advice) {
    if (!advice.turns)
        return;
    judge_springs(assembly, claw.turned(*advice.turns), advice);
    judge_thread(belief.setup().guitar.bay, advice);
}

double above(double limit, double value, double sigma) { // the probability
    return sigma > 0.0 ? 0.5 * std::erfc((limit - value) / (std::sqrt(2.0) * sigma)) : value > limit;
}

bool strings_are_up(const Setup& setup) {
    return setup.now.in_tune || !setup.log.empty();
}

// The strings to be played are other ones than are on it by now.
bool strings_change(const Setup& setup) {
    return fitted_strings(setup) != setup.next.strings;
}

Job job_of(const Belief& belief, const TurnsSpread& spread, const Assembly& assembly,
           const TestReadings& tests, const Advice& advice) {
    const Setup& setup = belief.setup();
    Job job;
    job.per_turn_mm = mm_from_metres(std::abs(advice.per_turn_m));
    job.turns_sigma = advice.turns_sigma;
    if (const auto test = tests.best(advice.turns_per, advice.turns_sigma))
        job.turns_sigma_tested = test->sigma_after;
    job.wedge = !is_correction(setup) && advice.per_turn_m != 0.0 && wedge_surplus_turns(advice);
    job.strings = static_cast<int>(setup.next.strings.size());
    job.springs_moved = advice.moved;
    job.strings_are_up = strings_are_up(setup);
    job.strings_come_down = job.strings_are_up && (advice.moved > 0 || strings_change(setup));
    job.out_of_thread = above(0.0, -advice.thread_in, advice.turns_sigma) +
                        above(0.0, -advice.thread_out, advice.turns_sigma);
    if (advice.per_turn_m == 0.0)
        return job;
    const TurnsSpread::Stiffness stiffness = spread.stiffness(assembly, *advice.turns);
    job.unstable = above(0.0, stiffness.nm_per_rad, belief.sigma_of(stiffness.per));
    if (stiffness.nm_per_rad != 0.0)
        job.friction_mm = mm_from_metres(assembly.bridge.tail_m) * friction_sigma_nm(setup.guitar) /
                          std::abs(stiffness.nm_per_rad);
    return job;
}

void judge_spread(const Belief& belief, const TurnsSpread& spread, const Assembly& assembly,
                  const TestReadings& tests, Advice& advice) {
    if (!advice.turns)
        return;
    advice.turns_per =
        spread.gradient(assembly, *advice.turns + (advice.hindrances.just_closed ? opened_turns : 0.0));
    advice.turns_sigma = belief.sigma_of(advice.turns_per);
    if (advice.by_direction) {
        const auto& made = belief.setup().log.back().turns;
        const double more = *advice.turns - 0.5 * (made[0] + made[1]);
        advice.turns_sigma = std::hypot(advice.turns_sigma, usual_per_turn_sigma * more);
    }
    const Job job = job_of(belief, spread, assembly, tests, advice);
    advice.tail_sigma_m = metres_from_mm(first_tail_sigma_mm(job, {}));
    const double travel_m = assembly.bridge.tail_high_m - assembly.bridge.tail_low_m;
    advice.measure_first = ninety_percent * advice.tail_sigma_m > 0.5 * travel_m;
    advice.work = least_work(job);
    advice.job = job;
    advice.test_pays = job.turns_sigma_tested &&
                       predicted_work(job, {false, true}).minutes < predicted_work(job, {}).minutes;
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

bool jumped_off(const StepDone& done) {
    return done.happened == Mishap::spring_off;
}

// The springs that stay on if they can: the next strings are up on them, or a screw was turned for them.
std::optional<Arrangement> springs_to_keep(const Setup& setup) {
    if (is_under_way(setup))
        return fitted_springs(setup);
    const AtBench at = at_bench(setup);
    if (at.visits == 0 || std::any_of(setup.bench->done.begin(), setup.bench->done.end(), jumped_off))
        return std::nullopt;
    return at.springs;
}

// `doubted`: the readings contradict each other; then one is to be read again before a spring is moved for
// them.
bool better(const Setup& setup, const std::optional<Arrangement>& keep, bool doubted, const Advice& a,
            const Advice& b) {
    const auto springs_now = static_cast<int>(fitted_springs(setup).size());
    auto rank = [&](const Advice& advice) {
        const bool moves = keep && springs_moved(*keep, advice.springs) > 0;
        const int more_or_fewer = std::abs(static_cast<int>(advice.springs.size()) - springs_now);
        const int to_buy = std::max(0, springs_needed(advice.springs) - springs_owned(setup));
        return std::tuple(!advice.fits(), !advice.fits() && !advice.only_springs_missing(), !advice.stable,
                          doubted && moves, advice.measure_first, to_buy, moves,
                          std::floor(advice.work.minutes / work_step_minutes), more_or_fewer, advice.moved,
                          advice.turns ? -std::floor(advice.thread_left() / thread_step_turns) : 1e9);
    };
    return rank(a) < rank(b);
}

// Every string is tuned up or down by no more than this.
bool stays_within(const Setup& setup, double most_cents) {
    for (std::size_t i = 0; i < setup.next.tuning.size(); ++i) {
        const int semitones = key_number(setup.next.tuning[i]) - key_number(setup.now.tuning[i]);
        const double cents = 100.0 * semitones + setup.next.offset_cents.at(i) - setup.now.offset_cents.at(i);
        if (std::abs(cents) > most_cents)
            return false;
    }
    return true;
}

} // namespace

bool is_under_way(const Setup& setup) {
    return !setup.log.empty() && is_on_strings(setup.log.back(), Which::next) &&
           is_in_tuning(setup.log.back(), Which::next);
}

bool is_correction(const Setup& setup) {
    return is_under_way(setup) || (setup.now.in_tune && setup.now.strings == setup.next.strings &&
                                   stays_within(setup, same_tuning_cents));
}

bool needs_an_open_nut(const Setup& setup) {
    if (is_under_way(setup))
        return false;
    return !setup.now.in_tune || setup.now.strings != setup.next.strings ||
           !stays_within(setup, fine_tuner_cents);
}

std::vector<Advice> advise(const Belief& belief, const ClawSetting& claw, const TestReadings& tests,
                           bool doubted) {
    const Setup& setup = belief.setup();
    std::vector<Advice> all;
    std::optional<TurnsSpread> spread;
    auto add = [&](const Arrangement& springs, bool splayed) {
        const Assembly assembly = belief.assembly(fitting_next(setup, springs));
        Advice advice = judge_by_belief(belief, claw, assembly, springs);
        hold_direction(setup, advice);
        judge_turned(belief, claw, assembly, advice);
        advice.splayed = splayed;
        if (!spread)
            spread.emplace(belief, claw, advice.angle_rad);
        judge_spread(belief, *spread, assembly, tests, advice);
        measure_bend(assembly, claw, advice);
        all.push_back(std::move(advice));
    };
    for (const Arrangement& springs : straight_arrangements(setup))
        add(springs, false);
    if (setup.next.springs) {
        auto chosen = std::find_if(all.begin(), all.end(), [&](const Advice& advice) {
            return springs_moved(advice.springs, *setup.next.springs) == 0;
        });
        if (chosen == all.end()) {
            add(*setup.next.springs, false);
            chosen = all.end() - 1;
        }
        chosen->chosen = true;
    }
    if (std::none_of(all.begin(), all.end(), [](const Advice& advice) { return advice.fits(); }))
        for (const Arrangement& springs : splayed_arrangements(setup))
            add(springs, true);
    const std::optional<Arrangement> keep = springs_to_keep(setup);
    put_in_order(all, [&](const Advice& a, const Advice& b) { return better(setup, keep, doubted, a, b); });
    all.front().recommended = true;
    const auto chosen =
        std::find_if(all.begin(), all.end(), [](const Advice& advice) { return advice.chosen; });
    if (chosen != all.end())
        std::rotate(all.begin(), chosen, chosen + 1);
    return all;
}

std::optional<Advice> first_that_fits(const Belief& belief, const ClawSetting& claw,
                                      const std::vector<Arrangement>& arrangements) {
    std::optional<Advice> best;
    for (const Arrangement& springs : arrangements) {
        const Assembly assembly = belief.assembly(fitting_next(belief.setup(), springs));
        Advice advice = judge_by_belief(belief, claw, assembly, springs);
        judge_turned(belief, claw, assembly, advice);
        if (advice.fits() && advice.settable() && (!best || better(belief.setup(), {}, false, advice, *best)))
            best = std::move(advice);
    }
    return best;
}

} // namespace counterpull
