// What a set-up says of the strings that are to be heard: what they are tuned to, and where to look.
#pragma once

#include "engine/document/problems.h"
#include "engine/document/setup.h"
#include "engine/hearing/listener.h"

#include <vector>

namespace counterpull {

// The strings of now or next as they are to be listened for, lowest first: pitch with its offset, stiffness
// by gauge and scale. `expected_cents`: where they are thought to be, one per string; empty where nobody
// knows. The set-up must have passed check_setup. Refused where it has no strings, or none that could sound
// so.
std::vector<StringTarget> targets_of(const Setup& setup, Which which,
                                     const std::vector<double>& expected_cents, Problems& problems);

} // namespace counterpull
