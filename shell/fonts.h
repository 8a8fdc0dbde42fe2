// The faces, cut to the glyphs that are used by web/fonts/cut when the interface is built: the desktop
// window's to all there are, the page's to those of English. Figures are tabular.
#pragma once

#include <span>
#include <vector>

namespace counterpull {

extern const unsigned char body_face[];
extern const unsigned int body_face_size;
extern const unsigned char strong_face[];
extern const unsigned int strong_face_size;

// What another language has beside them, as its file holds it: the size of the first face in four bytes, the
// lowest first, the face itself, then the second.
class LanguageFaces {
  public:
    // None, or from such a file; none where it is no such file.
    explicit LanguageFaces(std::vector<unsigned char> file = {});
    bool empty() const { return file_.empty(); }
    std::span<const unsigned char> body() const;
    std::span<const unsigned char> strong() const;

  private:
    std::vector<unsigned char> file_;
    std::size_t body_size_ = 0;
};

} // namespace counterpull
