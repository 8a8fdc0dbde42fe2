// What a guitar that stands in tune already says: it has not run away, so its float is about as stiff as
// floats are.
//
// The prior spreads of the numbers are independent (belief.h), and that is too modest: together they allow
// guitars that no one could keep in tune. So the covariance is conditioned on one pseudo-reading of the
// stiffness. With s the mm of tail per turn of both screws at pitch, on this guitar as it would be with usual
// strings in standard tuning on three of its springs, level, whatever is fitted:
//     ln |s| is read as ln 3.4 ± 0.35    (common practice, from memory: ¼ turn moves the tail 0.6 to 1.2 mm)
// relative to what the numbers of the set-up say: it shapes the covariance, the mean stays with the numbers.
// A fit that moves far from them is held by it too, r = ln |s(z)/s(0)|/0.35 as one more reading.
#pragma once

#include "engine/belief/belief.h"

#include <optional>

namespace counterpull {

inline constexpr double usual_per_turn_mm = 3.4;
inline constexpr double usual_per_turn_sigma = 0.35; // of its logarithm

class Standing {
  public:
    // `belief` must outlive it.
    explicit Standing(const Belief& belief);

    // r; 0 where the guitar as typed would run away, or has no such balance: then nothing is said. Nothing
    // where the guitar at z has none.
    std::optional<double> residual(const Deviations& z) const;
    // dr/dz of each unknown at z; all zero where nothing is said. By central differences: no digit that
    // matters depends on more.
    Deviations row(const Deviations& z) const;

  private:
    std::optional<double> per_turn_m(const Deviations& z) const;

    const Belief& belief_;
    std::vector<StringSetup> strings_;
    std::vector<Pitch> tuning_;
    PerString offset_cents_{{0.0}};
    std::vector<PlacedSpring> springs_;
    double as_typed_m_ = 0.0; // s(0); 0 where nothing is said
};

} // namespace counterpull
