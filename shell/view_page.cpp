// The page itself: its name, sharing, and what a reader chooses for this device.
#include "engine/base/embedded.h"
#include "shell/views.h"
#include "shell/widgets.h"

#include <vector>

namespace counterpull {

namespace {

// One of an enumeration, by the keys of its names.
template <class Choice>
void choose(const Desk& desk, const char* id, const char* label, std::initializer_list<const char*> keys,
            Choice& chosen) {
    const Lines& names = desk.texts(id, keys);
    if (const auto index = choice(desk, id, desk.say(label), names[static_cast<std::size_t>(chosen)], names))
        chosen = static_cast<Choice>(*index);
}

// Each language called as it calls itself, so that it is found by those who speak no other.
void choose_language(const Desk& desk, std::string& chosen) {
    const Lines& names = desk.kept("page.language", [&] {
        Lines all = {std::string(desk.say("ui.language_of_device"))};
        for (const Language& language : languages())
            all.emplace_back(language.name);
        return all;
    });
    std::string_view current = names.front();
    for (const Language& language : languages())
        if (language.code == chosen)
            current = language.name;
    if (const auto index = choice(desk, "page.language", desk.say("ui.language"), current, names))
        chosen = *index == 0 ? "" : languages()[*index - 1].code;
}

} // namespace

void draw_masthead(const Desk& desk) {
    paragraph(desk, "Counterpull", desk.narrow ? desk.theme.fonts.strong : desk.theme.fonts.answer,
              desk.theme.colours.ink);
    faint(desk, desk.say("ui.promise"));
}

void draw_page(const Desk& desk) {
    Preferences& chosen = desk.view.preferences;
    choose(desk, "page.paper", "ui.paper", {"ui.paper_system", "ui.paper_light", "ui.paper_dark"},
           chosen.paper);
    choose(desk, "page.length", "ui.lengths", {"ui.in_mm", "ui.in_inches"}, chosen.units.length);
    choose(desk, "page.force", "ui.forces", {"ui.in_newtons", "ui.in_lbf", "ui.in_kgf"}, chosen.units.force);
    choose_language(desk, chosen.language);
    if (!desk.words.has_own_note_names())
        return;
    bool own = chosen.note_names == NoteNames::of_the_language;
    if (toggle(desk, "page.notes", desk.say("ui.own_note_names"), own))
        chosen.note_names = own ? NoteNames::of_the_language : NoteNames::international;
}

} // namespace counterpull
