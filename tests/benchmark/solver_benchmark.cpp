// One balance in its bracket, by our solver and by GSL's Brent, on the same function in the same run, in
// turn: time and how often each asks for the function.
#include "engine/document/model.h"
#include "engine/document/presets.h"
#include "tests/benchmark/timing.h"

#include <gsl/gsl_errno.h>
#include <gsl/gsl_roots.h>

#include <cmath>
#include <cstdio>
#include <vector>

using namespace counterpull;

namespace {

struct Task {
    const Assembly* assembly;
    ClawSetting claw;
    double low, high, tolerance_nm;
};
long calls = 0;
double last_value =
    0.0; // Brent's newest place is its root, so that its residual is known without a call more

Sample torque(const Task& task, double angle_rad) {
    ++calls;
    return net_torque_at_pitch(*task.assembly, task.claw, angle_rad);
}

double by_ours(const Task& task) {
    auto function = [&](double angle) { return torque(task, angle); };
    return bracketed_root(function, task.low, function(task.low), task.high, function(task.high),
                          {task.tolerance_nm, jump_width})
        .at;
}

double by_brent(const Task& task, gsl_root_fsolver* solver) {
    gsl_function function{[](double angle, void* of) {
                              return last_value = torque(*static_cast<const Task*>(of), angle).value;
                          },
                          const_cast<Task*>(&task)};
    gsl_root_fsolver_set(solver, &function, task.low, task.high);
    do {
        gsl_root_fsolver_iterate(solver);
    } while (gsl_root_test_residual(last_value, task.tolerance_nm) != GSL_SUCCESS);
    return gsl_root_fsolver_root(solver);
}

double median(std::vector<double> values) {
    std::nth_element(values.begin(), values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2),
                     values.end());
    return values[values.size() / 2];
}

} // namespace

int main() {
    const Setup setup = example_setup();
    const Assembly assembly = assembly_of(setup, fitting_next(setup, setup.now.springs));
    const double low = lowest_angle_rad(assembly.bridge), high = highest_angle_rad(assembly.bridge);
    const ClawSetting level{turns_for_attitude(assembly, {}, 0.0).at * assembly.claw.screw_pitch_m, 0.0, 0.0};
    std::vector<Task> tasks;
    for (int i = -40; i <= 40; ++i) {
        const Task task{&assembly, level.turned(0.05 * i), low, high,
                        balance_tolerance * string_torque_scale_nm(assembly, Attitude(0.0))};
        if (torque(task, low).value > 0.0 && torque(task, high).value < 0.0)
            tasks.push_back(task);
    }
    gsl_root_fsolver* solver = gsl_root_fsolver_alloc(gsl_root_fsolver_brent);
    std::vector<double> ours, brents;
    double apart = 0.0;
    long calls_ours = 0, calls_brent = 0;
    for (int round = 0; round < benchmark::rounds; ++round) {
        calls = 0;
        ours.push_back(benchmark::microseconds_each(200, [&] {
            for (const Task& task : tasks)
                benchmark::sink = by_ours(task);
        }));
        calls_ours = calls;
        calls = 0;
        brents.push_back(benchmark::microseconds_each(200, [&] {
            for (const Task& task : tasks)
                benchmark::sink = by_brent(task, solver);
        }));
        calls_brent = calls;
    }
    for (const Task& task : tasks)
        apart = std::fmax(apart, std::abs(by_ours(task) - by_brent(task, solver)));
    gsl_root_fsolver_free(solver);
    const auto each = static_cast<double>(tasks.size());
    std::printf(
        "%zu brackets; ours %.3f us and %.1f calls, Brent %.3f us and %.1f calls: %.2f times as fast; "
        "at most %.1e rad apart\n",
        tasks.size(), median(ours) / each, static_cast<double>(calls_ours) / 200.0 / each,
        median(brents) / each, static_cast<double>(calls_brent) / 200.0 / each, median(brents) / median(ours),
        apart);
}
