// A string from its partials: pitch and stiffness that explain where they lie, though one or another lies
// elsewhere (a resonance of the neck, another string's partial, noise).
#pragma once

#include "engine/hearing/partials_fit.h"
#include "engine/hearing/tone.h"

#include <vector>

namespace counterpull {

// How far a partial may lie from the string it belongs to, cents, one sigma: real strings' do. The
// fundamental is pulled most by what carries the string.
inline constexpr double partial_model_cents = 1.0;
inline constexpr double fundamental_model_cents = 2.5;

struct StringFit {
    Tone tone;
    double sigma_cents = 0.0;   // of the pitch, from the partials' own and from how they scatter
    double scatter_cents = 0.0; // root mean square of how far the partials lie off, by weight
};

// A clear partial is taken where it is clearer than this.
inline constexpr double clear_partial = 10.0;

// By least squares with Cauchy's weights (a partial four sigmas off has a fifth of its say). `before`: where
// the partials were looked for. Only the first `most` clear ones of the string are asked. B stays at
// `stiffness` within `stiffness_spread` of itself, one sigma.
StringFit fit_string(const std::vector<Partial>& partials, std::size_t string, const Tone& before,
                     double stiffness, double stiffness_spread, int most);

} // namespace counterpull
