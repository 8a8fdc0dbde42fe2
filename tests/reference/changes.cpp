// The kinds of change that hidden guitars go through.
#include "tests/reference/closed_loop.h"

#include "engine/document/presets.h"

#include <algorithm>
#include <stdexcept>

namespace reference {

using namespace counterpull;

namespace {

Setup base(int bridge_number) {
    Setup setup = example_setup();
    setup.title.clear();
    setup.guitar.basis.clear();
    setup.guitar.springs_owned = 5;
    setup.next.tail_mm = 0.0;
    for (const BridgePreset& preset : presets().bridges)
        if (preset.number == bridge_number) {
            setup.guitar.bridge = preset.bridge;
            setup.guitar.bay = preset.bay;
        }
    for (const SpringPreset& preset : presets().springs)
        if (preset.name == "standard")
            setup.guitar.spring = preset.spring;
    return setup;
}

std::vector<StringSetup> set(std::string_view name) {
    for (const StringSetPreset& preset : presets().string_sets)
        if (preset.name == name && preset.strings.size() == 6)
            return preset.strings;
    return {};
}

std::vector<Pitch> tuning(std::string_view notes) {
    std::vector<Pitch> all;
    while (!notes.empty()) {
        const std::size_t end = std::min(notes.find(' '), notes.size());
        all.push_back(*parse_pitch(notes.substr(0, end)));
        notes.remove_prefix(std::min(end + 1, notes.size()));
    }
    return all;
}

constexpr std::string_view e_standard = "E2 A2 D3 G3 B3 E4", e_flat = "Eb2 Ab2 Db3 Gb3 Bb3 Eb4",
                           d_standard = "D2 G2 C3 F3 A3 D4", drop_d = "D2 A2 D3 G3 B3 E4",
                           drop_c = "C2 G2 C3 F3 A3 D4";
constexpr int recessed = 4, two_posts = 2; // numbers of presets

struct Strings {
    std::string_view set, notes;
};

Change change(std::string name, int bridge, Strings now, double tail_mm, Strings next) {
    Setup setup = base(bridge);
    setup.now.strings = set(now.set);
    setup.now.tuning = tuning(now.notes);
    setup.now.tail_mm = tail_mm;
    setup.next.strings = set(next.set);
    setup.next.tuning = tuning(next.notes);
    return {std::move(name), std::move(setup)};
}

} // namespace

std::vector<Change> changes() {
    const Strings nine{"9–42", e_standard}, ten{"10–46", e_standard};
    return {change("small correction", recessed, nine, -1.5, nine),
            change("one set heavier", recessed, nine, 0.0, ten),
            change("one set lighter", recessed, ten, 0.5, nine),
            change("half a tone down", recessed, ten, 0.0, {"10–46", e_flat}),
            change("a tone down", recessed, ten, 0.0, {"10–46", d_standard}),
            change("drop D", recessed, ten, 0.0, {"10–46", drop_d}),
            change("heavy drop tuning", recessed, nine, 0.0, {"12–56", drop_c}),
            change("two posts, heavier", two_posts, nine, 0.0, ten),
            change("two posts, drop D", two_posts, ten, 0.0, {"10–46", drop_d})};
}

Change change_called(std::string_view name) {
    for (const Change& change : changes())
        if (change.name == name)
            return change;
    throw std::out_of_range("no such change: " + std::string(name));
}

} // namespace reference
