// A set-up document with some of its numbers put elsewhere, as bytes say: near, far, negative, huge.
#pragma once

#include <nlohmann/json.hpp>

#include <span>

namespace reference {

nlohmann::ordered_json altered(nlohmann::ordered_json document, std::span<const unsigned char> bytes);
// The same of an example of the project, which the first byte names; of the first one where there is none.
nlohmann::ordered_json altered_example(std::span<const unsigned char> bytes);

} // namespace reference
