// JSON text into values, stricter than JSON: no doubled keys, bounded size and depth.
#pragma once

#include "engine/document/document.h"

#include <nlohmann/json.hpp>

#include <initializer_list>
#include <optional>
#include <string>
#include <string_view>

namespace counterpull {

// Keys stay in the order they were put or read. One kind of value everywhere: each costs the page its own
// code.
using Json = nlohmann::ordered_json;

// The parsed document; discarded (is_discarded()) where `problems` gained a reason: text too long, not JSON
// (with line and column), nested too deep, or a key given twice (with its path).
Json parse_strictly(std::string_view text, Problems& problems);

// The same of a text that is ours, or whose reader is not told what is wrong with it.
Json parse_json(std::string_view text);

// An object with these members. Json's own lists in braces copy each member twice over, and are more code.
struct JsonMember {
    const char* key;
    mutable Json value; // moved from: what a list in braces holds cannot be otherwise
};
Json object_of(std::initializer_list<JsonMember> members);

// Whether a text is UTF-8, and so can stand in JSON.
bool is_utf8(const std::string& text);

// What a report carries of a number: nine significant digits; null where there is none. In its units (mm, N,
// turns, cents, degrees) less than `nothing_left` is what rounding left of zero, and said as that. JSON has
// no word for what is not finite.
inline constexpr double nothing_left = 1e-9;
Json json_number(double value);
Json json_number(const std::optional<double>& value);

} // namespace counterpull
