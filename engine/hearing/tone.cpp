#include "engine/hearing/tone.h"

#include <cmath>
#include <numbers>

namespace counterpull {

double partial_hz(const Tone& tone, int number) {
    const double n = number;
    return n * tone.hz * std::sqrt((1.0 + tone.inharmonicity * n * n) / (1.0 + tone.inharmonicity));
}

double partial_cents_per_inharmonicity(const Tone& tone, int number) {
    const double n = number;
    const double b = tone.inharmonicity;
    return 600.0 / std::numbers::ln2 * b * (n * n / (1.0 + b * n * n) - 1.0 / (1.0 + b));
}

double raised_hz(double hz, double cents) {
    return hz * std::exp2(cents / 1200.0);
}

} // namespace counterpull
