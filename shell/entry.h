// What people type into fields, understood.
#pragma once

#include "engine/base/units.h"

#include <optional>
#include <string>
#include <string_view>

namespace counterpull {

// A number as players write it: "8.5", "8,5", "-1", "−1", "+0.5", "1/8", "2 1/4", "2¼". A unit after it
// ("mm", "N/mm", "Hz" …) is allowed and ignored. Nothing where it is no number.
std::optional<double> parse_number(std::string_view text);

// The same for a value of the set-up document, typed in the reader's units or with a unit after it ("2 mm",
// "1/8 in", "12 lb"), which then counts; with a unit that is none of it, nothing. Returned in the document's
// unit.
std::optional<double> parse_amount(std::string_view text, Measure of, Units units);
// The step of a field in the document's unit: a round number in the reader's, about as large.
double step_in_units(double step, Measure of, Units units);

// A gauge in inches as players write it: "46", ".046", "0.046", "10.5". From 1 up it is thousandths.
std::optional<double> parse_gauge_in(std::string_view text);

} // namespace counterpull
