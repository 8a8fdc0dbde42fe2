// What is refused, in words.
#pragma once

#include "engine/document/problems.h"
#include "engine/say/words.h"

namespace counterpull {

// "path: reason" in words.
std::string sentence_of(const Problem& problem, const Words& words);

// "first message" and " (and n more)", for the command line's standard error. There must be a problem.
std::string first_message(const Problems& problems, const Words& words);

} // namespace counterpull
