// The report as plain text, for a terminal or a message: aligned, with units, short.
#pragma once

#include "engine/advice/report.h"
#include "engine/say/words.h"

#include <string>

namespace counterpull {

// Everything but the tables.
std::string answer_text(const Report& report, const Words& words);
// The same for a forum or a chat, headed by what is on the guitar and what is wanted: no markup, and nothing
// that needs its columns or its blanks kept.
std::string forum_text(const Report& report, const Words& words);

std::string report_text(const Report& report, const Words& words);

} // namespace counterpull
