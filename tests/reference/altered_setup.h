// A set-up document with some of its numbers put elsewhere, as bytes say: near, far, negative, huge.
#pragma once

#include <nlohmann/json.hpp>

#include <span>

namespace reference {

nlohmann::ordered_json altered(nlohmann::ordered_json document, std::span<const unsigned char> bytes);

} // namespace reference
