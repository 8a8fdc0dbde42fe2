// The report as plain text, for a terminal or a message: aligned, with units, short.
#pragma once

#include "engine/report.h"

#include <string>

namespace counterpull {

std::string report_text(const Setup& setup, const Report& report, const Words& words);

} // namespace counterpull
