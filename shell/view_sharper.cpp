// Everything that has a usual value, each still to be measured.
#include "engine/document/fields.h"
#include "engine/say/answer.h"
#include "shell/entry.h"
#include "shell/views.h"
#include "shell/widgets.h"

#include <cmath>

namespace counterpull {

namespace {

// A dimension of the guitar; what it is measured in and what it leaves unknown stand in the table of fields.
struct Row {
    const char* path; // under guitar
    const char* label;
    double step = 0.5;
};

// The guitar with what is usual for its kind of bridge.
const GuitarSetup& usual_guitar(const Desk& desk) {
    return desk.kept("usual guitar", [&] {
        const BridgePreset& preset = desk.bench.bridge_preset();
        GuitarSetup usual;
        usual.bridge = preset.bridge;
        usual.bay = preset.bay;
        usual.spring = standard_spring();
        return usual;
    });
}

void draw_row(const Desk& desk, const Row& row) {
    const GuitarSetup& guitar = desk.bench.setup().guitar;
    const Field& field = *find_field(group_of<GuitarSetup>(), row.path);
    if (const auto entered = number_field(
            desk, std::string("guitar.") + row.path, desk.say(row.label), *number_at(guitar, row.path),
            {unit_of(field), row.step, 2, false, *number_at(usual_guitar(desk), row.path), ""}))
        desk.bench.edit([&](Setup& s) { *number_at(s.guitar, row.path) = *entered; });
    if (field.prior.unknown)
        return draw_knowledge(desk, *field.prior.unknown);
    draw_measure_sketch(desk, row.path);
}

// What a preset is called; what is none is the player's own.
template <class Preset>
std::string name_of(const Desk& desk, const Preset* preset) {
    return preset ? desk.name(preset->name) : std::string(desk.say("ui.own"));
}

// Springs of another kind that lie ready: one kind is enough for a field.
void draw_other_springs(const Desk& desk) {
    const GuitarSetup& guitar = desk.bench.setup().guitar;
    const Lines& names = desk.kept("other springs", [&] {
        Lines all = {std::string(desk.say("ui.none"))};
        for (const SpringPreset& p : presets().springs)
            all.push_back(desk.name(p.name));
        return all;
    });
    const std::string& current = desk.kept("other spring", [&] {
        return guitar.other_springs.empty()
                   ? names.front()
                   : name_of(desk, matching_spring(guitar.other_springs.front().spring));
    });
    if (const auto chosen =
            choice(desk, "guitar.other_springs", desk.say("ui.other_springs"), current, names))
        desk.bench.edit([&](Setup& s) {
            auto& others = s.guitar.other_springs;
            if (*chosen == 0)
                others.clear();
            else
                others = {{others.empty() ? 2 : others.front().count, presets().springs[*chosen - 1].spring}};
        });
    if (guitar.other_springs.empty())
        return;
    NumberLook look;
    look.digits = 0;
    if (const auto entered = number_field(desk, "guitar.other_springs[0].count", desk.say("ui.other_count"),
                                          guitar.other_springs.front().count, look))
        desk.bench.edit([&](Setup& s) {
            s.guitar.other_springs.front().count = static_cast<int>(std::lround(*entered));
        });
}

// A number for all strings, or one per string: common ones are one field, others one each.
void draw_per_string(const Desk& desk, const std::string& path, const char* label, const PerString& values,
                     const PerString& usual, double step, PerString& (*find)(GuitarSetup&)) {
    const std::size_t strings = strings_of(desk.bench.setup());
    const PerString spread = spread_over(usual, strings);
    const std::size_t fields = values.common() ? 1 : values.values.size();
    const Lines& labels = desk.kept("labels of " + path, [&] {
        Lines all;
        for (std::size_t i = 0; i < fields; ++i)
            all.push_back(
                values.common()
                    ? std::string(desk.say(label))
                    : desk.say(
                          Phrase("ui.of_string").with("what", desk.say(label)).with("string", strings - i)));
        return all;
    });
    for (std::size_t i = 0; i < fields; ++i) {
        const std::string place = values.common() ? path : path + "[" + std::to_string(i) + "]";
        if (const auto entered = number_field(desk, place, labels[i], values.values[i],
                                              {"mm", step, 2, false, spread.at(i), ""}))
            desk.bench.edit([&](Setup& s) { find(s.guitar).values[i] = *entered; });
    }
}

// What the bridge turns on, and how far apart it comes back: where that is what is usual, the document says
// nothing of it.
void draw_pivot(const Desk& desk) {
    const GuitarSetup& guitar = desk.bench.setup().guitar;
    const Lines& names = desk.texts("pivots", {"ui.pivot_edge", "ui.pivot_posts", "ui.pivot_screws"});
    constexpr Pivot pivots[] = {Pivot::knife_edge, Pivot::two_posts, Pivot::screw_plate};
    const auto& kind = guitar.bridge.kind;
    if (const auto chosen =
            choice(desk, "guitar.bridge.kind", desk.say("ui.pivot"),
                   kind ? names[static_cast<std::size_t>(*kind)] : desk.say("ui.not_given"), names))
        desk.bench.edit([&](Setup& s) { s.guitar.bridge.kind = pivots[*chosen]; });
    GuitarSetup usual;
    usual.bridge.kind = kind;
    const double usual_cents = return_cents(usual);
    if (const auto entered = number_field(
            desk, "guitar.bridge.return_cents", desk.say("ui.return_cents"), return_cents(guitar),
            {desk.say("unit.cents"), 1.0, 1, false, usual_cents, desk.say("ui.return_note")}))
        desk.bench.edit([&](Setup& s) {
            s.guitar.bridge.return_cents =
                *entered == usual_cents ? std::nullopt : std::optional<double>(*entered);
        });
}

void draw_nut(const Desk& desk) {
    const GuitarSetup& guitar = desk.bench.setup().guitar;
    bool clamps = nut_has_clamps(guitar);
    if (toggle(desk, "guitar.nut_clamps", desk.say("ui.nut_clamps"), clamps))
        desk.bench.edit([&](Setup& s) {
            s.guitar.nut_clamps = clamps;
            s.guitar.nut_locked = s.guitar.nut_locked && clamps;
        });
    bool locked = guitar.nut_locked;
    if (clamps && toggle(desk, "guitar.nut_locked", desk.say("ui.nut_locked"), locked))
        desk.bench.edit([&](Setup& s) { s.guitar.nut_locked = locked; });
}

} // namespace

void draw_sharper(const Desk& desk) {
    const Setup& setup = desk.bench.setup();
    const GuitarSetup& guitar = setup.guitar;
    const std::string& matters = desk.kept("what matters most", [&] {
        const auto most =
            desk.bench.has_answer() ? what_matters_most(desk.bench.report()) : std::optional<Phrase>();
        return most ? desk.say(*most) : std::string();
    });
    if (!matters.empty())
        body(desk, matters);
    faint(desk, desk.say("ui.how_string"));
    const BridgePreset& preset = desk.bench.bridge_preset();

    if (const auto chosen =
            choice(desk, "guitar.spring", desk.say("ui.spring_kind"),
                   desk.kept("kind of spring", [&] { return name_of(desk, matching_spring(guitar.spring)); }),
                   desk.names("kinds of spring", presets().springs)))
        desk.bench.edit([&](Setup& s) { s.guitar.spring = presets().springs[*chosen].spring; });
    for (const Row& row :
         {Row{"spring.rate_n_mm", "ui.rate", 0.1}, Row{"spring.free_length_mm", "ui.free_length"},
          Row{"spring.initial_tension_n", "ui.initial_tension"}, Row{"spring.longest_mm", "ui.longest", 1.0}})
        draw_row(desk, row);
    draw_other_springs(desk);
    rule(desk);
    draw_per_string(desk, "guitar.bridge.saddle_height_mm", "ui.saddle_height",
                    guitar.bridge.saddle_height_mm, preset.bridge.saddle_height_mm, 0.5,
                    [](GuitarSetup& g) -> PerString& { return g.bridge.saddle_height_mm; });
    draw_knowledge(desk, Unknown::saddle_height);
    draw_per_string(desk, "guitar.bridge.saddle_setback_mm", "ui.saddle_setback",
                    guitar.bridge.saddle_setback_mm, preset.bridge.saddle_setback_mm, 0.5,
                    [](GuitarSetup& g) -> PerString& { return g.bridge.saddle_setback_mm; });
    draw_knowledge(desk, Unknown::saddle_setback);
    for (const Row& row :
         {Row{"bridge.block_depth_mm", "ui.block_depth"}, Row{"bridge.block_setback_mm", "ui.block_setback"},
          Row{"bridge.tail_mm", "ui.tail_distance"}, Row{"bay.claw_depth_mm", "ui.claw_depth"}})
        draw_row(desk, row);
    for (const std::size_t end : {std::size_t{0}, std::size_t{1}}) {
        const std::string path = "guitar.bridge.tail_limits_mm[" + std::to_string(end) + "]";
        if (const auto entered =
                number_field(desk, path, desk.say(end == 0 ? "ui.tail_lowest" : "ui.tail_highest"),
                             guitar.bridge.tail_limits_mm[end],
                             {"mm", 0.5, 1, true, preset.bridge.tail_limits_mm[end], ""}))
            desk.bench.edit([&](Setup& s) { s.guitar.bridge.tail_limits_mm[end] = *entered; });
    }
    draw_pivot(desk);
    rule(desk);
    if (const auto chosen =
            choice(desk, "guitar.screws", desk.say("ui.screws"),
                   desk.kept("kind of screw",
                             [&] { return name_of(desk, matching_screw(guitar.bay.screw_pitch_mm)); }),
                   desk.names("kinds of screw", presets().screws)))
        desk.bench.edit(
            [&](Setup& s) { s.guitar.bay.screw_pitch_mm = presets().screws[*chosen].screw_pitch_mm; });
    for (const Row& row :
         {Row{"bay.screw_pitch_mm", "ui.screw_pitch", 0.01}, Row{"bay.screw_span_mm", "ui.screw_span", 1.0},
          Row{"bay.turns_in_left", "ui.turns_in_left"}, Row{"bay.turns_out_left", "ui.turns_out_left"}})
        draw_row(desk, row);
    faint(desk, desk.say("ui.how_thread"));
    rule(desk);
    draw_nut(desk);
    if (const auto chosen = choice(desk, "guitar.headstock_mm", desk.say("ui.headstock"),
                                   desk.kept("kind of headstock",
                                             [&] {
                                                 return name_of(desk, matching_headstock(guitar.headstock_mm,
                                                                                         strings_of(setup)));
                                             }),
                                   desk.names("kinds of headstock", presets().headstocks)))
        desk.bench.edit([&](Setup& s) {
            s.guitar.headstock_mm = spread_over(presets().headstocks[*chosen].headstock_mm, strings_of(s));
        });
    bool back = guitar.held == Held::on_its_back;
    if (toggle(desk, "guitar.held", desk.say("ui.on_its_back"), back))
        desk.bench.edit([&](Setup& s) { s.guitar.held = back ? Held::on_its_back : Held::playing; });
    if (back)
        for (const Row& row :
             {Row{"bridge.mass_g", "ui.mass", 10.0}, Row{"bridge.mass_setback_mm", "ui.mass_setback"}})
            draw_row(desk, row);
    if (const auto entered =
            number_field(desk, "a4_hz", desk.say("ui.a4"), setup.a4_hz, {"Hz", 1.0, 1, false, 440.0, ""}))
        desk.bench.edit([&](Setup& s) { s.a4_hz = *entered; });
    space(4.0f);
}

} // namespace counterpull
