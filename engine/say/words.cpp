#include "engine/say/words.h"

#include "engine/base/embedded.h"
#include "engine/base/format.h"
#include "engine/document/json_text.h"
#include "engine/say/plurals.h"

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
        next_word(text, ' ');
    return next_word(text, ' ');
}

// A name as it may be typed: without capitals, and vowels without their accents (of Latin-1: the second byte
// says which).
std::string plain(std::string_view name) {
    std::string out;
    for (std::size_t i = 0; i < name.size(); ++i) {
        const auto c = static_cast<unsigned char>(name[i]);
        if (c != 0xC3 || i + 1 == name.size()) {
            out += static_cast<char>(c | 0x20);
            continue;
        }
        const int of_latin_1 = (name[++i] & 0x1F) | 0x20; // that of the small letter
        out += of_latin_1 < 0x27   ? 'a'
               : of_latin_1 < 0x2C ? 'e'
               : of_latin_1 < 0x30 ? 'i'
               : of_latin_1 < 0x39 ? 'o'
                                   : 'u';
    }
    return out;
}

// What a sentence counts by: a list by its things, else the number that is said.
std::string counted(const Parts& parts, const std::string& said) {
    const AnyPart* first = parts.empty() ? nullptr : &parts.front();
    const List* list = std::get_if<List>(first);
    return list ? std::to_string(list->things.size()) : said;
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
    std::string sentence;
    std::string_view rest = text(phrase.key);
    for (std::size_t open = rest.find('{'), close; (close = rest.find('}', open)) != std::string_view::npos;
         open = rest.find('{')) {
        std::string_view forms = rest.substr(open + 1, close - open - 1);
        const std::string_view name = next_word(forms, '|');
        const auto value = std::find_if(phrase.values.begin(), phrase.values.end(),
                                        [&](const Phrase::Value& v) { return v.name == name; });
        sentence += rest.substr(0, open);
        if (value == phrase.values.end())
            sentence += rest.substr(open, close + 1 - open);
        else
            sentence += said_in(forms, value->parts);
        rest.remove_prefix(close + 1);
    }
    return sentence += rest;
}

std::string Words::said_in(std::string_view forms, const Parts& parts) const {
    std::string said = say(parts);
    if (forms.empty())
        return said;
    std::string form(form_for(forms, text("language.plurals"), counted(parts, said)));
    if (const std::size_t number = form.find('#'); number != std::string::npos)
        form.replace(number, 1, said);
    return form;
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
    // Of less than one there is a part: "⅞ turn", but "0 turns", "1 turn" and "1⅛ turns".
    const std::string n = turns_in_eighths(turns.turns);
    return say(Phrase(n[0] >= '0' && n[0] <= '9' ? "unit.turns" : "unit.part_of_turn").with("n", n));
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
    for (std::size_t i = 0; i < list.things.size(); ++i) {
        if (i > 0)
            said += text(i + 1 < list.things.size() ? "language.comma" : "language.and");
        said += say(list.things[i]);
    }
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
    for (std::size_t i = 0; i < note_names; ++i)
        if (plain(word_of(text("language.notes"), i)) == plain(typed)) {
            const Pitch pitch{letters[i / accidentals], static_cast<int>(i % accidentals) - 2, 0};
            const std::string standard = name_of(pitch);
            return parse_pitch(standard.substr(0, standard.size() - 1) +
                               std::string(name.substr(typed.size())));
        }
    return parse_pitch(name);
}

std::string_view text_in_file(std::string_view file, std::string_view key) {
    constexpr std::string_view between = "\": \"";
    std::size_t at = file.find(key);
    while (at != std::string_view::npos && file.substr(at + key.size(), between.size()) != between)
        at = file.find(key, at + 1);
    if (at == std::string_view::npos)
        return "";
    const std::string_view text = file.substr(at + key.size() + between.size());
    return text.substr(0, text.find('"'));
}

const Words& english() {
    static const Words words("en");
    return words;
}

} // namespace counterpull
