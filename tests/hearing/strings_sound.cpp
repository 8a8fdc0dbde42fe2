// Makes the sound of a set-up's strings, for the browser tests to play into the page's microphone:
//   strings_sound SETUP.json now|next CENTS,… OUT.wav [SECONDS]
// A strum after a third of a second, string by string from the lowest; "-" for one that is not struck.
// Through a phone's microphone, with noise 40 dB below.
#include "engine/base/pitch.h"
#include "engine/document/document.h"
#include "engine/say/listen_for.h"
#include "tests/hearing/sounds.h"
#include "tests/hearing/wav_bytes.h"

#include <algorithm>
#include <cstdlib>
#include <fstream>
#include <iostream>
#include <sstream>

using namespace counterpull;
using namespace counterpull::test;

namespace {

constexpr unsigned rate = 48000;
constexpr double struck_s = 0.35, apart_s = 0.015, loudest = 0.5;

std::string whole(const char* path) {
    std::ifstream file(path, std::ios::binary);
    std::stringstream text;
    text << file.rdbuf();
    return text.str();
}

// 16 bit, which every browser plays.
std::string as_wav(const Sound& sound) {
    std::string data;
    for (const float sample : sound)
        data += little_endian(
            static_cast<std::uint32_t>(static_cast<std::int32_t>(32767.0F * sample)) & 0xFFFFU, 2);
    return wav_bytes(1, 1, rate, 16, data, "");
}

} // namespace

int main(int count, char** words) {
    if (count < 5)
        return 2;
    const SetupRead read = read_setup(whole(words[1]));
    if (!read.setup)
        return 1;
    Problems problems;
    const std::vector<StringTarget> strings =
        targets_of(*read.setup, words[2] == std::string("now") ? Which::now : Which::next, {}, problems);
    const double seconds = count > 5 ? std::strtod(words[5], nullptr) : 3.0;
    Sound sound(static_cast<std::size_t>(seconds * rate));
    Dice dice(7);
    std::istringstream list(words[3]);
    std::string cents;
    for (std::size_t i = 0; i < strings.size() && std::getline(list, cents, ','); ++i) {
        if (cents == "-")
            continue;
        Pluck pluck = any_pluck(
            {raised_hz(strings[i].hz, std::strtod(cents.c_str(), nullptr)), strings[i].inharmonicity}, dice);
        pluck.glide_cents = 0.0;
        pluck.at_s = struck_s + apart_s * static_cast<double>(i);
        add_pluck(sound, rate, pluck, dice);
    }
    through_phone(sound, rate);
    add_noise(sound, rate, 40.0, struck_s, dice);
    float most = 1e-9F;
    for (const float sample : sound)
        most = std::max(most, std::abs(sample));
    for (float& sample : sound)
        sample *= static_cast<float>(loudest) / most;
    std::ofstream(words[4], std::ios::binary) << as_wav(sound);
    return problems.none() ? 0 : 1;
}
