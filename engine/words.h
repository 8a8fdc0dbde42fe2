// What the engine says to people, apart from the language it says it in.
//
// A Phrase is a key and the values that go into it; a language file (engine/words/en.json) holds the
// sentence for every key, with {name} where a value goes. The engine answers with phrases, and whoever shows
// them (report, command line, screen) puts them into words. One file per language holds all text there is.
#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

namespace counterpull {

struct Phrase {
    std::string key;
    std::vector<std::pair<std::string, std::string>> values{};
    bool operator==(const Phrase&) const = default;
};

class Words {
  public:
    // `language` such as "en". A language without a file answers with the English words.
    explicit Words(std::string_view language);

    // The text of a key; the key itself where there is none, so that a gap is seen (a test finds it too).
    std::string_view text(std::string_view key) const;
    // The text with its values filled in.
    std::string say(const Phrase& phrase) const;
    std::string say(std::string_view key,
                    const std::vector<std::pair<std::string, std::string>>& values) const;

    const std::map<std::string, std::string, std::less<>>& all() const { return texts_; }

  private:
    std::map<std::string, std::string, std::less<>> texts_;
};

// The English words, read once.
const Words& english();

} // namespace counterpull
