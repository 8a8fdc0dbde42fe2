// Placed springs as the documents have them.
#pragma once

#include "engine/document/json_text.h"
#include "engine/document/setup.h"

#include <vector>

namespace counterpull {

Json placed_json(const std::vector<PlacedSpring>& springs);

} // namespace counterpull
