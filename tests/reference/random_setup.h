// Plausible set-ups drawn at random, the same on every platform for the same seed.
#pragma once

#include <nlohmann/json.hpp>

#include <cstdint>

namespace reference {

nlohmann::json random_setup(std::uint64_t seed);

} // namespace reference
