// Before and after, and why, where the answer surprises.
#pragma once

#include "engine/advice/report.h"
#include "engine/base/phrase.h"

#include <optional>
#include <string_view>
#include <vector>

namespace counterpull {

// One row of the table: what it is, now, and after the change.
struct Compared {
    std::string_view name; // key
    Parts now, after;
};
// Springs, turns of the claw screws, pull of all strings, tail, feel of the arm; what is not known on either
// side is left out. Empty where nothing fits.
std::vector<Compared> before_and_after(const Report& report);

// "The strings pull 10 % less, and yet a spring is added: on the three that are on it, the thread runs
// short." Nothing where the strings' pull alone explains the way that springs and screws go, once the job has
// begun, or where no reason is known. Changes of pull under `told_pull` are no surprise (ours).
inline constexpr double told_pull = 0.01;
std::optional<Phrase> why_so(const Report& report);

} // namespace counterpull
