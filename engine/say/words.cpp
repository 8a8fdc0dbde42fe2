#include "engine/say/words.h"

#include "engine/base/embedded.h"
#include "engine/base/format.h"
#include "engine/document/json_text.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

std::map<std::string, std::string, std::less<>> texts_of(std::string_view file) {
    std::map<std::string, std::string, std::less<>> texts;
    const auto document = parse_json(file);
    for (const auto& [key, value] : document.items())
        if (const auto* text = value.get_ptr<const std::string*>())
            texts.emplace(key, *text);
    return texts;
}

// The names of a letter with its accidentals, flattest first, C to B, stand in one text.
constexpr std::string_view letters = "CDEFGAB";
constexpr std::size_t accidentals = 5;
constexpr std::size_t note_names = letters.size() * accidentals;

std::string_view word_of(std::string_view text, std::size_t index) {
    for (std::size_t i = 0; i < index; ++i)
        text.remove_prefix(std::min(text.find(' '), text.size() - 1) + 1);
    return text.substr(0, text.find(' '));
}

} // namespace

Words::Words(std::string_view language, std::string_view file) : language_(language), texts_(texts_of(file)) {
    if (texts_.empty())
        *this = Words("en");
}

Words::Words(std::string_view language)
    : Words(embedded_words(language).empty() ? "en" : language,
            embedded_words(embedded_words(language).empty() ? "en" : language)) {}

bool Words::has_own_note_names() const {
    return text("language.notes") != english().text("language.notes");
}

std::string_view Words::text(std::string_view key) const {
    const auto found = texts_.find(key);
    return found == texts_.end() ? key : std::string_view(found->second);
}

std::string Words::say(const Phrase& phrase) const {
    std::string sentence(text(phrase.key));
    for (const Phrase::Value& value : phrase.values) {
        const std::string place = "{" + value.name + "}";
        const std::string said = say(value.parts);
        for (std::size_t at = sentence.find(place); at != std::string::npos;
             at = sentence.find(place, at + said.size()))
            sentence.replace(at, place.size(), said);
    }
    return sentence;
}

std::string Words::number_of(const Amount& amount) const {
    const double shown = from_document(amount.value, amount.of, units_);
    const int digits = amount.digits + more_digits(amount.of, units_);
    const double size = std::abs(shown);
    std::string number = amount.digits == shortest_digits ? shortest(size)
                         : amount.trim                    ? trimmed(size, digits)
                                                          : fixed(size, digits);
    if (number.find_first_not_of("0.") != std::string::npos) // nothing has no sign
        number.insert(0, shown < 0.0 ? (amount.bare ? "-" : "−") : amount.sign ? "+" : "");
    if (const std::string_view mark = text("language.decimal"); mark != ".")
        if (const std::size_t point = number.find('.'); point != std::string::npos)
            number.replace(point, 1, mark);
    return number;
}

std::string Words::say(const Amount& amount) const {
    const char* unit = unit_name(amount.of, units_);
    if (!*unit || (amount.bare && std::string_view(unit) == unit_name(amount.of, Units{})))
        return number_of(amount);
    return number_of(amount) + " " + unit;
}

std::string Words::say(const Pitch& pitch) const {
    if (note_names_ == NoteNames::international)
        return name_of(pitch);
    const auto index =
        letters.find(pitch.letter) * accidentals + static_cast<std::size_t>(pitch.accidental + 2);
    return std::string(word_of(text("language.notes"), index)) + std::to_string(pitch.octave);
}

std::string Words::say(const Turns& turns) const {
    // "1⅛ turns", but "1 turn" and "⅞ turn".
    const bool one = std::abs(turns.turns) < 1.0 + least_turn;
    return say(Phrase(one ? "unit.turn" : "unit.turns").with("n", turns_in_eighths(turns.turns)));
}

std::string Words::say(const TurnsRange& range) const {
    const double low = std::abs(range.turns) - range.reach, high = std::abs(range.turns) + range.reach;
    if (low < least_turn)
        return range.reach < least_turn
                   ? ""
                   : say(Phrase("unit.give_or_take").with("n", turns_in_eighths(range.reach)));
    if (turns_in_eighths(low) == turns_in_eighths(high))
        return "";
    return say(Phrase("unit.range").with("low", turns_in_eighths(low)).with("high", turns_in_eighths(high)));
}

std::string Words::say(const List& list) const {
    std::string said;
    for (const Parts& thing : list.things)
        said += (said.empty() ? "" : ", ") + say(thing);
    return said;
}

std::string Words::say(const Parts& parts) const {
    std::string said;
    for (const Part& part : parts)
        said += std::visit([this](const auto& value) { return std::string(say(value)); },
                           static_cast<const AnyPart&>(part));
    return said;
}

std::string Words::say(const PresetName& name) const {
    const auto found = texts_.find("name." + name.english);
    return found == texts_.end() ? name.english : found->second;
}

std::optional<Pitch> Words::read_pitch(std::string_view name) const {
    if (note_names_ == NoteNames::international)
        return parse_pitch(name);
    const std::string_view typed = name.substr(0, name.find_first_of("0123456789"));
    auto is_typed = [&](std::string_view known) {
        return std::equal(known.begin(), known.end(), typed.begin(), typed.end(),
                          [](char a, char b) { return (a | 0x20) == (b | 0x20); }); // capitals or not
    };
    for (std::size_t i = 0; i < note_names; ++i)
        if (is_typed(word_of(text("language.notes"), i))) {
            const Pitch pitch{letters[i / accidentals], static_cast<int>(i % accidentals) - 2, 0};
            const std::string standard = name_of(pitch);
            return parse_pitch(standard.substr(0, standard.size() - 1) +
                               std::string(name.substr(typed.size())));
        }
    return parse_pitch(name);
}

const Words& english() {
    static const Words words("en");
    return words;
}

} // namespace counterpull
