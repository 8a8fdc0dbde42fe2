// Clamping the strings at the nut, and the fine tuners that are left then.
//
// Clamped, the length between nut and tuning post stretches no longer: the same movement of the bridge
// changes every pitch more, and the fine tuners alone are left. A stand here has its strings' `dead_m`
// without that length. Clamping itself pulls a string a few cents sharp (common practice: about 5), since the
// clamp bends it; how much differs from guitar to guitar. A fine tuner presses on the string's end behind the
// saddle and draws it in by up to `fine_tuner_draw_m` either way from mid-travel (from memory; they differ).
#pragma once

#include "engine/whatif/stand.h"

namespace counterpull {

inline constexpr double clamping_cents = 5.0;
inline constexpr double fine_tuner_draw_m = 0.6e-3;

struct FineTuner {
    std::optional<double> up_cents,
        down_cents; // the others untouched, the bridge giving way; nothing where slack
};
std::vector<FineTuner> fine_tuner_range(const Stand& clamped, double draw_m = fine_tuner_draw_m);

// What each string should show before clamping, all others so too, that all are in tune when all are clamped,
// each drawn in by as much as would raise it by `sharp_cents` on a bridge that stays.
std::vector<std::optional<double>> aims_before_clamping(const Stand& clamped,
                                                        double sharp_cents = clamping_cents);

} // namespace counterpull
