#include "shell/preferences.h"

#include "engine/base/embedded.h"
#include "engine/document/document_reader.h"

#include <array>

namespace counterpull {

namespace {

constexpr std::array papers = {"system", "light", "dark"};
constexpr std::array lengths = {"mm", "inch"};
constexpr std::array forces = {"newton", "lbf", "kgf"};
constexpr std::array notes = {"international", "own"};

// "" where there is none.
std::string text_at(const Json& chosen, std::string_view key) {
    const Json* found = value_at(chosen, key);
    return found && found->is_string() ? found->get_ref<const std::string&>() : "";
}

template <class Choice, std::size_t N>
void read(const Json& chosen, const char* key, const std::array<const char*, N>& names, Choice& into) {
    const std::string name = text_at(chosen, key);
    for (std::size_t i = 0; i < N; ++i)
        if (name == names[i])
            into = static_cast<Choice>(i);
}

} // namespace

std::string text_of(const Preferences& preferences) {
    return object_of({{"paper", papers[static_cast<std::size_t>(preferences.paper)]},
                      {"length", lengths[static_cast<std::size_t>(preferences.units.length)]},
                      {"force", forces[static_cast<std::size_t>(preferences.units.force)]},
                      {"language", preferences.language},
                      {"notes", notes[static_cast<std::size_t>(preferences.note_names)]}})
        .dump();
}

Preferences preferences_of(std::string_view text) {
    Preferences preferences;
    const Json chosen = parse_json(text);
    if (!chosen.is_object())
        return preferences;
    read(chosen, "paper", papers, preferences.paper);
    read(chosen, "length", lengths, preferences.units.length);
    read(chosen, "force", forces, preferences.units.force);
    read(chosen, "notes", notes, preferences.note_names);
    const std::string language = text_at(chosen, "language");
    for (const Language& known : languages())
        if (language == known.code)
            preferences.language = known.code;
    return preferences;
}

} // namespace counterpull
