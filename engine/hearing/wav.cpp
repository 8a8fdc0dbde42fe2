#include "engine/hearing/wav.h"

#include <algorithm>
#include <cmath>
#include <cstdint>
#include <cstring>

namespace counterpull {

namespace {

using Bytes = std::span<const unsigned char>;

constexpr unsigned pcm = 1, ieee_float = 3, extensible = 0xFFFE;

// Little endian; what lies beyond the end is asked for by nobody.
std::uint32_t number(Bytes bytes, std::size_t at, std::size_t size) {
    std::uint32_t value = 0;
    for (std::size_t i = size; i-- > 0;)
        value = value << 8 | bytes[at + i];
    return value;
}

bool named(Bytes bytes, std::size_t at, const char* name) {
    return bytes.size() >= at + 4 && std::memcmp(bytes.data() + at, name, 4) == 0;
}

// The body of the first chunk of a name; nothing where there is none. One cut off by the end of the file ends
// there, as recorders that were stopped leave it.
Bytes chunk(Bytes bytes, const char* name) {
    for (std::size_t at = 12; at + 8 <= bytes.size();) {
        const std::size_t size = number(bytes, at + 4, 4);
        const std::size_t left = bytes.size() - at - 8;
        if (named(bytes, at, name))
            return bytes.subspan(at + 8, std::min(size, left));
        if (size >= left)
            break;
        at += 8 + size + size % 2;
    }
    return {};
}

float sample_at(Bytes data, std::size_t at, unsigned bits, bool floating) {
    if (floating) {
        const std::uint32_t raw = number(data, at, 4);
        float value = 0.0F;
        std::memcpy(&value, &raw, sizeof value);
        // What no recorder writes would spoil all the rest.
        return std::isfinite(value) ? std::clamp(value, -8.0F, 8.0F) : 0.0F;
    }
    const std::uint32_t raw = number(data, at, bits / 8) << (32 - bits);
    return static_cast<float>(static_cast<std::int32_t>(raw)) * 0x1p-31F;
}

} // namespace

WavRead read_wav(Bytes bytes) {
    WavRead read;
    const auto refuse = [&read](WavTrouble trouble, double found = 0.0) {
        read.trouble = trouble;
        read.found = found;
        return read;
    };
    if (!named(bytes, 0, "RIFF") || !named(bytes, 8, "WAVE"))
        return refuse(WavTrouble::not_wav);
    const Bytes format = chunk(bytes, "fmt ");
    if (format.size() < 16)
        return refuse(WavTrouble::cut_short);
    unsigned kind = number(format, 0, 2);
    const unsigned channels = number(format, 2, 2);
    const double rate_hz = number(format, 4, 4);
    const unsigned bits = number(format, 14, 2);
    if (kind == extensible && format.size() >= 26)
        kind = number(format, 24, 2);
    if (!(kind == pcm && (bits == 16 || bits == 24)) && !(kind == ieee_float && bits == 32))
        return refuse(WavTrouble::not_samples, bits);
    if (channels != 1 && channels != 2)
        return refuse(WavTrouble::channels, channels);
    if (rate_hz < lowest_rate_hz || rate_hz > highest_rate_hz)
        return refuse(WavTrouble::rate, rate_hz);
    const Bytes data = chunk(bytes, "data");
    const std::size_t size = bits / 8;
    const std::size_t count = data.size() / (size * channels);
    if (count == 0)
        return refuse(WavTrouble::empty);
    if (static_cast<double>(count) > longest_clip_s * rate_hz)
        return refuse(WavTrouble::too_long, static_cast<double>(count) / rate_hz);
    read.rate_hz = rate_hz;
    read.samples.resize(count);
    for (std::size_t i = 0; i < count; ++i) {
        float sum = 0.0F;
        for (std::size_t channel = 0; channel < channels; ++channel)
            sum += sample_at(data, (i * channels + channel) * size, bits, kind == ieee_float);
        read.samples[i] = sum / static_cast<float>(channels);
    }
    return read;
}

} // namespace counterpull
