#include "engine/document/presets.h"

#include "engine/base/embedded.h"
#include "engine/document/document_reader.h"
#include "engine/document/member.h"

#include <cassert>
#include <cmath>

namespace counterpull {

namespace {

// The tables of the preset files. What they say is checked by tests, not here.
struct GaugeList {
    int number = 0;
    std::string name;
    bool wound = false;
    std::vector<double> gauges_in;
};

constexpr bool always(const void*) {
    return true;
}

constexpr Field string_set_fields[] = {
    {.key = "number", .member = member<&StringSetPreset::number>},
    {.key = "name", .member = member<&StringSetPreset::name>},
    {.key = "strings", .member = member<&StringSetPreset::strings>},
};
constexpr Field tuning_fields[] = {
    {.key = "number", .member = member<&TuningPreset::number>},
    {.key = "name", .member = member<&TuningPreset::name>},
    {.key = "notes", .member = member<&TuningPreset::notes>},
};
constexpr Field bridge_fields[] = {
    {.key = "number", .member = member<&BridgePreset::number>},
    {.key = "name", .member = member<&BridgePreset::name>},
    {.key = "retired", .member = member<&BridgePreset::retired>, .left_out = always},
    {.key = "bridge", .member = member<&BridgePreset::bridge>},
    {.key = "bay", .member = member<&BridgePreset::bay>},
    {.key = "usual_aim_mm", .member = member<&BridgePreset::usual_aim_mm>},
    {.key = "springs_usual", .member = member<&BridgePreset::springs_usual>},
};
constexpr Field spring_fields[] = {
    {.key = "number", .member = member<&SpringPreset::number>},
    {.key = "name", .member = member<&SpringPreset::name>},
    {.key = "spring", .member = member<&SpringPreset::spring>},
};
constexpr Field screw_fields[] = {
    {.key = "number", .member = member<&ScrewPreset::number>},
    {.key = "name", .member = member<&ScrewPreset::name>},
    {.key = "threads_per_inch", .member = member<&ScrewPreset::threads_per_inch>, .left_out = always},
    {.key = "screw_pitch_mm", .member = member<&ScrewPreset::screw_pitch_mm>},
};
constexpr Field headstock_fields[] = {
    {.key = "number", .member = member<&HeadstockPreset::number>},
    {.key = "name", .member = member<&HeadstockPreset::name>},
    {.key = "headstock_mm", .member = member<&HeadstockPreset::headstock_mm>},
};
// One scale for all strings, or the longest and the shortest.
constexpr Field scale_fields[] = {
    {.key = "number", .member = member<&ScalePreset::number>},
    {.key = "name", .member = member<&ScalePreset::name>},
    {.key = "longest_mm", .member = member<&ScalePreset::longest_mm>, .left_out = always},
    {.key = "shortest_mm", .member = member<&ScalePreset::shortest_mm>, .left_out = always},
    {.key = "scale_mm", .member = member<&ScalePreset::longest_mm>, .left_out = always},
    {.key = "scale_mm", .member = member<&ScalePreset::shortest_mm>, .left_out = always},
};
constexpr Field gauge_fields[] = {
    {.key = "number", .member = member<&GaugeList::number>},
    {.key = "name", .member = member<&GaugeList::name>},
    {.key = "wound", .member = member<&GaugeList::wound>},
    {.key = "gauges_in", .member = member<&GaugeList::gauges_in>},
};

// Walks the items of one preset file and reads each into what `add` puts at the end of a list. The data are
// ours and tested, so a slip is a broken build, not input.
void read_items(std::string_view name, std::span<const Field> fields, void* list, void* (*add)(void* list)) {
    const Json file = parse_json(embedded_preset(name));
    const Json* items = file.is_object() ? value_at(file, "items") : nullptr;
    if (!items)
        return;
    for (const Json& item : *items) {
        Problems problems;
        read_object(item, {.fields = fields}, add(list), name, {false}, problems);
        assert(problems.none());
    }
}
template <class Preset>
void read_all(std::string_view name, std::span<const Field> fields, std::vector<Preset>& into) {
    read_items(name, fields, &into,
               [](void* list) -> void* { return &static_cast<std::vector<Preset>*>(list)->emplace_back(); });
}

Presets read_presets() {
    Presets all;
    read_all("string_sets", string_set_fields, all.string_sets);
    read_all("tunings", tuning_fields, all.tunings);
    read_all("bridges", bridge_fields, all.bridges);
    read_all("springs", spring_fields, all.springs);
    read_all("screws", screw_fields, all.screws);
    read_all("headstocks", headstock_fields, all.headstocks);
    read_all("scales", scale_fields, all.scales);
    std::vector<GaugeList> lists;
    read_all("gauges", gauge_fields, lists);
    for (const GaugeList& list : lists)
        for (const double gauge_in : list.gauges_in) {
            StringSetup& string = all.gauges.emplace_back();
            string.gauge_in = gauge_in;
            string.wound = list.wound;
        }
    return all;
}

} // namespace

const Presets& presets() {
    static const Presets all = read_presets();
    return all;
}

PerString spread_over(const PerString& values, std::size_t strings) {
    if (values.common() || values.values.size() == strings)
        return values;
    PerString spread;
    spread.values.clear();
    const double last = static_cast<double>(values.values.size() - 1);
    for (std::size_t i = 0; i < strings; ++i) {
        const double along = last * static_cast<double>(i) / static_cast<double>(strings - 1);
        const auto below = static_cast<std::size_t>(along);
        const std::size_t above = std::min(below + 1, values.values.size() - 1);
        const double share = along - static_cast<double>(below);
        const double value = values.values[below] + share * (values.values[above] - values.values[below]);
        spread.values.push_back(std::round(value * 10.0) / 10.0); // as a ruler would say it
    }
    return spread;
}

PerString scale_of(const ScalePreset& preset, std::size_t strings) {
    if (preset.longest_mm == preset.shortest_mm)
        return {{preset.longest_mm}};
    return spread_over({{preset.longest_mm, preset.shortest_mm}}, strings);
}

Setup example_setup() {
    SetupRead read = read_setup(embedded_preset("example"));
    assert(read.setup);
    return std::move(*read.setup);
}

} // namespace counterpull
