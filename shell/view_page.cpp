// The page itself: its name, sharing, and what a reader chooses for this device.
#include "shell/views.h"
#include "shell/widgets.h"

#include <vector>

namespace counterpull {

namespace {

// One of an enumeration, by the keys of its names.
template <class Choice>
void choose(const Desk& desk, const char* id, const char* label, const std::vector<const char*>& keys,
            Choice& chosen) {
    std::vector<std::string> names;
    for (const char* key : keys)
        names.push_back(desk.say(key));
    if (const auto index = choice(desk, id, desk.say(label), names[static_cast<std::size_t>(chosen)], names))
        chosen = static_cast<Choice>(*index);
}

} // namespace

void draw_masthead(const Desk& desk) {
    paragraph(desk, "Counterpull", desk.theme.fonts.answer, desk.theme.colours.ink);
    faint(desk, desk.say("ui.promise"));
    space(4.0f);
}

void draw_page(const Desk& desk) {
    if (!section(desk, "section.page", desk.say("ui.page"), desk.say("ui.page_note")))
        return;
    Preferences& chosen = desk.view.preferences;
    choose(desk, "page.paper", "ui.paper", {"ui.paper_system", "ui.paper_light", "ui.paper_dark"},
           chosen.paper);
    choose(desk, "page.length", "ui.lengths", {"ui.in_mm", "ui.in_inches"}, chosen.units.length);
    choose(desk, "page.force", "ui.forces", {"ui.in_newtons", "ui.in_lbf", "ui.in_kgf"}, chosen.units.force);
}

} // namespace counterpull
