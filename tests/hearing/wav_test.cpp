#include "engine/hearing/wav.h"
#include "tests/hearing/wav_bytes.h"

#include <catch2/catch.hpp>

using namespace counterpull;
using namespace counterpull::test;

namespace {

WavRead read(const std::string& bytes) {
    return read_wav({reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size()});
}

} // namespace

TEST_CASE("a recording of 16 or 24 bit or float, mono or stereo, is read") {
    // A quarter of full scale, and as much below zero.
    const std::string bits_16 = little_endian(0x2000, 2) + little_endian(0xE000, 2);
    const std::string bits_24 = little_endian(0x200000, 3) + little_endian(0xE00000, 3);
    const std::string floats = little_endian(0x3E800000, 4) + little_endian(0xBE800000, 4);
    for (const auto& [kind, bits, data] :
         {std::tuple{1U, 16U, bits_16}, std::tuple{1U, 24U, bits_24}, std::tuple{3U, 32U, floats}}) {
        INFO(bits);
        const WavRead mono = read(wav_bytes(kind, 1, 44100, bits, data));
        CHECK(mono.trouble == WavTrouble::none);
        CHECK(mono.rate_hz == 44100.0);
        CHECK(mono.samples == std::vector<float>{0.25F, -0.25F});
        const WavRead stereo = read(wav_bytes(kind, 2, 8000, bits, data));
        CHECK(stereo.trouble == WavTrouble::none);
        CHECK(stereo.samples == std::vector<float>{0.0F});
    }
}

// Source: Microsoft, WAVEFORMATEXTENSIBLE (mmreg.h): 0xFFFE, 22 bytes more, the last sixteen the sub-format,
// whose first two are the kind.
TEST_CASE("a recording of the extensible form is read by its sub-format") {
    const std::string bits_16 = little_endian(0x2000, 2), floats = little_endian(0x3E800000, 4);
    const auto extensible = [](unsigned kind, unsigned bits, const std::string& data) {
        const std::string plain = wav_bytes(0xFFFE, 1, 48000, bits, data, "");
        const std::string guid("\x00\x00\x00\x00\x10\x00\x80\x00\x00\xaa\x00\x38\x9b\x71", 14);
        // RIFF, size, WAVE, fmt, its size; the plain form's 16 bytes; what is more; the data.
        return plain.substr(0, 16) + little_endian(40, 4) + plain.substr(20, 16) + little_endian(22, 2) +
               little_endian(bits, 2) + little_endian(4, 4) + little_endian(kind, 2) + guid +
               plain.substr(36);
    };
    for (const WavRead& one : {read(extensible(1, 16, bits_16)), read(extensible(3, 32, floats))}) {
        CHECK(one.trouble == WavTrouble::none);
        CHECK(one.rate_hz == 48000.0);
        CHECK(one.samples == std::vector<float>{0.25F});
    }
    CHECK(read(extensible(85, 16, bits_16)).trouble == WavTrouble::not_samples);
    CHECK(read(wav_bytes(0xFFFE, 1, 48000, 16, bits_16)).trouble == WavTrouble::not_samples); // nothing more
}

TEST_CASE("what is no such recording is refused for what it is") {
    const std::string data(64, '\0');
    CHECK(read("").trouble == WavTrouble::not_wav);
    CHECK(read("ID3 and so on").trouble == WavTrouble::not_wav);
    CHECK(read(wav_bytes(1, 1, 44100, 16, data).substr(0, 20)).trouble == WavTrouble::cut_short);
    CHECK(read(wav_bytes(1, 1, 44100, 8, data)).trouble == WavTrouble::not_samples);
    CHECK(read(wav_bytes(1, 1, 44100, 32, data)).trouble == WavTrouble::not_samples);
    CHECK(read(wav_bytes(3, 1, 44100, 64, data)).trouble == WavTrouble::not_samples);
    CHECK(read(wav_bytes(85, 1, 44100, 16, data)).trouble == WavTrouble::not_samples);
    CHECK(read(wav_bytes(1, 6, 44100, 16, data)).trouble == WavTrouble::channels);
    CHECK(read(wav_bytes(1, 1, 7999, 16, data)).trouble == WavTrouble::rate);
    CHECK(read(wav_bytes(1, 1, 200000, 16, data)).trouble == WavTrouble::rate);
    CHECK(read(wav_bytes(1, 1, 44100, 16, "")).trouble == WavTrouble::empty);
    CHECK(read(wav_bytes(1, 1, 8000, 16, std::string(2 * 8000 * 601, '\0'))).trouble == WavTrouble::too_long);
}

TEST_CASE("a recording that was cut off is read as far as it goes; what is no number in it is silence") {
    const std::string whole = wav_bytes(1, 1, 44100, 16, std::string(200, '\1'));
    CHECK(read(whole.substr(0, whole.size() - 100)).samples.size() == 50);
    const std::string odd = little_endian(0x7FC00000, 4) + little_endian(0x7F800000, 4);
    CHECK(read(wav_bytes(3, 1, 44100, 32, odd)).samples == std::vector<float>{0.0F, 0.0F});
}
