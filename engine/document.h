// The set-up document as text: strict reading, writing, and the check of what a set-up says.
//
// Format "counterpull-setup/1", plain JSON in UTF-8. Nothing is guessed: an unknown or doubled key, a wrong
// type, a number out of range or a wrong count is refused with its path and what is expected there.
#pragma once

#include "engine/setup.h"
#include "engine/words.h"

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace counterpull {

inline constexpr std::string_view setup_format = "counterpull-setup/1";
inline constexpr std::size_t longest_document = 1'000'000; // bytes; one guitar with 100 readings is 50,000
inline constexpr int deepest_nesting = 12;
inline constexpr std::size_t most_problems_told = 20;

// One refused place: the path as "next.strings[2].gauge_in" ("" for the document as a whole) and why.
struct Problem {
    std::string path;
    Phrase why;
    bool operator==(const Problem&) const = default;
};

// "path: reason" in words.
std::string sentence_of(const Problem& problem, const Words& words);

// At most `most_problems_told` problems, in the order met, and how many there were in all.
struct Problems {
    std::vector<Problem> told;
    std::size_t count = 0;
    void add(std::string path, Phrase why);
    // The same, unless a problem that covers the path is known already.
    void add_new(std::string path, Phrase why);
    bool none() const { return count == 0; }
    // Whether a problem stands at this path or at something that holds it.
    bool covers(std::string_view path) const;
    // Whether one stands at this path or inside it.
    bool touch(std::string_view path) const;
};

// "first message" and " (and n more)", for the command line's standard error. There must be a problem.
std::string first_message(const Problems& problems, const Words& words);

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
