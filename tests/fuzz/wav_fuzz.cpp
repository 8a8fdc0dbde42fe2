// Any bytes as a recording: read or refused, and what is read has only numbers in it, at a rate that can be
// listened to.
#include "engine/hearing/wav.h"

#include <cmath>
#include <cstdlib>

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* bytes, std::size_t size) {
    using namespace counterpull;
    const WavRead read = read_wav({bytes, size});
    if (read.trouble != WavTrouble::none)
        return 0;
    if (read.samples.empty() || read.rate_hz < lowest_rate_hz || read.rate_hz > highest_rate_hz)
        std::abort();
    for (const float sample : read.samples)
        if (!std::isfinite(sample))
            std::abort();
    return 0;
}
