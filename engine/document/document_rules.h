// The two halves of check_setup (document.h): numbers against their ranges, and the rules that join fields.
#pragma once

#include "engine/document/document.h"
#include "engine/document/fields.h"

namespace counterpull {

inline constexpr std::size_t most_readings = 200; // in the log

// Of a struct and what it holds, by its table.
void check_ranges(const Group& group, const void* object, Problems& problems);

// Counts (one per string, 1 to 6 springs), indices, strings that can be built, the travel and the readings
// inside it, and whether "now" says where the claw is.
void check_rules(const Setup& setup, Problems& problems);

} // namespace counterpull
