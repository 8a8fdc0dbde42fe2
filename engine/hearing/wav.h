// Recordings as WAV files: reading them.
//
// Source: Multimedia Programming Interface and Data Specifications 1.0 (IBM and Microsoft 1991), RIFF WAVE;
// the extensible form by its sub-format's first two bytes. PCM of 16 or 24 bit or 32 bit float, mono or
// stereo, 8 to 192 kHz; at most ten minutes. Any bytes may be given: they are read or refused.
#pragma once

#include <cstddef>
#include <span>
#include <vector>

namespace counterpull {

inline constexpr double lowest_rate_hz = 8000.0;
inline constexpr double highest_rate_hz = 192000.0;
inline constexpr double longest_clip_s = 600.0;

enum class WavTrouble { none, not_wav, cut_short, not_samples, channels, rate, too_long, empty };

struct WavRead {
    WavTrouble trouble = WavTrouble::none;
    double found = 0.0; // what there was where something else was expected: channels, or the rate
    double rate_hz = 0.0;
    std::vector<float> samples; // full scale is 1 (floats may go to 8), both channels' mean
};
WavRead read_wav(std::span<const unsigned char> bytes);

} // namespace counterpull
