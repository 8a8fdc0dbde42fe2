#include "engine/whatif/intonation.h"

#include "engine/base/units.h"

#include <cmath>

namespace counterpull {

namespace {

constexpr double ln2 = 0.693147180559945309;

} // namespace

double usual_height_m(std::size_t string, std::size_t strings) {
    const double share = strings > 1 ? static_cast<double>(string) / static_cast<double>(strings - 1) : 1.0;
    return height_of_lowest_m + share * (height_of_highest_m - height_of_lowest_m);
}

double height_change_m(const StringOnBridge& before, double before_rad, const StringOnBridge& after,
                       double after_rad) {
    return 0.5 * (Attitude(after_rad).of(after.saddle()).y - after.saddle().y -
                  (Attitude(before_rad).of(before.saddle()).y - before.saddle().y));
}

Compensation compensation(const StringOnBridge& string, double angle_rad, double height_m) {
    const Attitude attitude(angle_rad);
    const double length = speaking_length_m(string, attitude), tension = tension_at_pitch_n(string, attitude);
    const StringMechanics& of = string.mechanics;
    Compensation result;
    result.stretch_cents = 600.0 / ln2 * of.axial_stiffness_n / tension * 2.0 * height_m * height_m /
                           (length * (length + string.dead_m));
    result.stiffness_cents =
        600.0 / ln2 * 3.0 * pi * pi * of.bending_stiffness_n_m2 / (tension * length * length);
    result.saddle_back_m = length * ln2 / 1200.0 * (result.stretch_cents + result.stiffness_cents);
    return result;
}

} // namespace counterpull
