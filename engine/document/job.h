// A job at the bench as the document holds it (BenchSetup).
#pragma once

#include "engine/document/setup.h"

namespace counterpull {

// Takes the last step done back, and the readings that it entered. What the document does not hold any more
// stays as it is: a tail corrected in "now", thread that was told to be at its end. False where no step is
// done.
bool take_back_last_step(Setup& setup);

} // namespace counterpull
