// What else changes, for scripts: "counterpull-whatif/1".
#pragma once

#include "engine/whatif/whatif.h"

#include <string>

namespace counterpull {

std::string whatif_json(const WhatIf& answer);

} // namespace counterpull
