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
    if (key_.size() <= longest_key)
        return path.append(key_);
    std::size_t whole = longest_key; // letters, not bytes amid one
    while (whole > 0 && (static_cast<unsigned char>(key_[whole]) & 0xC0U) == 0x80U)
        --whole;
    return path.append(key_.substr(0, whole)) + "...";
}

} // namespace counterpull
