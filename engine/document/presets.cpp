#include "engine/document/presets.h"

#include "engine/base/embedded.h"
#include "engine/document/document_reader.h"

#include <cassert>

namespace counterpull {

namespace {

// Walks the items of one preset file. The data are ours and tested, so a slip is a broken build, not input.
template <class Preset, class Use>
std::vector<Preset> read_items(std::string_view name, Use&& use) {
    const Json file = Json::parse(embedded_preset(name), nullptr, false);
    std::vector<Preset> presets;
    const auto items = file.is_object() ? file.find("items") : file.end();
    if (items == file.end())
        return presets;
    for (const Json& item : *items) {
        Preset& preset = presets.emplace_back();
        Problems problems;
        Reader reader(item, std::string(name), problems);
        reader.index("number", preset.number);
        use(reader, preset, item);
        preset.name = item.value("name", "");
        assert(problems.none());
    }
    return presets;
}

Presets read_presets() {
    Presets all;
    all.string_sets =
        read_items<StringSetPreset>("string_sets", [](Reader& r, StringSetPreset& p, const Json&) {
            r.objects("strings", p.strings, false);
        });
    all.tunings = read_items<TuningPreset>(
        "tunings", [](Reader& r, TuningPreset& p, const Json&) { r.pitches("notes", p.notes, false); });
    all.bridges = read_items<BridgePreset>("bridges", [](Reader& r, BridgePreset& p, const Json&) {
        r.object("bridge", p.bridge);
        r.object("bay", p.bay);
        r.number("usual_aim_mm", p.usual_aim_mm);
        r.index("springs_usual", p.springs_usual);
    });
    all.springs = read_items<SpringPreset>(
        "springs", [](Reader& r, SpringPreset& p, const Json&) { r.object("spring", p.spring); });
    all.screws = read_items<ScrewPreset>("screws", [](Reader& r, ScrewPreset& p, const Json&) {
        r.number("threads_per_inch", p.threads_per_inch);
        r.number("screw_pitch_mm", p.screw_pitch_mm);
    });
    all.headstocks =
        read_items<HeadstockPreset>("headstocks", [](Reader& r, HeadstockPreset& p, const Json&) {
            r.per_string("headstock_mm", p.headstock_mm);
        });
    all.scales = read_items<ScalePreset>("scales", [](Reader& r, ScalePreset& p, const Json& item) {
        const bool one = item.contains("scale_mm");
        r.number(one ? "scale_mm" : "longest_mm", p.longest_mm);
        r.number(one ? "scale_mm" : "shortest_mm", p.shortest_mm);
    });
    struct GaugeList {
        int number = 0;
        std::string name;
        bool wound = false;
        std::vector<double> gauges_in;
    };
    const auto lists = read_items<GaugeList>("gauges", [](Reader& r, GaugeList& p, const Json&) {
        r.flag("wound", p.wound);
        r.numbers("gauges_in", p.gauges_in);
    });
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
        const double place = last * static_cast<double>(i) / static_cast<double>(strings - 1);
        const auto below = static_cast<std::size_t>(place);
        const std::size_t above = std::min(below + 1, values.values.size() - 1);
        const double share = place - static_cast<double>(below);
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
