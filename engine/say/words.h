// Phrases (phrase.h) put into a language's words and a reader's units. One file per language,
// engine/words/<language>.json, holds all text there is.
#pragma once

#include "engine/base/phrase.h"

#include <map>
#include <string>
#include <string_view>

namespace counterpull {

// How notes are called: as in set-up documents (B, Bb, C#), or as the language has it (German H, B, Cis).
// Octaves are numbered the same in both.
enum class NoteNames { international, of_the_language };

class Words {
  public:
    // `language` such as "en". A language that is not part of the program (embedded.h) answers in English.
    explicit Words(std::string_view language);
    // From the text of a language file that is no part of the program; English where it is none.
    Words(std::string_view language, std::string_view file);

    // Of the file that the words are from.
    const std::string& language() const { return language_; }

    // The units that amounts are said in; the document's own unless set.
    void set_units(Units units) { units_ = units; }
    Units units() const { return units_; }
    void set_note_names(NoteNames names) { note_names_ = names; }
    // Whether the language calls a note otherwise than a set-up document does.
    bool has_own_note_names() const;

    // The text of a key; the key itself where there is none, so that a gap is seen (a test finds it too).
    std::string_view text(std::string_view key) const;
    // The text with its values filled in, each where its {name} stands. A place that counts has the forms of
    // what is said there (plurals.h), with # for the value itself: "{count|one a spring|=2 two springs|other
    // # springs}".
    std::string say(const Phrase& phrase) const;
    // The amount with its unit: "+0.8 mm", "108 lbf", "12".
    std::string say(const Amount& amount) const;
    std::string say(const Pitch& pitch) const;
    std::string say(const PresetName& name) const;
    std::string say(const Turns& turns) const;
    std::string say(const TurnsRange& range) const;
    std::string say(const List& list) const;
    std::string say(const Parts& parts) const;
    const std::string& say(const std::string& as_it_is) const { return as_it_is; }
    std::string_view say(const Word& word) const { return text(word.key); }
    // The amount without its unit, for a field that shows it elsewhere.
    std::string number_of(const Amount& amount) const;

    // The pitch of a name as it was said, or as in a set-up document; nothing where it is neither.
    std::optional<Pitch> read_pitch(std::string_view name) const;

    const std::map<std::string, std::string, std::less<>>& all() const { return texts_; }

  private:
    std::string said_in(std::string_view forms, const Parts& parts) const;

    std::string language_;
    std::map<std::string, std::string, std::less<>> texts_;
    Units units_;
    NoteNames note_names_ = NoteNames::international;
};

// The text of a key, found in a language's file itself, which takes no memory: for a text without quotes or
// line breaks, of which it is the only key so called. "" where there is none.
std::string_view text_in_file(std::string_view file, std::string_view key);

// The English words in the document's units, read once.
const Words& english();

} // namespace counterpull
