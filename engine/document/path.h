// Where something stands in a document, as a chain of keys and indices that is put into words only when
// something is told of it: reading a sound document asks for no memory for its paths.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>

namespace counterpull {

class Path {
  public:
    // From a text: a whole path, or "" for the document itself. The text must outlive it, and so must what a
    // path is inside of.
    Path(std::string_view whole) : key_(whole) {}
    Path(const char* whole) : key_(whole) {}
    Path(const std::string& whole) : key_(whole) {}
    Path(const Path& in, std::string_view key) : in_(&in), key_(key) {}
    Path(const Path& in, std::size_t index) : in_(&in), index_(index), indexed_(true) {}

    // "next.strings[2].gauge_in"; of a key longer than anyone's, only its beginning.
    std::string text() const;

  private:
    const Path* in_ = nullptr;
    std::string_view key_{};
    std::size_t index_ = 0;
    bool indexed_ = false;
};

} // namespace counterpull
