#include "engine/base/pitch.h"

#include <array>
#include <cmath>

namespace counterpull {

namespace {

int semitones_above_c(char letter) {
    switch (letter) {
    case 'C':
        return 0;
    case 'D':
        return 2;
    case 'E':
        return 4;
    case 'F':
        return 5;
    case 'G':
        return 7;
    case 'A':
        return 9;
    default:
        return 11; // B
    }
}

} // namespace

std::optional<Pitch> parse_pitch(std::string_view name) {
    if (name.size() < 2 || name[0] < 'A' || name[0] > 'G')
        return std::nullopt;
    Pitch pitch{name[0], 0, 0};
    std::string_view rest = name.substr(1);
    const char sign = rest[0];
    if (sign == '#' || sign == 'b') {
        const int step = sign == '#' ? 1 : -1;
        while (!rest.empty() && rest[0] == sign && std::abs(pitch.accidental) < 2) {
            pitch.accidental += step;
            rest.remove_prefix(1);
        }
    }
    if (rest.size() != 1 || rest[0] < '0' || rest[0] > '9')
        return std::nullopt;
    pitch.octave = rest[0] - '0';
    const int key = key_number(pitch);
    if (key < lowest_key || key > highest_key)
        return std::nullopt;
    return pitch;
}

std::string name_of(const Pitch& pitch) {
    std::string name(1, pitch.letter);
    name.append(static_cast<std::size_t>(std::abs(pitch.accidental)), pitch.accidental > 0 ? '#' : 'b');
    return name + std::to_string(pitch.octave);
}

int key_number(const Pitch& pitch) {
    return 12 * (pitch.octave + 1) + semitones_above_c(pitch.letter) + pitch.accidental;
}

Pitch pitch_of_key(int key) {
    static constexpr std::array<Pitch, 12> octave = {{{'C', 0, 0},
                                                      {'C', 1, 0},
                                                      {'D', 0, 0},
                                                      {'E', -1, 0},
                                                      {'E', 0, 0},
                                                      {'F', 0, 0},
                                                      {'F', 1, 0},
                                                      {'G', 0, 0},
                                                      {'G', 1, 0},
                                                      {'A', 0, 0},
                                                      {'B', -1, 0},
                                                      {'B', 0, 0}}};
    const int in_octave = (key % 12 + 12) % 12; // a string nearly slack sounds below the first key
    Pitch pitch = octave[static_cast<std::size_t>(in_octave)];
    pitch.octave = (key - in_octave) / 12 - 1;
    return pitch;
}

ShownNote shown_note(const Pitch& pitch, double cents) {
    const int semitones = static_cast<int>(std::lround(cents / 100.0));
    if (semitones == 0)
        return {pitch, cents}; // by the name it is wanted under
    return {pitch_of_key(key_number(pitch) + semitones), cents - 100.0 * semitones};
}

double frequency_hz(const Pitch& pitch, double a4_hz, double offset_cents) {
    const double cents = 100.0 * (key_number(pitch) - a4_key) + offset_cents;
    return a4_hz * std::exp2(cents / 1200.0);
}

double cents_between(double from_hz, double to_hz) {
    return 1200.0 * std::log2(to_hz / from_hz);
}

} // namespace counterpull
