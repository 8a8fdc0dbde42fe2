// The SI model of a set-up: the document's numbers turned into the parts that the balance knows, and where
// the claw is. The only place where the document's units become SI.
#pragma once

#include "engine/document/document.h"
#include "engine/document/setup.h"
#include "engine/mechanics/balance.h"

#include <optional>
#include <span>

namespace counterpull {

StringBuild build_of(const StringSetup& string);
Spring spring_of(const SpringSetup& spring);

// Which strings, in which tuning, on which springs. `Which::now` for strings or tuning needs them in the
// document (they may be left out where the strings are off). With neither, the bridge carries no strings.
// An entry of the log may carry strings of its own. All refer to the set-up, which must outlive it.
struct Fitting {
    const std::vector<StringSetup>& strings;
    const std::vector<Pitch>& tuning;
    const PerString& offset_cents;
    const std::vector<PlacedSpring>& springs;
    std::optional<Which> which; // whose strings these are; nothing: an entry's own
};
Fitting fitting_now(const Setup& setup);
Fitting fitting_of(const Setup& setup, const Reading& entry); // as it was read
Fitting fitting_next(const Setup& setup, const std::vector<PlacedSpring>& springs);

// The set-up must have passed check_setup.
Assembly assembly_of(const Setup& setup, const Fitting& fitting);

// Whether the spring lengths fix the claw now: out of tune, or in tune on a stop.
bool claw_from_spring_lengths(const Setup& setup);

// How far apart the claw stands by what each of those lengths says, m; 0 where there are none.
double spring_lengths_apart_m(const Setup& setup, const Assembly& assembly);

// The claw, turned from a count of zero as an entry of the log counts.
ClawSetting turned_by(const ClawSetting& claw, const Reading& entry);

// Attitude of a tail reading in mm.
double angle_of_tail_rad(const Setup& setup, double tail_mm);

// What has to be added to the readings of "now" to make them true, mm.
struct ReadingErrors {
    double tail_mm = 0.0;
    double spring_mm = 0.0; // of the mean spring length
};

// Where the claw is now. Given spring lengths while out of tune, or in tune on a stop, fix it: the mean of
// what each says (they agree but for the ruler). Otherwise in tune at the tail reading fixes it. Screws count
// as turned 0 there. Refused, with the path, where no claw position fits what the document says.
std::optional<ClawSetting> claw_now(const Setup& setup, const Assembly& assembly, Problems& problems,
                                    const ReadingErrors& errors = {});

// Tunings that no tension gives, because the string's own stiffness sounds higher; added to `problems`.
void check_pitches(const Assembly& assembly, std::string_view path, Problems& problems);

// The same for a set-up that need not have been checked: all checks, then where the claw is.
std::optional<ClawSetting> checked_claw_now(const Setup& setup, Problems& problems);

} // namespace counterpull
