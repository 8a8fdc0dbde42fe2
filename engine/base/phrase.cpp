#include "engine/base/phrase.h"

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

bool List::operator==(const List&) const = default;
bool Phrase::operator==(const Phrase&) const = default;

Phrase&& Phrase::with(std::string_view name, Parts parts) && {
    values.push_back({std::string(name), std::move(parts)});
    return std::move(*this);
}

Phrase&& Phrase::with(std::string_view name, Part part) && {
    return std::move(*this).with(name, Parts{std::move(part)});
}

} // namespace counterpull
