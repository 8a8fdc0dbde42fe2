#include "engine/mechanics/wire.h"

#include "engine/base/units.h"

#include <cmath>

namespace counterpull {

namespace {

struct Moduli {
    double young_gpa;
    double shear_gpa;
};

Moduli moduli(double diameter_m) {
    const double inches = diameter_m / metres_per_inch;
    if (inches < 0.033)
        return {203.4, 82.7};
    if (inches < 0.064)
        return {200.0, 81.7};
    if (inches <= 0.125)
        return {196.5, 81.0};
    return {193.0, 80.0};
}

} // namespace

double young_modulus_pa(double diameter_m) {
    return moduli(diameter_m).young_gpa * 1e9;
}

double shear_modulus_pa(double diameter_m) {
    return moduli(diameter_m).shear_gpa * 1e9;
}

double tensile_strength_pa(double diameter_m) {
    return 2211e6 / std::pow(mm_from_metres(diameter_m), 0.145);
}

double round_area_m2(double diameter_m) {
    return pi * diameter_m * diameter_m / 4.0;
}

double round_second_moment_m4(double diameter_m) {
    return pi * std::pow(diameter_m, 4) / 64.0;
}

double hex_area_m2(double across_flats_m) {
    return 0.5 * std::sqrt(3.0) * across_flats_m * across_flats_m;
}

double hex_second_moment_m4(double across_flats_m) {
    return 5.0 * std::sqrt(3.0) / 144.0 * std::pow(across_flats_m, 4);
}

} // namespace counterpull
