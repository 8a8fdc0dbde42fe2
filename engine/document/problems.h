// What is refused in a document: where, and the reason, not yet in words.
#pragma once

#include "engine/base/phrase.h"
#include "engine/document/path.h"

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

namespace counterpull {

inline constexpr std::size_t most_problems_told = 20;

// One refused place: the path as "next.strings[2].gauge_in" ("" for the document as a whole) and why.
struct Problem {
    std::string path;
    Phrase why;
    bool operator==(const Problem&) const = default;
};

// At most `most_problems_told` problems, in the order met, and how many there were in all.
struct Problems {
    std::vector<Problem> told;
    std::size_t count = 0;
    void add(const Path& path, Phrase why);
    // The same, unless a problem that covers the path is known already.
    void add_new(const Path& path, Phrase why);
    bool none() const { return count == 0; }
    // Whether a problem stands at this path or at something that holds it.
    bool covers(std::string_view path) const;
    // Whether one stands at this path or inside it.
    bool touch(std::string_view path) const;
};

} // namespace counterpull
