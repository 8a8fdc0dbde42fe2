// What the string search found, for scripts and for people.
#pragma once

#include "engine/advice/string_search.h"
#include "engine/say/words.h"

#include <string>

namespace counterpull {

// "counterpull-strings/1", and lines for people.
std::string strings_json(const std::vector<FoundSet>& sets, Feel feel);
std::string strings_text(const std::vector<FoundSet>& sets, const Words& words);
// Gauges from thin to thick, as shops name a set, wound ones with a w: "10 13 17 26w 36w 46w".
std::string gauges_in_words(const std::vector<StringSetup>& strings);

} // namespace counterpull
