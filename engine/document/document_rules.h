// The two halves of check_setup (document.h): numbers against their ranges, and the rules that join fields.
#pragma once

#include "engine/document/document.h"

namespace counterpull {

void check_ranges(const Setup& setup, Problems& problems);

// Counts (one per string, 1 to 6 springs), indices, strings that can be built, the travel and the readings
// inside it, and whether "now" says where the claw is.
void check_rules(const Setup& setup, Problems& problems);

} // namespace counterpull
