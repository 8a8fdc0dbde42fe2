// What a reader chose for this device: no part of any set-up, and never in a link.
#pragma once

#include "engine/say/words.h"

#include <string>
#include <string_view>

namespace counterpull {

enum class Paper { system, light, dark };

struct Preferences {
    Paper paper = Paper::system;
    Units units;
    std::string language{}; // code, "" as the device has it
    NoteNames note_names = NoteNames::international;
    bool operator==(const Preferences&) const = default;
};

// As text to be kept ({"paper": "dark", "length": "inch", "force": "lbf", "language": "de", "notes": "own"}),
// and back. What cannot be read, in part or as a whole, is as it is before anything was chosen.
std::string text_of(const Preferences& preferences);
Preferences preferences_of(std::string_view text);

} // namespace counterpull
