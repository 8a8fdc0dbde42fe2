#include "engine/words.h"

#include "engine/embedded.h"

#include <nlohmann/json.hpp>

namespace counterpull {

namespace {

std::map<std::string, std::string, std::less<>> texts_of(std::string_view language) {
    std::map<std::string, std::string, std::less<>> texts;
    const auto document = nlohmann::json::parse(embedded_words(language), nullptr, false);
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
    return say(phrase.key, phrase.values);
}

std::string Words::say(std::string_view key,
                       const std::vector<std::pair<std::string, std::string>>& values) const {
    std::string sentence(text(key));
    for (const auto& [name, value] : values) {
        const std::string place = "{" + name + "}";
        for (std::size_t at = sentence.find(place); at != std::string::npos;
             at = sentence.find(place, at + value.size()))
            sentence.replace(at, place.size(), value);
    }
    return sentence;
}

const Words& english() {
    static const Words words("en");
    return words;
}

} // namespace counterpull
