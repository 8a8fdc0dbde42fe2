// The presets: usual string sets, tunings, bridges, springs, screws, headstocks and scales.
//
// The data stand in presets/*.json with their provenance; each has a number that never changes, so that a
// link can name it. A preset fills fields of a set-up, all of which stay editable. One that turned out wrong
// is retired, not changed, since links are made of it: it is offered no more where there is a choice, but in
// a set-up that has it.
#pragma once

#include "engine/document/setup.h"

#include <array>
#include <string>
#include <vector>

namespace counterpull {

struct StringSetPreset {
    int number = 0;
    std::string name;
    std::vector<StringSetup> strings; // lowest first
};

struct TuningPreset {
    int number = 0;
    std::string name;
    std::vector<Pitch> notes; // lowest first
};

struct BridgePreset {
    int number = 0;
    std::string name;
    bool retired = false;
    BridgeSetup bridge; // saddle setbacks for six strings
    BaySetup bay;
    double usual_aim_mm = 0.0;
    int springs_usual = 3;
};

struct SpringPreset {
    int number = 0;
    std::string name;
    SpringSetup spring;
};

struct ScrewPreset {
    int number = 0;
    std::string name;
    double threads_per_inch = 0.0; // 0: a metric screw
    double screw_pitch_mm = 0.0;
};

struct HeadstockPreset {
    int number = 0;
    std::string name;
    PerString headstock_mm; // for six strings
};

struct ScalePreset {
    int number = 0;
    std::string name;
    double longest_mm = 0.0;  // of the lowest string
    double shortest_mm = 0.0; // of the highest; equal where there is one scale
};

struct Presets {
    std::vector<StringSetPreset> string_sets;
    std::vector<TuningPreset> tunings;
    std::vector<BridgePreset> bridges;
    std::vector<SpringPreset> springs;
    std::vector<ScrewPreset> screws;
    std::vector<HeadstockPreset> headstocks;
    std::vector<ScalePreset> scales;
    std::vector<StringSetup> gauges; // sold singly: plain ones, then wound ones, thin to thick
};

// All presets, read once from the embedded data.
const Presets& presets();

// Values per string from a preset made for another number of strings: the same first and last value, the
// others interpolated; a common number stays common.
PerString spread_over(const PerString& values, std::size_t strings);

// Scale lengths of a preset for a number of strings: one number, or interpolated from longest to shortest.
PerString scale_of(const ScalePreset& preset, std::size_t strings);

// The six-string example that the page opens with.
Setup example_setup();

} // namespace counterpull
