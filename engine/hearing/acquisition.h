// Which strings sound, and about where: the start for the fit.
//
// A comb of a string's partials is moved over the spectrum's clearness (how far it stands out of the noise);
// the string with the best comb is taken out of the sound, and so on with what is left, until nothing is.
#pragma once

#include "engine/hearing/partials_fit.h"
#include "engine/hearing/tone.h"

#include <vector>

namespace counterpull {

// Where a string is looked for.
struct Sought {
    double hz = 0.0; // the middle
    double reach_cents = 120.0;
    double inharmonicity = 0.0;
};

inline constexpr int least_partials = 16; // that a string is taken to have

// A string that sounds, as far as is known.
struct Sounding {
    std::size_t string = 0;
    Tone tone;
    double sigma_cents = 0.0;
    double scatter_cents = 0.0;
};

bool sounds(const std::vector<Sounding>& strings, std::size_t string);

// Whether a string's partials agree much less without another, whose partials it then has to take for its
// own.
bool spoiled(const std::vector<Sounding>& strings, const std::vector<Sounding>& without);

// The partials of strings that lie below the spectrum's top.
std::vector<Partial> partials_of(const std::vector<Sounding>& strings, const Spectrum& spectrum);

// Fits partials and strings in turn: first the lowest 4 clear partials of each, then 7, then 12, with B let
// loose. The partials come back as last fitted. `stages`: 1 to 3.
std::vector<Partial> refine(const Spectrum& spectrum, const std::vector<Sought>& sought,
                            std::vector<Sounding>& strings, int stages);

// Which string is looked for next: that with the best comb, or the highest. A low string's comb also fits
// where the string an octave above it lies, and takes its place; the other way round it does so less.
enum class Next { best, highest };

// The strings that there is something of, `most` of them; those `known` already among them, at first where
// they were.
std::vector<Sounding> acquire(const Spectrum& spectrum, const std::vector<Sought>& sought, std::size_t most,
                              std::vector<Sounding> known, Next next = Next::best);

} // namespace counterpull
