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
constexpr Field two_scales_fields[] = {
    {.key = "number", .member = member<&ScalePreset::number>},
    {.key = "name", .member = member<&ScalePreset::name>},
    {.key = "longest_mm", .member = member<&ScalePreset::longest_mm>},
    {.key = "shortest_mm", .member = member<&ScalePreset::shortest_mm>},
};
constexpr Field one_scale_fields[] = {
    {.key = "number", .member = member<&ScalePreset::number>},
    {.key = "name", .member = member<&ScalePreset::name>},
    {.key = "scale_mm", .member = member<&ScalePreset::longest_mm>},
    {.key = "scale_mm", .member = member<&ScalePreset::shortest_mm>},
};
constexpr Field gauge_fields[] = {
    {.key = "number", .member = member<&GaugeList::number>},
    {.key = "name", .member = member<&GaugeList::name>},
    {.key = "wound", .member = member<&GaugeList::wound>},
    {.key = "gauges_in", .member = member<&GaugeList::gauges_in>},
};

// Walks the items of one preset file. The data are ours and tested, so a slip is a broken build, not input.
template <class Preset, class FieldsOf>
std::vector<Preset> read_items(std::string_view name, FieldsOf&& fields_of) {
    const Json file = Json::parse(embedded_preset(name), nullptr, false);
    std::vector<Preset> presets;
    const Json* items = file.is_object() ? value_at(file, "items") : nullptr;
    if (!items)
        return presets;
    for (const Json& item : *items) {
        Problems problems;
        read_object(item, group_with<Preset>(fields_of(item)), &presets.emplace_back(), name, {false},
                    problems);
        assert(problems.none());
    }
    return presets;
}
template <class Preset>
std::vector<Preset> read_all(std::string_view name, std::span<const Field> fields) {
    return read_items<Preset>(name, [&](const Json&) { return fields; });
}

Presets read_presets() {
    Presets all;
    all.string_sets = read_all<StringSetPreset>("string_sets", string_set_fields);
    all.tunings = read_all<TuningPreset>("tunings", tuning_fields);
    all.bridges = read_all<BridgePreset>("bridges", bridge_fields);
    all.springs = read_all<SpringPreset>("springs", spring_fields);
    all.screws = read_all<ScrewPreset>("screws", screw_fields);
    all.headstocks = read_all<HeadstockPreset>("headstocks", headstock_fields);
    all.scales = read_items<ScalePreset>("scales", [](const Json& item) -> std::span<const Field> {
        return value_at(item, "scale_mm") ? one_scale_fields : two_scales_fields;
    });
    for (const GaugeList& list : read_all<GaugeList>("gauges", gauge_fields))
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
