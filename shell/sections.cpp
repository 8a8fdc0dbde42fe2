#include "shell/sections.h"

#include "shell/views.h"
#include "shell/widgets.h"

#include <array>

namespace counterpull {

std::span<const Section> sections() {
    using enum Section::Place;
    using enum Section::OnDesk;
    static constexpr std::array all = {
        Section{"section.guitar", "ui.guitar", "", guitar_summary, draw_guitar, inputs, open},
        Section{"section.now", "ui.now", "", now_summary, draw_now, inputs, open},
        Section{"section.next", "ui.next", "", next_summary, draw_next, inputs, open},
        Section{"section.sharper", "ui.sharper", "ui.sharper_note", nullptr, draw_sharper, inputs, folded},
        Section{"section.sheet", "sheet.title", "ui.sheet_note", nullptr, draw_sheet, work, open},
        Section{"section.tuning", "ui.tuning_sheet", "ui.tuning_note", nullptr, draw_tuning, work, open},
        Section{"section.readings", "ui.readings", "ui.readings_short", nullptr, draw_readings, work, open},
        Section{"section.back", "ui.back_view", "", nullptr, draw_back_view, picture, never_folds},
        Section{"section.choices", "ui.choices", "", nullptr, draw_choices, answer, never_folds},
        Section{"section.pulls", "ui.pulls", "", nullptr, draw_pulls, work, never_folds},
        Section{"section.strings", "ui.sets", "", nullptr, draw_strings_wanted, work, folded},
        Section{"section.whatif", "whatif.title", "whatif.note", nullptr, draw_whatif, work, folded},
        Section{"section.page", "ui.page", "ui.page_note", nullptr, draw_page, page, folded},
    };
    return all;
}

void draw_folding(const Desk& desk, const Section& it) {
    const std::string_view summary = it.summary ? desk.kept(it.id, [&] { return it.summary(desk); })
                                     : *it.note ? desk.say(it.note)
                                                : std::string_view();
    if (section(desk, it.id, desk.say(it.title), summary))
        it.draw(desk);
}

} // namespace counterpull
