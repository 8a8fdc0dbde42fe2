#include "engine/document/path.h"

namespace counterpull {

namespace {

constexpr std::size_t longest_key = 60; // a hostile key is told by its beginning only

} // namespace

std::string Path::text() const {
    std::string path = in_ ? in_->text() : std::string();
    if (indexed_)
        return path + "[" + std::to_string(index_) + "]";
    if (!in_)
        return std::string(key_);
    if (!path.empty())
        path += '.';
    path += key_.substr(0, longest_key);
    if (key_.size() > longest_key)
        path += "...";
    return path;
}

} // namespace counterpull
