// What things are called, and why: phrases for what the engine tells by kinds and flags.
#pragma once

#include "engine/advice/report.h"
#include "engine/base/phrase.h"

#include <string_view>
#include <vector>

namespace counterpull {

// "spring rate".
Phrase name_of(Unknown unknown);
// As the report names it.
std::string_view name_of(SheetStart start);
Phrase why_in_words(WhyGentler why);
// Why an arrangement does not fit, or what to know where it does; never empty.
std::vector<Phrase> reasons_of(const Setup& setup, const Advice& advice);
// The first of them.
Phrase main_reason(const Setup& setup, const Advice& advice);
Phrase sentence_of(const Warning& warning);
// As a clip-on tuner shows a string that sounds `cents` above a note: "C#2 +1"; and beside it what that is
// against the note wanted, where the tuner names another: " (C2 +101)", else nothing.
Parts shown_by_tuner(const Pitch& note, double cents);
Parts beside_shown(const Pitch& note, double cents);
// What would work where nothing fits.
Phrase sentence_of(const Alternative& alternative);
// Hooks or holes as a player counts them, from 1 at the bass side: "1, 3, 5".
List hooks_of(const Arrangement& springs);
List holes_of(const Arrangement& springs);

} // namespace counterpull
