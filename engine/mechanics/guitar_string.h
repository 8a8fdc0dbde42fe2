// A steel string: weight, stiffness and strength from its build, and how tension, pitch and length hang
// together.
#pragma once

#include <optional>

namespace counterpull {

enum class CoreShape { round, hex };
enum class Wrap { nickel_plated_steel, nickel, stainless_steel };

// What a string is made of. Lengths in metres.
struct StringBuild {
    double diameter_m = 0.0;
    bool wound = false;
    std::optional<double> core_m; // wound only; diameter, or size across the flats of a hex core
    CoreShape core = CoreShape::round;
    Wrap wrap = Wrap::nickel_plated_steel;
    std::optional<double> unit_weight_kg_m; // measured, of the unstretched string; wins over the estimate
};

// What the balance needs to know of a string.
struct StringMechanics {
    double unit_weight_kg_m = 0.0;       // μ0, unstretched
    double axial_stiffness_n = 0.0;      // EA of wire or core
    double bending_stiffness_n_m2 = 0.0; // EI of wire or core
    double breaking_load_n = 0.0;
};

// Density of the wrap wire, kg/m³: 7850 (plated steel), 8900 (nickel), 7900 (stainless), from memory.
double wrap_density_kg_m3(Wrap wrap);

// Usual core of a wound string of outer diameter D where the maker's is not known: 0.0085 in + 0.18 D,
// good to ±8 % (common practice, from memory). Thinner than D only from D = 0.0104 in up.
double estimated_core_m(double diameter_m);

// Weight, stiffness and strength.
//
// Plain: μ0 = ρ π d²/4. Wound, one close layer of round wrap wire w = (D − c)/2 on a core c:
//     μ0 = ρ_core A_core + ρ_wrap (π w²/4) · hypot(π (D − w), w) / w
// that is, per pitch w of the helix, the length of one turn of wrap wire. Only the core carries load, so EA,
// EI and the breaking load are the core's. The weight of a hex core is taken from its own area; the wrap is
// still laid on a circle of diameter c. The core must be thinner than the string.
StringMechanics mechanics_of(const StringBuild& build);

// How weight and stiffness of a wound string move with its core, per metre of `core_m`. Young's modulus is
// taken as it is for this core: it goes in steps (wire.h), and a step is no slope. A measured weight does not
// move. The breaking load is left out.
StringMechanics mechanics_per_core_m(const StringBuild& build);

// Tension that sounds `frequency_hz` on a speaking length L, by the fundamental of a stiff string with
// pinned ends (Fletcher 1964; Fletcher & Rossing, The Physics of Musical Instruments) whose wire stretches:
//     f = √( (T + π² EI/L²)(1 + T/EA) / μ0 ) / (2 L)
// a quadratic in T, solved in closed form. Real ends lie between pinned and clamped, so absolute tensions
// are good to about 1 %, changes much better. Negative where the string's own bending stiffness sounds
// higher than that with no tension at all: no such tuning exists.
double tension_at_pitch_n(const StringMechanics& string, double frequency_hz, double length_m);

// Change of that tension with the speaking length at constant pitch, N/m.
double tension_at_pitch_per_m(const StringMechanics& string, double frequency_hz, double length_m,
                              double tension_n);

// The inverse: fundamental frequency, Hz, of a string under tension (≥ 0) on a speaking length.
double pitch_at_tension_hz(const StringMechanics& string, double tension_n, double length_m);

// Inharmonicity B of a string under tension on a speaking length: partial n sounds at n f₀ √(1 + B n²), with
//     B = π² EI / (T L²), which for round wire is π³ E d⁴ / (64 T L²)
// (Fletcher 1964, The normal vibration frequencies of a stiff piano string, pinned ends). Of a wound string
// the core bends; its wrap adds little.
double inharmonicity(const StringMechanics& string, double tension_n, double length_m);

// Tension of a string whose tuner is not touched: T = EA · max(0, stretched/unstretched − 1).
double tension_at_length_n(const StringMechanics& string, double unstretched_m, double stretched_m);

// Unstretched length of a string that has tension T at a stretched length.
double unstretched_length_m(const StringMechanics& string, double tension_n, double stretched_m);

} // namespace counterpull
