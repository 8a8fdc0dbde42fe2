// Partials as (a + bτ) e^(iuτ), all at once, by least squares under the Hann weight.
//
// What a partial's frequency lacks shows as b = iδa, so Im(b/a) corrects it; Re(b/a) is its decay. The normal
// matrix is the window's transform at the differences of frequency, in closed form (spectrum.h), and nearly
// nothing beyond some 40 Hz at half a second, so it is solved within its envelope. Partials closer than the
// window can split share what is there, and their spread says so.
#pragma once

#include "engine/hearing/spectrum.h"

#include <cstddef>
#include <vector>

namespace counterpull {

struct Partial {
    std::size_t string = 0;
    int number = 1; // 1 is the fundamental
    double hz = 0.0;
    // What came of the last fit.
    Complex a, b;
    double spread_a = 0.0; // variance of a for a residual of power 1 there, 1 where it stands alone
    double spread_b = 0.0; // of b
    double residual = 0.0; // mean |residual|² within the partial's lobe, never below the noise
    double off_hz = 0.0;   // by how much it lies above `hz`
    double off_sigma_hz = 0.0;
    // How clearly it is there: |a|² against what is left and what its neighbours could stand in for. 1 is
    // chance.
    double clearness() const;
    double decay_per_s(double window_s) const; // − Re(b/a) in 1/s, + fading
};

// Fills in what the fit says; `partials` are put in order of frequency. Two of one frequency are no matter.
void fit_partials(const Spectrum& spectrum, std::vector<Partial>& partials);

// The spectrum less the partials, at the same steps as the spectrum's.
std::vector<Complex> without(const Spectrum& spectrum, const std::vector<Partial>& partials);

} // namespace counterpull
