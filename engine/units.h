// Conversions between people's units and SI. The only place where such a factor stands.
#pragma once

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

} // namespace counterpull
