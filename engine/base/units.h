// Conversions between people's units and SI. The only place where such a factor stands.
#pragma once

#include <string_view>

namespace counterpull {

inline constexpr double pi = 3.14159265358979323846;
inline constexpr double metres_per_mm = 1e-3;
inline constexpr double metres_per_inch = 0.0254;          // exact, international inch
inline constexpr double newtons_per_kgf = 9.80665;         // exact, standard gravity (CGPM 1901)
inline constexpr double newtons_per_lbf = 4.4482216152605; // exact, international pound × standard gravity
inline constexpr double standard_gravity_m_s2 = 9.80665;
inline constexpr double pascals_per_psi = newtons_per_lbf / (metres_per_inch * metres_per_inch);

constexpr double metres_from_mm(double mm) {
    return mm * metres_per_mm;
}
constexpr double mm_from_metres(double m) {
    return m / metres_per_mm;
}
constexpr double metres_from_inches(double in) {
    return in * metres_per_inch;
}
constexpr double degrees_from_radians(double rad) {
    return rad * (180.0 / pi);
}
constexpr double radians_from_degrees(double deg) {
    return deg * (pi / 180.0);
}

// What a number of the set-up document measures, where people have more than one unit for it.
enum class Measure { number, length, force, rate }; // document: as it is, mm, N, N/mm
enum class LengthUnit { mm, inch };
enum class ForceUnit { newton, lbf, kgf };
struct Units {
    LengthUnit length = LengthUnit::mm;
    ForceUnit force = ForceUnit::newton;
    bool operator==(const Units&) const = default;
};

// By the document's unit.
constexpr Measure measured_in(std::string_view unit) {
    return unit == "mm"     ? Measure::length
           : unit == "N"    ? Measure::force
           : unit == "N/mm" ? Measure::rate
                            : Measure::number;
}

// How many of a reader's units go into one of the document's.
constexpr double per_document_unit(Measure of, Units units) {
    constexpr double mm_per_inch = metres_per_inch / metres_per_mm;
    switch (of) {
    case Measure::length:
        return units.length == LengthUnit::inch ? 1.0 / mm_per_inch : 1.0;
    case Measure::force:
        return units.force == ForceUnit::lbf   ? 1.0 / newtons_per_lbf
               : units.force == ForceUnit::kgf ? 1.0 / newtons_per_kgf
                                               : 1.0;
    case Measure::rate: // lbf/in, as springs are sold where pounds are used; else per mm
        return units.force == ForceUnit::lbf   ? mm_per_inch / newtons_per_lbf
               : units.force == ForceUnit::kgf ? 1.0 / newtons_per_kgf
                                               : 1.0;
    default:
        return 1.0;
    }
}
constexpr double from_document(double value, Measure of, Units units) {
    return value * per_document_unit(of, units);
}
constexpr double to_document(double value, Measure of, Units units) {
    return value / per_document_unit(of, units);
}
// Digits after the point beyond those of the document's unit, so that about as much is said.
constexpr int more_digits(Measure of, Units units) {
    if (of == Measure::length)
        return units.length == LengthUnit::inch ? 2 : 0;
    if (of == Measure::rate)
        return units.force == ForceUnit::kgf ? 1 : 0;
    return of == Measure::force && units.force != ForceUnit::newton ? 1 : 0;
}
constexpr const char* unit_name(Measure of, Units units) {
    constexpr const char* forces[] = {"N", "lbf", "kgf"};
    constexpr const char* rates[] = {"N/mm", "lbf/in", "kgf/mm"};
    switch (of) {
    case Measure::length:
        return units.length == LengthUnit::inch ? "in" : "mm";
    case Measure::force:
        return forces[static_cast<int>(units.force)];
    case Measure::rate:
        return rates[static_cast<int>(units.force)];
    default:
        return "";
    }
}

} // namespace counterpull
