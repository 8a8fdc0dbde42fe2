// The set-up document as text: strict reading, writing, and the check of what a set-up says.
//
// Format "counterpull-setup/1", plain JSON in UTF-8. Nothing is guessed: an unknown or doubled key, a wrong
// type, a number out of range or a wrong count is refused with its path and what is expected there.
#pragma once

#include "engine/document/problems.h"
#include "engine/document/setup.h"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

namespace counterpull {

inline constexpr std::string_view setup_format = "counterpull-setup/1";
inline constexpr std::size_t longest_document = 1'000'000; // bytes; one guitar with 100 readings is 50,000
inline constexpr int deepest_nesting = 12;

struct SetupRead {
    std::optional<Setup> setup; // present exactly where there is no problem
    Problems problems;
};
SetupRead read_setup(std::string_view text);

// The document, defaults left out, short objects on one line; reading it gives the same set-up back.
std::string write_setup(const Setup& setup);

// What is wrong with a set-up's values: ranges, counts, contradictions. `already` holds problems known from
// reading; places that these cover are not reported again.
void check_setup(const Setup& setup, Problems& already);

} // namespace counterpull
