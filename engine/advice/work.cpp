#include "engine/advice/work.h"

#include "engine/belief/belief.h"

#include <cmath>

namespace counterpull {

namespace {

double hypot_of(double a, double b, double c) {
    return std::sqrt(a * a + b * b + c * c);
}

// That a normal value with this spread lies within ± level_tail_mm.
double is_level(double sigma_mm) {
    return sigma_mm > 0.0 ? std::erf(level_tail_mm / (std::sqrt(2.0) * sigma_mm)) : 1.0;
}

} // namespace

double first_tail_sigma_mm(const Job& job, Way way) {
    if (job.per_turn_mm == 0.0)
        return 0.0; // it rests where it shall
    // The ruler sets the wedge; what the tuner then shows is surer than any ruler.
    if (way.wedge)
        return std::hypot(tail_reading_mm, job.friction_mm);
    const double turns = way.test ? job.turns_sigma_tested.value_or(job.turns_sigma) : job.turns_sigma;
    return hypot_of(turns * job.per_turn_mm, hand_turn * job.per_turn_mm, job.friction_mm);
}

Work predicted_work(const Job& job, Way way) {
    const WorkMinutes& cost = work_minutes;
    const double first = first_tail_sigma_mm(job, way);
    const double corrected = std::hypot(
        hypot_of(tail_reading_mm, job.friction_mm, hand_turn * job.per_turn_mm), left_by_correction * first);
    Work work{way};
    work.visits = 1.0 + (1.0 - is_level(first)) / is_level(corrected);
    const double tunings = job.strings * (way.wedge ? tunings_wedged : tunings_plain);
    const bool strings_down = job.strings_come_down || (way.wedge && job.strings_are_up); // or none goes in
    work.minutes = cost.begin + (strings_down ? cost.strings_down : 0.0) + cost.spring * job.springs_moved +
                   work.visits * (cost.visit + cost.tuning * tunings) +
                   cost.mishap * (job.out_of_thread + job.unstable) + (way.wedge ? cost.wedge : 0.0) +
                   (way.test ? cost.test : 0.0);
    return work;
}

Work least_work(const Job& job) {
    Work least = predicted_work(job, {});
    for (const Way way : {Way{false, true}, Way{true, false}}) { // a test tells nothing that easing would not
        if ((way.wedge && !job.wedge) || (way.test && !job.turns_sigma_tested))
            continue;
        if (const Work work = predicted_work(job, way); work.minutes < least.minutes)
            least = work;
    }
    return least;
}

} // namespace counterpull
