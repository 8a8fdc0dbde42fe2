// How a number of the guitar is known, what an error there does to the turns, and how to measure it.
#include "engine/base/format.h"
#include "shell/views.h"
#include "shell/widgets.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace counterpull {

namespace {

constexpr std::array bases = {Basis::usual, Basis::measured, Basis::guess};

struct Method {
    Unknown unknown;
    const char* how; // to measure it
    Amount error;    // what so much of it does is told
};
constexpr std::array methods = {
    Method{Unknown::saddle_height, "measure.saddle_height", {1.0, 0, Measure::length}},
    Method{Unknown::saddle_setback, "measure.saddle_setback", {1.0, 0, Measure::length}},
    Method{Unknown::block_depth, "measure.block_depth", {1.0, 0, Measure::length}},
    Method{Unknown::block_setback, "measure.block_setback", {1.0, 0, Measure::length}},
    Method{Unknown::free_length, "measure.free_length", {1.0, 0, Measure::length}},
    Method{Unknown::spring_rate, "measure.spring_rate", {0.1, 1, Measure::rate}},
    Method{Unknown::initial_tension, "measure.initial_tension", {1.0, 0, Measure::force}},
    Method{Unknown::screw_pitch, "measure.screw_pitch", {0.1, 1, Measure::length}},
    Method{Unknown::dead_length, "measure.dead_length", {1.0, 0, Measure::length}},
};

void set_basis(GuitarSetup& guitar, const std::string& path, Basis basis) {
    std::erase_if(guitar.basis, [&](const auto& entry) { return entry.first == path; });
    if (basis != Basis::usual)
        guitar.basis.emplace_back(path, basis);
}

// What its error does to the turns, where that can be told.
Lines worth_of(const Desk& desk, const Method& method) {
    Lines said;
    if (!desk.bench.has_answer())
        return said;
    for (const Worth& worth : desk.bench.report().worth) {
        const double turns = worth.turns_per_unit * method.error.value;
        if (worth.unknown == method.unknown && std::abs(turns) >= 0.005)
            said.push_back(desk.say(
                Phrase("ui.worth").with("unit", method.error).with("turns", signed_number(turns, 2))));
    }
    return said;
}

} // namespace

void draw_knowledge(const Desk& desk, Unknown unknown) {
    const std::string path(path_of(unknown));
    const auto& known = desk.bench.setup().guitar.basis;
    const auto found =
        std::find_if(known.begin(), known.end(), [&](const auto& entry) { return entry.first == path; });
    const Basis basis = found == known.end() ? Basis::usual : found->second;
    const Lines& names = desk.texts("bases", {"ui.basis_usual", "ui.basis_measured", "ui.basis_guess"});
    if (const auto chosen = choice(desk, "guitar.basis." + path, desk.say("ui.basis"),
                                   names[static_cast<std::size_t>(basis)], names))
        desk.bench.edit([&](Setup& s) { set_basis(s.guitar, path, bases[*chosen]); });
    const auto* method =
        std::find_if(methods.begin(), methods.end(), [&](const Method& m) { return m.unknown == unknown; });
    for (const std::string& said : desk.kept("worth of " + path, [&] { return worth_of(desk, *method); }))
        faint(desk, said);
    if (basis == Basis::measured)
        return;
    draw_measure_sketch(desk, path);
    faint(desk, desk.say(method->how));
    space(6.0f);
}

} // namespace counterpull
