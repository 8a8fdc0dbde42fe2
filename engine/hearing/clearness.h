// How far a spectrum stands out of the noise, and how much of that strings explain.
#pragma once

#include "engine/hearing/partials_fit.h"
#include "engine/hearing/spectrum.h"

#include <vector>

namespace counterpull {

// Up to here strings are expected to explain what sounds.
inline constexpr double explained_to_hz = 1800.0;

// What is left when `partials` are taken out: at each step of the spectrum ln of its power in units of the
// noise's, from 0 to 6. Beside what was taken out, what the model may be wrong by counts as noise.
std::vector<double> log_clearness(const Spectrum& spectrum, const std::vector<Partial>& partials);

// Share of what stands out of the noise that the partials leave, by amplitude, up to explained_to_hz. Real
// strings leave 0.01, a voice taken for strings nearly all.
double unexplained_share(const Spectrum& spectrum, const std::vector<Partial>& partials);

} // namespace counterpull
