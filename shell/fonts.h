// The faces, cut to the glyphs that are used by web/fonts/cut when the interface is built. Figures are
// tabular.
#pragma once

namespace counterpull {

extern const unsigned char body_face[];
extern const unsigned int body_face_size;
extern const unsigned char strong_face[];
extern const unsigned int strong_face_size;
// Pairs of first and last code, ending in 0, as Dear ImGui reads them.
extern const unsigned short face_ranges[];

} // namespace counterpull
