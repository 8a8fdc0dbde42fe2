#include "shell/inputs.h"

#include "engine/base/format.h"

namespace counterpull {

namespace {

// Presets with as many strings as the set-up, by name.
template <class Preset, class Count>
std::vector<const Preset*> fitting(const std::vector<Preset>& all, std::size_t strings, Count&& count) {
    std::vector<const Preset*> some;
    for (const Preset& preset : all)
        if (count(preset) == strings)
            some.push_back(&preset);
    return some;
}

template <class Preset>
struct Offered {
    std::vector<const Preset*> presets;
    Lines names;
};
template <class Preset, class Count>
Offered<Preset> offered(const Desk& desk, const std::vector<Preset>& all, Count&& count) {
    Offered<Preset> some{fitting(all, strings_of(desk.bench.setup()), count), {}};
    for (const Preset* preset : some.presets)
        some.names.push_back(desk.name(preset->name));
    return some;
}

std::string id_of(std::string_view before, std::string_view side, std::string_view field) {
    return (std::string(before) += side) += field;
}

} // namespace

std::string name_of_set(const Desk& desk, const std::vector<StringSetup>& strings) {
    if (strings.empty())
        return std::string(desk.say("ui.not_given"));
    if (const auto* preset = matching_set(strings))
        return desk.name(preset->name);
    return desk.say(Phrase("ui.own_set")
                        .with("high", gauge_in_words(strings.back().gauge_in))
                        .with("low", gauge_in_words(strings.front().gauge_in)));
}

std::string name_of_tuning(const Desk& desk, const std::vector<Pitch>& tuning) {
    if (tuning.empty())
        return std::string(desk.say("ui.not_given"));
    if (const auto* preset = matching_tuning(tuning))
        return desk.name(preset->name);
    return desk.say(notes_of(tuning));
}

std::string_view name_of(Side side) {
    return side == Side::now ? "now" : "next";
}
std::vector<StringSetup>& strings_on(Setup& setup, Side side) {
    return side == Side::now ? setup.now.strings : setup.next.strings;
}
std::vector<Pitch>& tuning_on(Setup& setup, Side side) {
    return side == Side::now ? setup.now.tuning : setup.next.tuning;
}
const std::vector<StringSetup>& strings_on(const Setup& setup, Side side) {
    return side == Side::now ? setup.now.strings : setup.next.strings;
}
const std::vector<Pitch>& tuning_on(const Setup& setup, Side side) {
    return side == Side::now ? setup.now.tuning : setup.next.tuning;
}

void pick_strings(const Desk& desk, Side side, DrawPick draw, std::string_view before) {
    const auto& sets = desk.kept("sets", [&] {
        return offered(desk, presets().string_sets, [](const auto& p) { return p.strings.size(); });
    });
    const std::string id = id_of(before, name_of(side), ".strings");
    if (const auto chosen =
            draw(desk, id, desk.say("ui.set"),
                 desk.kept(id, [&] { return name_of_set(desk, strings_on(desk.bench.setup(), side)); }),
                 sets.names))
        desk.bench.edit([&](Setup& s) { strings_on(s, side) = sets.presets[*chosen]->strings; });
}

void pick_tuning(const Desk& desk, Side side, DrawPick draw, std::string_view before) {
    const auto& tunings = desk.kept("tunings", [&] {
        return offered(desk, presets().tunings, [](const auto& p) { return p.notes.size(); });
    });
    const std::string id = id_of(before, name_of(side), ".tuning");
    if (const auto chosen =
            draw(desk, id, desk.say("ui.tuning"),
                 desk.kept(id, [&] { return name_of_tuning(desk, tuning_on(desk.bench.setup(), side)); }),
                 tunings.names))
        desk.bench.edit([&](Setup& s) { tuning_on(s, side) = tunings.presets[*chosen]->notes; });
}

void pick_bridge(const Desk& desk, DrawPick draw, std::string_view before) {
    const auto& bridges = desk.kept("kinds of bridge", [&] {
        Offered<BridgePreset> some{offered_bridges(desk.bench.bridge_preset()), {}};
        for (const BridgePreset* preset : some.presets)
            some.names.push_back(desk.name(preset->name));
        return some;
    });
    if (const auto chosen =
            draw(desk, id_of(before, "guitar", ".bridge"), desk.say("ui.bridge"),
                 desk.kept("kind of bridge", [&] { return desk.name(desk.bench.bridge_preset().name); }),
                 bridges.names))
        desk.bench.choose_bridge(*bridges.presets[*chosen]);
}

void pick_scale(const Desk& desk, DrawPick draw, std::string_view before) {
    const Setup& setup = desk.bench.setup();
    const std::string& scale = desk.kept("scale", [&] {
        for (const ScalePreset& preset : presets().scales)
            if (setup.guitar.scale_mm == scale_of(preset, strings_of(setup)))
                return desk.name(preset.name);
        return desk.say(millimetres(setup.guitar.scale_mm.at(0), 2));
    });
    if (const auto chosen = draw(desk, id_of(before, "guitar", ".scale_mm"), desk.say("ui.scale"), scale,
                                 desk.names("scales", presets().scales)))
        desk.bench.edit(
            [&](Setup& s) { s.guitar.scale_mm = scale_of(presets().scales[*chosen], strings_of(s)); });
}

} // namespace counterpull
