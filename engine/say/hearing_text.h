// What the strings in a recording are at, as "counterpull-hearing/1" and as text; and what a set-up says of
// where to look.
#pragma once

#include "engine/document/problems.h"
#include "engine/document/setup.h"
#include "engine/hearing/listener.h"
#include "engine/hearing/wav.h"
#include "engine/say/words.h"

#include <string>
#include <vector>

namespace counterpull {

// The strings of now or next as they are to be listened for, lowest first: pitch with its offset, stiffness
// by gauge and scale. `expected_cents`: where they are thought to be, one per string; empty where nobody
// knows. The set-up must have passed check_setup. Refused where it has no strings, or none that could sound
// so.
std::vector<StringTarget> targets_of(const Setup& setup, Which which,
                                     const std::vector<double>& expected_cents, Problems& problems);

std::string hearing_json(const std::vector<HeardString>& strings, double seconds);
std::string hearing_text(const std::vector<HeardString>& strings, const std::vector<Pitch>& tuning,
                         const Words& words);

// Why a recording is refused, with what was expected. There must be a trouble.
Phrase refusal_of(const WavRead& read);

} // namespace counterpull
