// Words of which the faces lack a letter (a title may hold any): the platform draws each as a whole, in
// whatever script, and it stands in the text as one character of its own.
#pragma once

#include <imgui.h>

#include <array>
#include <string>
#include <string_view>
#include <vector>

namespace counterpull {

// The page's styles of text, in the order of Fonts (theme.h).
inline constexpr int text_styles = 4;
// A picture is no wider, in dots of the screen.
inline constexpr int widest_picture = 2048;

class DrawnWords {
  public:
    // How much of each dot is ink, 0 to 255, line by line; the baseline four fifths down a line's height.
    struct Picture {
        int width = 0, height = 0; // dots of the screen
        std::vector<unsigned char> ink;
    };
    struct Word {
        std::string text; // "" none
        int met = -1;     // the frame in which it was last drawn
        std::array<Picture, text_styles> pictures;
    };

    // The text as it can be drawn with a face, until the next call: a word that lacks a letter is its
    // character, or "…" while it has no picture.
    std::string_view shown(const ImFont& font, std::string_view text);
    // Whether a word wants pictures that were not asked for yet; and a line for each that has none, its
    // place, a blank and its text.
    bool wanted() const { return wanted_; }
    std::string take_wanted();
    // A picture of the word at a place, in a style; out of range it is left.
    void take(std::size_t place, std::size_t style, Picture picture);
    // The pictures are of another size of dots now: all are wanted anew.
    void forget_pictures();

    const auto& words() const { return words_; }
    // Words stand as control characters, which no text holds: from the first of these to before `after`.
    static constexpr unsigned first = 0x80, after = 0xA0;
    static ImWchar character(std::size_t place) { return static_cast<ImWchar>(first + place); }
    static std::size_t place(unsigned character) { return character - first; }
    // Counts what was taken and forgotten.
    int revision() const { return revision_; }

  private:
    Word* find(std::string_view word);

    std::array<Word, after - first> words_;
    std::string shown_;
    bool wanted_ = false;
    int revision_ = 0;
};

} // namespace counterpull
