#include "engine/advice/solution.h"

#include <algorithm>
#include <utility>

namespace counterpull {

namespace {

std::optional<double> arm_now_nm_per_rad(const Belief& belief, const ClawSetting& claw) {
    const Setup& setup = belief.setup();
    if (!setup.now.in_tune)
        return std::nullopt;
    const Assembly now = belief.assembly(fitting_now(setup));
    const double angle_rad = belief.angle_now_rad(belief.mean());
    const StringLengths lengths = lengths_at_pitch(now, Attitude(angle_rad));
    return -net_torque_free(now, lengths, claw, angle_rad).slope;
}

} // namespace

const Advice& Solution::recommended() const {
    return *std::find_if(advice.begin(), advice.end(), [](const Advice& one) { return one.recommended; });
}

Solved solve(Setup setup) {
    Solved solved;
    const auto said = checked_claw_now(setup, solved.problems);
    if (!said)
        return solved;
    auto held = std::make_shared<const Setup>(std::move(setup));
    Calibration calibration = calibrate(*held);
    const Belief& belief = calibration.belief;
    const auto believed = belief.claw(belief.assembly(fitting_now(*held)), belief.mean(), solved.problems);
    if (!believed)
        return solved;
    const Assembly now = assembly_of(*held, fitting_now(*held));
    // Turns are counted; the screws may have turned further than that.
    const ClawSetting claw =
        believed->turned(belief.mean()[static_cast<std::size_t>(Unknown::screws_now)] * screw_reading_turns);
    const TestReadings tests(belief);
    std::vector<Advice> advice = advise(belief, claw, tests, calibration.contradicted());
    const auto arm_now = arm_now_nm_per_rad(belief, claw);
    const ClawSetting by_now = held->log.empty() ? claw : turned_by(claw, held->log.back());
    solved.solution = Solution{std::move(held), std::move(calibration), now,    *said, claw,
                               by_now,          std::move(advice),      arm_now};
    return solved;
}

std::optional<TestReading> best_test_reading(const Solution& solution) {
    const Advice& advised = solution.advised();
    if (!advised.fits())
        return std::nullopt;
    return TestReadings(solution.belief()).best(advised.turns_per, advised.turns_sigma);
}

} // namespace counterpull
