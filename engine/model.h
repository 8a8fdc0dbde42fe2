// The SI model of a set-up: the document's numbers turned into the parts that the balance knows, and where
// the claw is. The only place where the document's units become SI.
#pragma once

#include "engine/balance.h"
#include "engine/document.h"
#include "engine/setup.h"

#include <span>

namespace counterpull {

StringBuild build_of(const StringSetup& string);
Spring spring_of(const SpringSetup& spring);

// Which strings, in which tuning, on which springs. `Which::now` for strings or tuning needs them in the
// document (they may be left out where the strings are off). With neither, the bridge carries no strings.
struct Fitting {
    const std::vector<StringSetup>& strings;
    const std::vector<Pitch>& tuning;
    const PerString& offset_cents;
    const std::vector<PlacedSpring>& springs;
};
Fitting fitting_now(const Setup& setup);
Fitting fitting_next(const Setup& setup, const std::vector<PlacedSpring>& springs);

// The set-up must have passed check_setup.
Assembly assembly_of(const Setup& setup, const Fitting& fitting);

// Attitude of a tail reading in mm.
double angle_of_tail_rad(const Setup& setup, double tail_mm);

// Where the claw is now. Given spring lengths while out of tune, or in tune on a stop, fix it: the mean of
// what each says (they agree but for the ruler). Otherwise in tune at the tail reading fixes it. Screws count
// as turned 0 there. Refused, with the path, where no claw position fits what the document says.
std::optional<ClawSetting> claw_now(const Setup& setup, const Assembly& assembly, Problems& problems);

// Tunings that no tension gives, because the string's own stiffness sounds higher; added to `problems`.
void check_pitches(const Assembly& assembly, std::string_view path, Problems& problems);

} // namespace counterpull
