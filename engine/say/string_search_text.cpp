#include "engine/say/string_search_text.h"

#include "engine/base/format.h"
#include "engine/base/units.h"
#include "engine/document/json_text.h"

#include <algorithm>
#include <array>

namespace counterpull {

namespace {

constexpr std::array feels = {Feel::present, Feel::even, Feel::progressive};

} // namespace

std::string_view name_of(Feel feel) {
    switch (feel) {
    case Feel::present:
        return "present";
    case Feel::even:
        return "even";
    case Feel::progressive:
        break;
    }
    return "progressive";
}

std::optional<Feel> parse_feel(std::string_view name) {
    for (const Feel feel : feels)
        if (name_of(feel) == name)
            return feel;
    return std::nullopt;
}

std::string gauges_in_words(const std::vector<StringSetup>& strings) {
    std::string text;
    for (std::size_t i = strings.size(); i-- > 0;)
        text +=
            (text.empty() ? "" : " ") + gauge_in_words(strings[i].gauge_in) + (strings[i].wound ? "w" : "");
    return text;
}

std::string strings_json(const std::vector<FoundSet>& sets, Feel feel) {
    Json list = Json::array();
    for (const FoundSet& set : sets) {
        Json strings = Json::array(), tension = strings, used = strings;
        for (std::size_t i = 0; i < set.strings.size(); ++i) {
            strings.push_back({{"gauge_in", set.strings[i].gauge_in}, {"wound", set.strings[i].wound}});
            tension.push_back(json_number(set.tension_n[i]));
            used.push_back(json_number(set.strength_used[i]));
        }
        list.push_back({{"strings", std::move(strings)},
                        {"level", set.level},
                        {"tail_mm", json_number(mm_from_metres(set.tail_m))},
                        {"turns", json_number(set.turns)},
                        {"unevenness", json_number(set.unevenness)},
                        {"tension_n", std::move(tension)},
                        {"strength_used", std::move(used)}});
    }
    const Json document = {
        {"format", "counterpull-strings/1"}, {"feel", std::string(name_of(feel))}, {"sets", std::move(list)}};
    return document.dump(1) + "\n";
}

std::string strings_text(const std::vector<FoundSet>& sets, const Words& words) {
    if (sets.empty())
        return std::string(words.text("sets.none")) + "\n";
    std::string text = std::string(words.text("sets.head")) + "\n";
    for (const FoundSet& set : sets) {
        double total = 0.0, most = 0.0;
        for (std::size_t i = 0; i < set.strings.size(); ++i) {
            total += set.tension_n[i];
            most = std::max(most, set.strength_used[i]);
        }
        text += "  " + gauges_in_words(set.strings) + "\n    " +
                words.say(Phrase(set.level ? "sets.level" : "sets.quarter")
                              .with("tail", signed_millimetres(mm_from_metres(set.tail_m), 1))
                              .with("turns", signed_number(set.turns, 2))
                              .with("pull", newtons(total, 0))
                              .with("uneven", number(100.0 * set.unevenness, 0))
                              .with("most", number(100.0 * most, 0))) +
                "\n";
    }
    return text;
}

} // namespace counterpull
