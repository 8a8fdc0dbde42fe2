// The report as "counterpull-report/1".
#pragma once

#include "engine/advice/report.h"
#include "engine/say/words.h"

#include <string>

namespace counterpull {

std::string report_json(const Report& report, const Words& words);

} // namespace counterpull
