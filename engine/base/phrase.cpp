#include "engine/base/phrase.h"

#include <utility>

namespace counterpull {

Amount number(double value, int digits) {
    return {value, digits};
}
Amount signed_number(double value, int digits) {
    return {value, digits, Measure::number, true};
}
Amount millimetres(double mm, int digits) {
    return {mm, digits, Measure::length};
}
Amount signed_millimetres(double mm, int digits) {
    return {mm, digits, Measure::length, true};
}
Amount newtons(double value, int digits) {
    return {value, digits, Measure::force};
}
Amount signed_newtons(double value, int digits) {
    return {value, digits, Measure::force, true};
}

Amount document_value(double value, std::string_view key, int digits) {
    const Measure of = key.ends_with("_n_mm") ? Measure::rate
                       : key.ends_with("_mm") ? Measure::length
                       : key.ends_with("_n")  ? Measure::force
                                              : Measure::number;
    return {value, digits, of, false, true};
}

Amount document_mm(double value) {
    return {value, shortest_digits, Measure::length, false, true};
}

Parts notes_of(const std::vector<Pitch>& tuning) {
    Parts parts;
    for (const Pitch& pitch : tuning) {
        if (!parts.empty())
            parts.emplace_back(" ");
        parts.emplace_back(pitch);
    }
    return parts;
}

Phrase::Phrase(std::string_view phrase_key) : key(phrase_key) {}
Phrase::Phrase(const char* phrase_key) : key(phrase_key) {}

Part::Part(std::string_view text) : AnyPart(std::string(text)) {}
Part::Part(const std::string& text) : AnyPart(text) {}
Part::Part(const char* text) : AnyPart(std::string(text)) {}
Part::Part(Amount amount) : AnyPart(amount) {}
Part::Part(Pitch pitch) : AnyPart(pitch) {}
Part::Part(PresetName name) : AnyPart(std::move(name)) {}
Part::Part(const Word& word) : AnyPart(word) {}
Part::Part(Turns turns) : AnyPart(turns) {}
Part::Part(TurnsRange range) : AnyPart(range) {}
Part::Part(List list) : AnyPart(std::move(list)) {}
Part::Part(Phrase phrase) : AnyPart(std::move(phrase)) {}

List::List() = default;
List::List(const List&) = default;
List::List(List&&) noexcept = default;
List& List::operator=(const List&) = default;
List& List::operator=(List&&) noexcept = default;
List::~List() = default;

Phrase::Phrase(const Phrase&) = default;
Phrase::Phrase(Phrase&&) noexcept = default;
Phrase& Phrase::operator=(const Phrase&) = default;
Phrase& Phrase::operator=(Phrase&&) noexcept = default;
Phrase::~Phrase() = default;

bool List::operator==(const List& other) const {
    return things == other.things;
}
bool Phrase::operator==(const Phrase& other) const {
    return key == other.key && values == other.values;
}

Phrase&& Phrase::with(std::string_view name, Parts parts) && {
    values.push_back({std::string(name), std::move(parts)});
    return std::move(*this);
}

Phrase&& Phrase::with(std::string_view name, Part part) && {
    return std::move(*this).with(name, Parts{std::move(part)});
}

} // namespace counterpull
