#include "engine/words.h"

#include "engine/embedded.h"
#include "engine/format.h"
#include "engine/json_text.h"

#include <cmath>

namespace counterpull {

namespace {

std::map<std::string, std::string, std::less<>> texts_of(std::string_view language) {
    std::map<std::string, std::string, std::less<>> texts;
    const auto document = Json::parse(embedded_words(language), nullptr, false);
    for (const auto& [key, value] : document.items())
        if (const auto* text = value.get_ptr<const std::string*>())
            texts.emplace(key, *text);
    return texts;
}

} // namespace

Words::Words(std::string_view language) : texts_(texts_of(language)) {}

std::string_view Words::text(std::string_view key) const {
    const auto found = texts_.find(key);
    return found == texts_.end() ? key : std::string_view(found->second);
}

std::string Words::say(const Phrase& phrase) const {
    std::string sentence(text(phrase.key));
    for (const Phrase::Value& value : phrase.values) {
        const std::string place = "{" + value.name + "}";
        const std::string said = value.amount ? say(*value.amount) : value.text;
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

const Words& english() {
    static const Words words("en");
    return words;
}

} // namespace counterpull
