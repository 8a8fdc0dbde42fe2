// What the engine says to people, apart from the language and the units that it is said in.
//
// A Phrase is a key and the values that go into it; a language file (engine/words/en.json) holds the sentence
// for every key, with {name} where a value goes. The engine answers with phrases, and whoever shows them
// (report, command line, screen) puts them into words (words.h). A value is made of texts, amounts,
// pitches, turns, names, other phrases and lists of them: lengths and forces are put into the reader's units,
// numbers get the language's decimal sign and notes their names only then.
#pragma once

#include "engine/base/pitch.h"
#include "engine/base/units.h"

#include <concepts>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

namespace counterpull {

// A number for people.
struct Amount {
    double value = 0.0; // in the document's unit: mm, N, N/mm
    int digits = 0;     // after the point in that unit; `shortest_digits`: as many as it needs
    Measure of = Measure::number;
    bool sign = false; // "+" is said too
    bool bare = false; // the document's own unit goes without saying
    bool trim = false; // no zeros at the end
    bool operator==(const Amount&) const = default;
};
inline constexpr int shortest_digits = -1;

Amount number(double value, int digits);
Amount signed_number(double value, int digits);
Amount millimetres(double mm, int digits);
Amount signed_millimetres(double mm, int digits);
Amount newtons(double value, int digits);
Amount signed_newtons(double value, int digits);
// A value of the set-up document, as it stands there: its unit is its key's suffix.
Amount document_value(double value, std::string_view key, int digits = shortest_digits);
Amount document_mm(double value);

// The name of a preset (presets.h), which has it in English.
struct PresetName {
    std::string english;
    bool operator==(const PresetName&) const = default;
};

// A word that is a key of its own.
struct Word {
    std::string_view key;
    bool operator==(const Word&) const = default;
};

// A number of turns of the screws, to the eighth that a screwdriver makes, without its way: "2¼ turns".
struct Turns {
    double turns = 0.0;
    bool operator==(const Turns&) const = default;
};

// Where turns lie about nine times in ten, said after them: " (2 to 2½)"; ", give or take ⅜" where it may be
// either way; nothing where that says no more. `reach` is how far either way.
struct TurnsRange {
    double turns = 0.0;
    double reach = 0.0;
    bool operator==(const TurnsRange&) const = default;
};

// What goes into a place of a phrase, said one after the other. Phrases hold parts, which may be phrases or
// lists: those two are copied and ended in the source, where all of them are known.
struct Part;
using Parts = std::vector<Part>;

// Things named together, as the language joins them: "1, 3, 5".
struct List {
    std::vector<Parts> things;
    List();
    List(const List&);
    List(List&&) noexcept;
    List& operator=(const List&);
    List& operator=(List&&) noexcept;
    ~List();
    bool operator==(const List&) const;
};

class Phrase {
  public:
    Phrase(std::string_view phrase_key);
    Phrase(const char* phrase_key);
    Phrase(const Phrase&);
    Phrase(Phrase&&) noexcept;
    Phrase& operator=(const Phrase&);
    Phrase& operator=(Phrase&&) noexcept;
    ~Phrase();

    // Adds a value: Phrase("answer.where").with("hooks", hooks).with("count", 3).
    Phrase&& with(std::string_view name, Parts parts) &&;
    Phrase&& with(std::string_view name, Part part) &&;

    struct Value;
    std::string key;
    std::vector<Value> values;
    bool operator==(const Phrase&) const;
};

using AnyPart = std::variant<std::string, Amount, Pitch, PresetName, Word, Turns, TurnsRange, List, Phrase>;
struct Part : AnyPart {
    Part(std::string_view text);
    Part(const std::string& text);
    Part(const char* text);
    Part(std::integral auto count) : Part(Amount{static_cast<double>(count)}) {}
    Part(Amount amount);
    Part(Pitch pitch);
    Part(PresetName name);
    Part(const Word& word);
    Part(Turns turns);
    Part(TurnsRange range);
    Part(List list);
    Part(Phrase phrase);
};

struct Phrase::Value {
    std::string name;
    Parts parts;
    bool operator==(const Value&) const = default;
};

Parts notes_of(const std::vector<Pitch>& tuning); // "E2 A2 D3"

} // namespace counterpull
