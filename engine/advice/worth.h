// What is worth measuring: how much of the turns' spread each thing not known for sure makes up, and what an
// error there does to the turns.
#pragma once

#include "engine/advice/solution.h"

namespace counterpull {

struct Worth {
    Unknown unknown = Unknown::spring_rate; // Unknown::weights: of all strings together
    double turns = 0.0;                     // 1 σ of the turns that it alone would cause
    double turns_per_unit = 0.0; // turns for one more of the document's unit; 0 for cores and weights
};

// Most important first. Without what plays no part. Empty where there are no turns.
std::vector<Worth> worth_of_measuring(const Solution& solution);

// The number in the set-up that an unknown is about, the mean where there is one per string; 0 for readings,
// whose spread does not depend on them; nothing for cores and weights.
std::optional<double> value_of(const GuitarSetup& guitar, Unknown unknown);

} // namespace counterpull
