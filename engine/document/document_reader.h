// Reads JSON objects into structs by their tables (fields.h), for documents and presets alike. What is not
// expected is refused at its path.
#pragma once

#include "engine/document/fields.h"
#include "engine/document/json_text.h"
#include "engine/document/problems.h"

#include <optional>
#include <string_view>

namespace counterpull {

// What stands there, short enough for a message.
std::string shown(const Json& value);

// The value of a key of an object, or null.
const Json* value_at(const Json& object, std::string_view key);

// Whether keys that are in no row are refused, and one more key, if any, that may stand there.
struct Keys {
    bool strict = true;
    std::optional<std::string_view> but{};
};

// Reads an object into a struct that has every default, field by field.
void read_object(const Json& object, const Group& group, void* into, const Path& path, Keys keys,
                 Problems& problems);

} // namespace counterpull
