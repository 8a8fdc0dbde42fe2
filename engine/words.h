// Phrases (phrase.h) put into a language's words and a reader's units. One file per language,
// engine/words/<language>.json, holds all text there is.
#pragma once

#include "engine/phrase.h"

#include <map>
#include <string>
#include <string_view>

namespace counterpull {

class Words {
  public:
    // `language` such as "en". A language without a file answers with the English words.
    explicit Words(std::string_view language);

    // The units that amounts are said in; the document's own unless set.
    void set_units(Units units) { units_ = units; }
    Units units() const { return units_; }

    // The text of a key; the key itself where there is none, so that a gap is seen (a test finds it too).
    std::string_view text(std::string_view key) const;
    // The text with its values filled in.
    std::string say(const Phrase& phrase) const;
    // The amount with its unit: "+0.8 mm", "108 lbf", "12".
    std::string say(const Amount& amount) const;
    // The same without the unit, for a field that shows it elsewhere.
    std::string number_of(const Amount& amount) const;

    const std::map<std::string, std::string, std::less<>>& all() const { return texts_; }

  private:
    std::map<std::string, std::string, std::less<>> texts_;
    Units units_;
};

// The English words in the document's units, read once.
const Words& english();

} // namespace counterpull
