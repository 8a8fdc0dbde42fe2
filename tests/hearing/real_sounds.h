// Recorded guitar strings: notes of Debian's fluid-soundfont-gm (MIT licence), rendered by fluidsynth. What a
// note really sounds at is measured by a method of its own: peaks of a long transform, by FFTW.
#pragma once

#include "tests/hearing/sounds.h"

#include <string>
#include <vector>

namespace counterpull::test {

struct RealNote {
    int key = 0;     // 69 is A4
    Sound sound;     // begins with the pluck
    double hz = 0.0; // measured, of the fundamental, 0.3 s to 1.3 s after the pluck
};

inline constexpr double real_rate_hz = 44100.0;

// The notes of one of the soundfont's instruments (General MIDI, from 1: 25 nylon, 26 steel, 27 and 28
// electric), four seconds each. Empty where fluidsynth or the soundfont is not installed. `folder`: where it
// may write.
std::vector<RealNote> real_notes(int program, const std::vector<int>& keys, const std::string& folder);

// Played faster, so that it sounds higher.
Sound raised(const Sound& sound, double cents);

} // namespace counterpull::test
