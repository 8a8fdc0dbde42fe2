// What the strings in a recording are at, as "counterpull-hearing/1" and as text.
#pragma once

#include "engine/hearing/wav.h"
#include "engine/say/listen_for.h"
#include "engine/say/words.h"

#include <string>
#include <vector>

namespace counterpull {

std::string hearing_json(const std::vector<HeardString>& strings, double seconds);
std::string hearing_text(const std::vector<HeardString>& strings, const std::vector<Pitch>& tuning,
                         const Words& words);

// Why a recording is refused, with what was expected. There must be a trouble.
Phrase refusal_of(const WavRead& read);

} // namespace counterpull
