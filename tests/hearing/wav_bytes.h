// WAV files made in memory.
#pragma once

#include <cstdint>
#include <cstring>
#include <string>
#include <vector>

namespace counterpull::test {

inline std::string little_endian(std::uint32_t value, int size) {
    std::string bytes;
    for (int i = 0; i < size; ++i)
        bytes += static_cast<char>(value >> 8 * i & 0xFF);
    return bytes;
}

// kind 1 is PCM, 3 is float; `data` as it stands in the file; `between` are chunks before it.
inline std::string
wav_bytes(unsigned kind, unsigned channels, unsigned rate, unsigned bits, const std::string& data,
          const std::string& between = "LIST" + little_endian(3, 4) + "abc" + std::string(1, '\0')) {
    const unsigned frame = channels * bits / 8;
    const std::string format = little_endian(kind, 2) + little_endian(channels, 2) + little_endian(rate, 4) +
                               little_endian(rate * frame, 4) + little_endian(frame, 2) +
                               little_endian(bits, 2);
    const std::string body = "WAVEfmt " + little_endian(16, 4) + format + between + "data" +
                             little_endian(static_cast<std::uint32_t>(data.size()), 4) + data;
    return "RIFF" + little_endian(static_cast<std::uint32_t>(body.size()), 4) + body;
}

// Mono, 32 bit float.
inline std::string wav_of(const std::vector<float>& samples, unsigned rate) {
    std::string data;
    for (const float sample : samples) {
        std::uint32_t raw = 0;
        std::memcpy(&raw, &sample, sizeof raw);
        data += little_endian(raw, 4);
    }
    return wav_bytes(3, 1, rate, 32, data);
}

} // namespace counterpull::test
