// The reverse question: strings that leave the bridge level with the claw as it is.
#include "engine/advice/string_search.h"
#include "engine/base/format.h"
#include "engine/base/units.h"
#include "engine/say/string_search_text.h"
#include "shell/views.h"
#include "shell/widgets.h"

#include <array>
#include <numeric>

namespace counterpull {

namespace {

struct SetText {
    std::string gauges, what;
};

SetText text_of(const Desk& desk, const FoundSet& set) {
    const double total_n = std::accumulate(set.tension_n.begin(), set.tension_n.end(), 0.0);
    return {gauges_in_words(set.strings),
            desk.say(Phrase(set.level ? "ui.set_level" : "ui.set_quarter")
                         .with("tail", signed_millimetres(mm_from_metres(set.tail_m), 1))
                         .with("turns", signed_number(set.turns, 2))
                         .with("pull", newtons(total_n, 0))
                         .with("uneven", number(100.0 * set.unevenness, 0)))};
}

} // namespace

void draw_strings_wanted(const Desk& desk) {
    faint(desk, desk.say("ui.sets_note"));
    constexpr std::array feels = {Feel::present, Feel::even, Feel::progressive};
    const Lines& names = desk.texts("feels", {"ui.feel_present", "ui.feel_even", "ui.feel_progressive"});
    if (const auto chosen = choice(desk, "strings.feel", desk.say("ui.feel"),
                                   names[static_cast<std::size_t>(desk.view.feel)], names))
        desk.view.feel = feels[*chosen];
    const std::vector<FoundSet>& sets = desk.bench.sets_that_need_no_turns(desk.view.feel);
    if (sets.empty())
        body(desk, desk.say("sets.none"));
    const auto& texts = desk.kept(
        std::array{"present sets", "even sets", "progressive sets"}[static_cast<std::size_t>(desk.view.feel)],
        [&] {
            std::vector<SetText> all;
            for (const FoundSet& set : sets)
                all.push_back(text_of(desk, set));
            return all;
        });
    for (std::size_t i = 0; i < sets.size(); ++i) {
        paragraph(desk, texts[i].gauges, desk.theme.fonts.strong, desk.theme.colours.ink);
        faint(desk, texts[i].what);
        if (button(desk, "strings.use[" + std::to_string(i) + "]", desk.say("ui.use_set"))) {
            const std::vector<StringSetup> strings = sets[i].strings; // the list goes with the edit
            desk.bench.edit([&](Setup& s) { s.next.strings = strings; });
            return;
        }
        space(4.0f);
    }
}

} // namespace counterpull
