// Which form of a text a number takes. The plural rules of a language stand in its word file as Unicode CLDR
// writes them (Unicode Technical Standard #35, part 3, "Language Plural Rules"), the category first, "other"
// left out: "one i = 1 and v = 0|few v = 0 and i % 10 = 2..4".
#pragma once

#include <string_view>

namespace counterpull {

// Takes off what stands before the first `end`, which goes too; all of it where there is none.
std::string_view next_word(std::string_view& text, char end);

// The category ("one", "few", …) of a number as it is said, with its sign, its decimals after a point or a
// comma, or a fraction: "−2", "1.50", "2¼". What says no number counts as nothing.
std::string_view plural_category(std::string_view rules, std::string_view number);

// Of "one a spring|=2 two springs|other # springs" the first form that the number takes: by its category, or
// because it is that number. The last where there is none.
std::string_view form_for(std::string_view forms, std::string_view rules, std::string_view number);

} // namespace counterpull
