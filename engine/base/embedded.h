// The data files (presets/*.json, engine/words/*.json) as text inside the program; the source is generated
// by CMake from the files, so that the command line and the page need no file beside them.
#pragma once

#include <span>
#include <string_view>

namespace counterpull {

// Text of presets/<name>.json, "" where there is none.
std::string_view embedded_preset(std::string_view name);
// Text of engine/words/<language>.json; "" where there is none, or where the page keeps it in a file of its
// own: only English is always part of the program.
std::string_view embedded_words(std::string_view language);

// The languages there are, whether part of the program or not, by code, each called as it calls itself.
struct Language {
    std::string_view code, name;
};
std::span<const Language> languages();

} // namespace counterpull
