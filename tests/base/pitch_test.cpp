#include "engine/base/pitch.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>

using namespace counterpull;

TEST_CASE("A4 is 440 Hz unless another a4 is given") {
    CHECK(frequency_hz(*parse_pitch("A4")) == Approx(440.0)); // ISO 16
    CHECK(frequency_hz(*parse_pitch("A4"), 432.0) == Approx(432.0));
    CHECK(frequency_hz(*parse_pitch("A2"), 442.0) == Approx(110.5));
}

TEST_CASE("the open strings of E standard sound as every tuner says") {
    // Common practice, to the hundredth of a hertz.
    CHECK(frequency_hz(*parse_pitch("E2")) == Approx(82.41).epsilon(1e-4));
    CHECK(frequency_hz(*parse_pitch("G3")) == Approx(196.00).epsilon(1e-4));
    CHECK(frequency_hz(*parse_pitch("E4")) == Approx(329.63).epsilon(1e-4));
}

TEST_CASE("sharps and flats name the same key, and spelling is kept") {
    CHECK(key_number(*parse_pitch("A#2")) == key_number(*parse_pitch("Bb2")));
    CHECK(key_number(*parse_pitch("Cb4")) == key_number(*parse_pitch("B3")));
    CHECK(key_number(*parse_pitch("B#3")) == key_number(*parse_pitch("C4")));
    CHECK(key_number(*parse_pitch("F##2")) == key_number(*parse_pitch("G2")));
    for (const char* name : {"Bb2", "A#2", "Ebb3", "F##2", "B0", "C8"})
        CHECK(name_of(*parse_pitch(name)) == name);
}

TEST_CASE("what is no pitch from B0 to C8 is not taken for one") {
    for (const char* text : {"", "H2", "e2", "E", "E22", "E-1", "Eb", "Bb#2", "E###2", "Bb0", "A0", "C#8",
                             "E2 ", " E2", "2E", "E♭2"})
        CHECK_FALSE(parse_pitch(text));
}

TEST_CASE("a tuner names the nearest note, and the cents to that") {
    // Common practice: a clip-on tuner knows nothing of what is wanted.
    const auto shown = [](const char* wanted, double cents) {
        const ShownNote note = shown_note(*parse_pitch(wanted), cents);
        return name_of(note.note) + " " + std::to_string(std::lround(note.cents));
    };
    CHECK(shown("C2", 101) == "C#2 1");
    CHECK(shown("D2", 188) == "E2 -12");
    CHECK(shown("Bb2", 49) == "Bb2 49"); // by the name it is wanted under
    CHECK(shown("A#2", -20) == "A#2 -20");
    CHECK(shown("C2", -60) == "B1 40");
    CHECK(shown("C2", -3600) == "C-1 0"); // nearly slack
    CHECK(shown("C2", -3700) == "B-2 0");
}

TEST_CASE("a hundred cents are a semitone and 1200 an octave") {
    const Pitch e2 = *parse_pitch("E2");
    CHECK(frequency_hz(e2, 440, 100) == Approx(frequency_hz(*parse_pitch("F2"))));
    CHECK(cents_between(110, 220) == Approx(1200));
    CHECK(cents_between(frequency_hz(e2), frequency_hz(e2, 440, -13.7)) == Approx(-13.7));
}

TEST_CASE("every key has a name that is that key") {
    for (int key = lowest_key; key <= highest_key; ++key)
        CHECK(key_number(pitch_of_key(key)) == key);
}
