// Numbers as people read them.
#pragma once

#include <string>

namespace counterpull {

// Fixed number of digits after the point; "-0.0" becomes "0.0".
std::string fixed(double value, int digits);
// A number with as many digits as it needs, at most `digits`: 8.5, 12, 0.25.
std::string trimmed(double value, int digits);
// The gauge as players say it: 0.046 → "46", 0.0105 → "10.5".
std::string gauge_in_words(double gauge_in);
// As short as it goes at nine significant digits: 0.46, 647.7, 1e+308.
std::string shortest(double value);
// Less than this is not worth a screwdriver: it rounds to no eighth of a turn.
inline constexpr double least_turn = 1.0 / 16.0;
// A number of turns (its size, without sign) to the nearest eighth: "2¼", "⅛", "3".
std::string turns_in_eighths(double turns);
// The number rounded to nine significant digits, as the report carries them.
double nine_digits(double value);

} // namespace counterpull
