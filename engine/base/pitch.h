// Pitch names and equal temperament.
//
// Names are scientific pitch names: a letter A to G, an accidental (#, b, ## or bb), the octave; middle C
// is C4, and the octave number changes at C. Spelling is kept ("Bb2" stays "Bb2"). Frequencies follow from
// A4 = 440 Hz (ISO 16) or another a4, twelve equal semitones of 100 cents to the octave.
#pragma once

#include <optional>
#include <string>
#include <string_view>

namespace counterpull {

struct Pitch {
    char letter = 'A';  // 'A' to 'G'
    int accidental = 0; // semitones: −2 to +2
    int octave = 4;
    bool operator==(const Pitch&) const = default;
};

inline constexpr int lowest_key = 23;   // B0
inline constexpr int highest_key = 108; // C8
inline constexpr int a4_key = 69;

// The pitch of a name such as "E2", "Bb1" or "F#3"; nothing where the text is no such name or the pitch
// lies outside B0 to C8.
std::optional<Pitch> parse_pitch(std::string_view name);

// The name as it was spelled.
std::string name_of(const Pitch& pitch);

// Key number on the equal-tempered keyboard, A4 = 69, one per semitone.
int key_number(const Pitch& pitch);

// The usual name of a key, sharps and flats as players mostly write them (C#, Eb, F#, G#, Bb).
Pitch pitch_of_key(int key);

// As a clip-on tuner names what sounds: the nearest note, and how many cents it is above that.
struct ShownNote {
    Pitch note;
    double cents = 0.0;
};
// Of a string that sounds `cents` above a pitch.
ShownNote shown_note(const Pitch& pitch, double cents);

// Frequency in Hz; `a4_hz` is the frequency of A4, `offset_cents` is added to the pitch (+ sharp).
double frequency_hz(const Pitch& pitch, double a4_hz = 440.0, double offset_cents = 0.0);

// 1200 log2(to/from): how far `to_hz` lies above `from_hz`, in cents. Both must be above zero.
double cents_between(double from_hz, double to_hz);

} // namespace counterpull
