// A stiff string's tone: where its partials lie.
//
// Source: Fletcher 1964, The normal vibration frequencies of a stiff piano string; Fletcher & Rossing, The
// Physics of Musical Instruments: f_n = n f₀ √(1 + B n²), here by what sounds as the fundamental, f₁ = f₀ √(1
// + B). B comes from the string (`inharmonicity` in engine/mechanics/guitar_string.h).
#pragma once

namespace counterpull {

struct Tone {
    double hz = 0.0; // of the fundamental
    double inharmonicity = 0.0;
};

double partial_hz(const Tone& tone, int number);

// By how many cents a partial rises where B grows by its own size.
double partial_cents_per_inharmonicity(const Tone& tone, int number);

// Where `cents` above a frequency lies.
double raised_hz(double hz, double cents);

} // namespace counterpull
