// Music wire, the steel of plain strings, of the cores of wound strings and of springs.
//
// Source: ASTM A228 as tabulated in Shigley, Mechanical Engineering Design: density and table 10-4
// (strength), table 10-5 (moduli by diameter), from memory. Diameters in metres, from about 0.1 to 6.5 mm.
#pragma once

namespace counterpull {

inline constexpr double music_wire_density_kg_m3 = 7850.0;

// Young's modulus E, Pa. Steps at 0.033, 0.064 and 0.125 in, as in the table.
double young_modulus_pa(double diameter_m);

// Shear modulus G, Pa. Same steps.
double shear_modulus_pa(double diameter_m);

// Tensile strength S_ut = A/d^m, Pa, with A = 2211 MPa·mm^m and m = 0.145.
double tensile_strength_pa(double diameter_m);

// Area and second moment of area of a round wire, m² and m⁴.
double round_area_m2(double diameter_m);
double round_second_moment_m4(double diameter_m);

// The same of a hexagonal wire, from its size across the flats: 0.866 c² and 5√3/144 c⁴.
double hex_area_m2(double across_flats_m);
double hex_second_moment_m4(double across_flats_m);

} // namespace counterpull
