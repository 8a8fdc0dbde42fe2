#include "shell/refusals.h"

#include "engine/document/choices.h"

#include <algorithm>
#include <array>
#include <cstdlib>

namespace counterpull {

namespace {

constexpr int most_digits = 3; // of a number that was typed

// What the last index of a path counts, if it is told in the field's name.
enum class Counts {
    nothing,
    strings,   // from the lowest; players count from the highest
    dimension, // the same, of a dimension that all strings may have in common
    players,   // strings, as players count them
    springs,
};

// A field of the page by its path without indices, but for the two ends of a pair.
struct PageField {
    std::string_view path, label;
    Counts counts = Counts::nothing;
};
constexpr std::array fields = {
    PageField{"a4_hz", "ui.a4"},
    PageField{"guitar.scale_mm", "ui.scale", Counts::dimension},
    PageField{"guitar.springs_owned", "ui.springs_owned"},
    PageField{"guitar.other_springs.count", "ui.other_count"},
    PageField{"guitar.spring.rate_n_mm", "ui.rate"},
    PageField{"guitar.spring.free_length_mm", "ui.free_length"},
    PageField{"guitar.spring.initial_tension_n", "ui.initial_tension"},
    PageField{"guitar.spring.longest_mm", "ui.longest"},
    PageField{"guitar.bridge.saddle_height_mm", "ui.saddle_height", Counts::dimension},
    PageField{"guitar.bridge.saddle_setback_mm", "ui.saddle_setback", Counts::dimension},
    PageField{"guitar.bridge.block_depth_mm", "ui.block_depth"},
    PageField{"guitar.bridge.block_setback_mm", "ui.block_setback"},
    PageField{"guitar.bridge.tail_mm", "ui.tail_distance"},
    PageField{"guitar.bridge.tail_limits_mm[0]", "ui.tail_lowest"},
    PageField{"guitar.bridge.tail_limits_mm[1]", "ui.tail_highest"},
    PageField{"guitar.bridge.tail_limits_mm", "ui.tail_lowest"},
    PageField{"guitar.bridge.return_cents", "ui.return_cents"},
    PageField{"guitar.bridge.mass_g", "ui.mass"},
    PageField{"guitar.bridge.mass_setback_mm", "ui.mass_setback"},
    PageField{"guitar.bay.claw_depth_mm", "ui.claw_depth"},
    PageField{"guitar.bay.screw_pitch_mm", "ui.screw_pitch"},
    PageField{"guitar.bay.screw_span_mm", "ui.screw_span"},
    PageField{"guitar.bay.turns_in_left", "ui.turns_in_left"},
    PageField{"guitar.bay.turns_out_left", "ui.turns_out_left"},
    PageField{"guitar.headstock_mm", "ui.headstock", Counts::dimension},
    PageField{"now.tail_mm", "ui.tail_now"},
    PageField{"now.tail_sides_mm[0]", "ui.tail_bass"},
    PageField{"now.tail_sides_mm[1]", "ui.tail_treble"},
    PageField{"now.springs", "ui.springs_now"},
    PageField{"now.spring_mm", "ui.spring_length", Counts::springs},
    PageField{"now.strings.gauge_in", "ui.gauge", Counts::strings},
    PageField{"now.strings.wound", "ui.wound", Counts::strings},
    PageField{"now.strings", "ui.set"},
    PageField{"now.tuning", "ui.note", Counts::strings},
    PageField{"next.strings.gauge_in", "ui.gauge", Counts::strings},
    PageField{"next.strings.wound", "ui.wound", Counts::strings},
    PageField{"next.strings", "ui.set"},
    PageField{"next.tuning", "ui.note", Counts::strings},
    PageField{"next.tail_mm", "ui.tail_next"},
    PageField{"next.springs", "ui.choices"},
    PageField{"log.turns", "ui.turns_made"},
    PageField{"log.tail_mm", "ui.tail_read"},
    PageField{"log.cents", "ui.string_shows", Counts::strings},
    PageField{"job.tail_mm", "ui.tail_read"},
    PageField{"job.tail_bass", "ui.tail_bass"},
    PageField{"job.tail_treble", "ui.tail_treble"},
    PageField{"job.cents", "ui.string_shows", Counts::players},
    PageField{"job.turned[0]", "bench.bass_turned"},
    PageField{"job.turned[1]", "bench.treble_turned"},
};

// A path taken apart.
struct Apart {
    std::string plain;               // without indices
    std::string one_of;              // the same with the last index, where the path ends with one
    std::size_t first = 0, last = 0; // index
    bool indexed = false;            // it ends with one
};

Apart apart(std::string_view path) {
    Apart parts;
    bool any = false;
    for (std::size_t at = 0; at < path.size(); ++at) {
        if (path[at] != '[') {
            parts.plain += path[at];
            continue;
        }
        const std::size_t close = std::min(path.find(']', at), path.size());
        parts.last = static_cast<std::size_t>(std::atoi(std::string(path.substr(at + 1, 6)).c_str()));
        parts.first = any ? parts.first : parts.last;
        any = true;
        parts.indexed = close + 1 >= path.size();
        at = close;
    }
    parts.one_of = parts.plain + "[" + std::to_string(parts.last) + "]";
    return parts;
}

const PageField* find_field(const Apart& path) {
    for (const std::string& as : {path.indexed ? path.one_of : path.plain, path.plain})
        for (const PageField& field : fields)
            if (field.path == as)
                return &field;
    return nullptr;
}

std::string label_of(const PageField& field, const Apart& path, const Setup& setup, const Words& words) {
    const std::size_t strings = strings_of(setup);
    const std::size_t string =
        field.counts == Counts::players ? path.last : strings - std::min(path.last, strings);
    if (field.counts == Counts::dimension && path.indexed)
        return words.say(Phrase("ui.of_string").with("what", Word{field.label}).with("string", string));
    Phrase label(field.label);
    if (field.counts == Counts::springs) {
        const auto& springs = setup.now.springs;
        return words.say(
            std::move(label).with("hook", path.last < springs.size() ? springs[path.last].hook + 1 : 0));
    }
    return words.say(std::move(label).with("string", string));
}

// The part of the page that a path belongs to; "" none that says more than the field.
std::string part_of(const Apart& path, const Words& words) {
    if (path.plain.starts_with("log."))
        return words.say(Phrase("ui.reading_named").with("entry", path.first + 1));
    for (const auto& [begin, name] :
         {std::pair("now.", "ui.now"), std::pair("next.", "ui.next"), std::pair("guitar.", "ui.guitar"),
          std::pair("bench.", "bench.title"), std::pair("log", "ui.readings")})
        if (path.plain.starts_with(begin))
            return std::string(words.text(name));
    return "";
}

// A number of the document as the page shows it there.
std::string said(Amount amount, std::string_view plain_path, bool with_unit, const Words& words) {
    amount.bare = false;
    if (amount.digits == shortest_digits) {
        amount.digits = most_digits;
        amount.trim = true;
    }
    std::string_view unit = plain_path.ends_with("cents") ? words.text("unit.cents")
                            : plain_path.ends_with("_hz") ? "Hz"
                            : plain_path.ends_with("_g")  ? "g"
                                                          : "";
    if (plain_path.ends_with("gauge_in")) { // players say thousandths
        amount.value *= 1000.0;
        amount.digits = 1;
        amount.trim = true;
    }
    if (!with_unit)
        return words.number_of(amount);
    std::string text = words.say(amount);
    if (!unit.empty())
        (text += " ") += unit;
    return text;
}

// The field that could be changed instead of the one refused, "" none.
std::string_view instead_of(const Phrase& why) {
    auto value = [&](std::string_view name) {
        for (const Phrase::Value& each : why.values)
            if (each.name == name)
                if (const Amount* amount = std::get_if<Amount>(&each.parts.front()))
                    return amount->value;
        return 0.0;
    };
    if (why.key == "refused.outside_travel")
        return value("found") < value("low") ? "guitar.bridge.tail_limits_mm[0]"
                                             : "guitar.bridge.tail_limits_mm[1]";
    if (why.key == "refused.limit_beyond_tail")
        return "guitar.bridge.tail_mm";
    if (why.key == "refused.longest_too_short")
        return "guitar.spring.free_length_mm";
    if (why.key == "refused.owned_fewer_than_fitted")
        return "now.springs";
    return "";
}

std::string quoted(const std::string& label, const Words& words) {
    return words.say(Phrase("ui.field").with("field", label));
}

} // namespace

std::string field_in_words(std::string_view path, const Setup& setup, const Words& words) {
    const Apart parts = apart(path);
    const PageField* field = find_field(parts);
    const std::string part = part_of(parts, words);
    if (!field)
        return part;
    const std::string label = quoted(label_of(*field, parts, setup, words), words);
    const bool alone = part.empty() || parts.plain.starts_with("guitar.");
    return alone ? label : part + std::string(words.text("language.comma")) + label;
}

std::string reason_in_words(std::string_view path, const Phrase& why, const Setup& setup,
                            const Words& words) {
    const Apart parts = apart(path);
    // What these say of keys of the document the page says of its own fields.
    Phrase here(why.key == "refused.at_stop"                ? "ui.refused_at_stop"
                : why.key == "refused.too_thin_to_be_wound" ? "ui.refused_too_thin"
                                                            : std::string_view(why.key));
    for (const Phrase::Value& value : why.values) {
        const Amount* amount = value.parts.size() == 1 ? std::get_if<Amount>(&value.parts.front()) : nullptr;
        if (amount && amount->bare)
            std::move(here).with(value.name, said(*amount, parts.plain, value.name != "low", words));
        else
            std::move(here).with(value.name, value.parts);
    }
    if (why.key == "refused.at_stop")
        std::move(here).with("field", words.text("ui.strings_off"));
    if (why.key == "refused.too_thin_to_be_wound") {
        const Apart wound = apart(std::string(path.substr(0, path.rfind('.'))) + ".wound");
        const PageField* field = find_field(wound);
        std::move(here).with("field", field ? label_of(*field, wound, setup, words) : "");
    }
    const std::string_view other = instead_of(why);
    if (other.empty())
        return words.say(here);
    return words.say(Phrase("ui.or_change")
                         .with("why", words.say(here))
                         .with("field", field_in_words(other, setup, words)));
}

std::string refusal_in_words(const Problem& problem, const Setup& setup, const Words& words) {
    const std::string field = field_in_words(problem.path, setup, words);
    const std::string why = reason_in_words(problem.path, problem.why, setup, words);
    return field.empty() ? why : field + ": " + why;
}

} // namespace counterpull
