#include "shell/drawn_words.h"

#include <imgui_internal.h>

#include <algorithm>

namespace counterpull {

namespace {

bool lacks_a_letter(const ImFont& font, std::string_view word) {
    const char *at = word.data(), *end = at + word.size();
    while (at < end) {
        if (!(*at & 0x80)) { // every face has those
            ++at;
            continue;
        }
        unsigned letter = 0;
        at += ImTextCharFromUtf8(&letter, at, end); // U+FFFD where it is none of ImWchar's
        if (letter < DrawnWords::after || !font.FindGlyphNoFallback(static_cast<ImWchar>(letter)))
            return true;
    }
    return false;
}

} // namespace

std::string_view DrawnWords::shown(const ImFont& font, std::string_view text) {
    if (!lacks_a_letter(font, text))
        return text;
    std::string& out = shown_;
    out.clear();
    for (bool more = true; more;) {
        const std::size_t blank = text.find_first_of(" \n");
        const std::string_view word = text.substr(0, blank);
        if (!lacks_a_letter(font, word)) {
            out += word;
        } else if (Word* known = find(word); known && known->pictures.back().width > 0) {
            char utf8[5];
            out += ImTextCharToUtf8(utf8, character(static_cast<std::size_t>(known - words_.data())));
        } else {
            out += "…";
        }
        more = blank != std::string_view::npos;
        if (more)
            out += text[blank];
        text.remove_prefix(more ? blank + 1 : text.size());
    }
    return out;
}

// Its place, or that of the one that was not met for longest; none while all are in sight.
DrawnWords::Word* DrawnWords::find(std::string_view word) {
    const int frame = ImGui::GetFrameCount();
    auto found =
        std::find_if(words_.begin(), words_.end(), [&](const Word& one) { return one.text == word; });
    if (found == words_.end()) {
        found = std::min_element(words_.begin(), words_.end(),
                                 [](const Word& a, const Word& b) { return a.met < b.met; });
        if (found->met == frame)
            return nullptr;
        *found = {std::string(word), frame, {}};
        wanted_ = true;
    }
    found->met = frame;
    return &*found;
}

std::string DrawnWords::take_wanted() {
    wanted_ = false;
    std::string all;
    for (std::size_t i = 0; i < words_.size(); ++i)
        if (!words_[i].text.empty() && words_[i].pictures.back().width == 0)
            all += std::to_string(i) + " " + words_[i].text + "\n";
    return all;
}

void DrawnWords::take(std::size_t place, std::size_t style, Picture picture) {
    if (place >= words_.size() || style >= text_styles || picture.width > widest_picture - 2 ||
        picture.ink.size() !=
            static_cast<std::size_t>(picture.width) * static_cast<std::size_t>(picture.height))
        return;
    words_[place].pictures[style] = std::move(picture);
    ++revision_;
}

void DrawnWords::forget_pictures() {
    for (Word& word : words_) {
        wanted_ = wanted_ || !word.text.empty();
        word.pictures = {};
    }
    ++revision_;
}

} // namespace counterpull
