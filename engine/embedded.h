// The data files (presets/*.json, engine/words/*.json) as text inside the program; the source is generated
// by CMake from the files, so that the command line and the page need no file beside them.
#pragma once

#include <string_view>

namespace counterpull {

// Text of presets/<name>.json, "" where there is none.
std::string_view embedded_preset(std::string_view name);
// Text of engine/words/<language>.json; the English one where there is none.
std::string_view embedded_words(std::string_view language);

} // namespace counterpull
