#include "shell/fonts.h"

namespace counterpull {

namespace {

constexpr std::size_t size_bytes = 4;

}

LanguageFaces::LanguageFaces(std::vector<unsigned char> file) : file_(std::move(file)) {
    if (file_.size() > size_bytes)
        for (std::size_t i = size_bytes; i-- > 0;)
            body_size_ = body_size_ << 8 | file_[i];
    if (body_size_ == 0 || body_size_ >= file_.size() - size_bytes)
        file_.clear();
}

std::span<const unsigned char> LanguageFaces::body() const {
    return std::span(file_).subspan(size_bytes, body_size_);
}

std::span<const unsigned char> LanguageFaces::strong() const {
    return std::span(file_).subspan(size_bytes + body_size_);
}

} // namespace counterpull
