#include "engine/document/link.h"

#include "engine/base/bit_stream.h"
#include "engine/document/link_walk.h"
#include "engine/document/placed_springs.h"
#include "engine/document/presets.h"
#include "engine/mechanics/bridge.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <map>

namespace counterpull {

namespace {

constexpr char version = 'A';
constexpr std::size_t checksum_letters = 3;
constexpr std::string_view checksum_alphabet =
    "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz";
constexpr std::size_t longest_link = 100000;
constexpr std::size_t longest_path = 64;
constexpr std::uint64_t most_items = 200; // of any list
constexpr int preset_bits = 8;

// Paths that a basis is mostly given for, by their place from 1 on; appended to only.
constexpr std::string_view known_paths[] = {
    "spring.rate_n_mm",         "spring.initial_tension_n", "bridge.saddle_height_mm",
    "bridge.saddle_setback_mm", "bridge.block_depth_mm",    "bridge.block_setback_mm",
    "bay.screw_pitch_mm",       "bridge.anchor_mm",         "headstock_mm"};

// CRC-16/XMODEM, written with three letters of base 62.
std::string checksum(std::string_view text) {
    unsigned crc = 0;
    for (const char c : text) {
        crc ^= static_cast<unsigned>(static_cast<unsigned char>(c)) << 8;
        for (int i = 0; i < 8; ++i)
            crc = (crc & 0x8000u) ? ((crc << 1) ^ 0x1021u) & 0xFFFFu : (crc << 1) & 0xFFFFu;
    }
    std::string letters;
    for (std::size_t i = 0; i < checksum_letters; ++i, crc /= 62)
        letters += checksum_alphabet[crc % 62];
    return letters;
}

// The presets that a reference is made of, by number; 0: none.
struct Reference {
    std::uint64_t strings = 6, scale = 0, bridge = 0, spring = 0, headstock = 0;
    std::uint64_t now_set = 0, now_tuning = 0, next_set = 0, next_tuning = 0;
    template <class Each>
    void each(Each&& use) {
        for (std::uint64_t* number :
             {&strings, &scale, &bridge, &spring, &headstock, &now_set, &now_tuning, &next_set, &next_tuning})
            use(*number);
    }
};

template <class Preset>
const Preset* numbered(const std::vector<Preset>& all, std::uint64_t number) {
    const auto found = std::find_if(all.begin(), all.end(), [&](const Preset& preset) {
        return static_cast<std::uint64_t>(preset.number) == number;
    });
    return found == all.end() ? nullptr : &*found;
}

template <class Preset, class Same>
std::uint64_t number_of(const std::vector<Preset>& all, Same&& same) {
    const auto found = std::find_if(all.begin(), all.end(), same);
    return found == all.end() ? 0 : static_cast<std::uint64_t>(found->number);
}

Setup setup_of(const Reference& reference) {
    const Presets& all = presets();
    const auto strings = static_cast<std::size_t>(reference.strings);
    Setup setup;
    if (const auto* scale = numbered(all.scales, reference.scale))
        setup.guitar.scale_mm = scale_of(*scale, strings);
    if (const auto* bridge = numbered(all.bridges, reference.bridge)) {
        setup.guitar.bridge = bridge->bridge;
        setup.guitar.bridge.saddle_setback_mm = spread_over(bridge->bridge.saddle_setback_mm, strings);
        setup.guitar.bay = bridge->bay;
        setup.now.springs = evenly_placed(bridge->bay, bridge->springs_usual);
        setup.next.tail_mm = bridge->usual_aim_mm;
    }
    if (const auto* spring = numbered(all.springs, reference.spring))
        setup.guitar.spring = spring->spring;
    if (const auto* headstock = numbered(all.headstocks, reference.headstock))
        setup.guitar.headstock_mm = spread_over(headstock->headstock_mm, strings);
    if (const auto* set = numbered(all.string_sets, reference.now_set))
        setup.now.strings = set->strings;
    if (const auto* tuning = numbered(all.tunings, reference.now_tuning))
        setup.now.tuning = tuning->notes;
    if (const auto* set = numbered(all.string_sets, reference.next_set))
        setup.next.strings = set->strings;
    if (const auto* tuning = numbered(all.tunings, reference.next_tuning))
        setup.next.tuning = tuning->notes;
    return setup;
}

// A leaf's value, as a number; lists have their length under the path with "#".
using Leaves = std::map<std::string, double, std::less<>>;

double value_of(const Pitch& pitch) {
    return (pitch.octave * 7 + (pitch.letter - 'A')) * 5 + (pitch.accidental + 2);
}
Pitch pitch_of(double value) {
    const int code = static_cast<int>(value);
    return {static_cast<char>('A' + code / 5 % 7), code % 5 - 2, code / 35};
}

// Collects a set-up's leaves.
struct Collect {
    Leaves leaves;
    template <class T>
    void leaf(const std::string& path, const T& value) {
        leaves[path] = static_cast<double>(value);
    }
    void pitch(const std::string& path, const Pitch& value) { leaves[path] = value_of(value); }
    template <class T>
    bool present(const std::string& path, const std::optional<T>& value) {
        leaves[path] = value.has_value();
        return value.has_value();
    }
    template <class T>
    void length(const std::string& path, const T& values) {
        leaves[path] = static_cast<double>(values.size());
    }
    void text(const std::string&, std::size_t) {}
    void name(const std::string&) {}
    bool failed() const { return false; }
};

Leaves leaves_of(const Setup& setup) {
    Collect collect;
    Walk walk(collect, "");
    fields::visit(walk, setup);
    return std::move(collect.leaves);
}

double usual(const Leaves& reference, const std::string& path) {
    const auto found = reference.find(path);
    return found == reference.end() ? 0.0 : found->second;
}

struct Write {
    BitWriter& bits;
    const Leaves& reference;
    void put(const std::string& path, double value) {
        const bool same = value == usual(reference, path) && !(value == 0.0 && std::signbit(value));
        bits.flag(!same);
        if (!same)
            bits.number(value);
    }
    template <class T>
    void leaf(const std::string& path, const T& value) {
        put(path, static_cast<double>(value));
    }
    void pitch(const std::string& path, const Pitch& value) { put(path, value_of(value)); }
    template <class T>
    bool present(const std::string& path, const std::optional<T>& value) {
        put(path, value.has_value());
        return value.has_value();
    }
    template <class T>
    void length(const std::string& path, const T& values) {
        put(path, static_cast<double>(values.size()));
    }
    void text(const std::string& value, std::size_t) { bits.text(value); }
    void name(const std::string& value) {
        const auto known = std::find(std::begin(known_paths), std::end(known_paths), value);
        const bool is_known = known != std::end(known_paths);
        bits.count(is_known ? static_cast<std::uint64_t>(known - std::begin(known_paths)) + 1 : 0);
        if (!is_known)
            bits.text(value);
    }
    bool failed() const { return false; }
};

struct Read {
    BitReader& bits;
    const Leaves& reference;
    bool wrong = false;
    double take(const std::string& path) { return bits.flag() ? bits.number() : usual(reference, path); }
    // A whole number from 0 to `most`, or what was read is no link.
    std::uint64_t take_whole(const std::string& path, double most) {
        const double value = take(path);
        if (!(value >= 0.0 && value <= most)) {
            wrong = true;
            return 0;
        }
        return static_cast<std::uint64_t>(value);
    }
    template <class T>
    void leaf(const std::string& path, T& value) {
        if constexpr (std::is_same_v<T, double>)
            value = take(path);
        else if constexpr (std::is_same_v<T, int>)
            value = static_cast<int>(take_whole(path, 1e6));
        else
            value = static_cast<T>(take_whole(path, 7.0)); // flags and choices; checked again as a document
    }
    void pitch(const std::string& path, Pitch& value) {
        value = pitch_of(static_cast<double>(take_whole(path, 35.0 * 10.0)));
    }
    template <class T>
    bool present(const std::string& path, std::optional<T>& value) {
        if (take_whole(path, 1.0) == 0)
            return false;
        value.emplace();
        return true;
    }
    template <class T>
    void length(const std::string& path, T& values) {
        values.resize(static_cast<std::size_t>(take_whole(path, static_cast<double>(most_items))));
    }
    void text(std::string& value, std::size_t longest) { value = bits.text(longest); }
    void name(std::string& value) {
        const std::uint64_t place = bits.count();
        wrong = wrong || place > std::size(known_paths);
        if (!wrong)
            value = place > 0 ? std::string(known_paths[place - 1]) : bits.text(longest_path);
    }
    bool failed() const { return wrong || bits.failed(); }
};

Reference reference_for(const Setup& setup) {
    const Presets& all = presets();
    Reference reference;
    const std::size_t strings = setup.next.strings.size();
    reference.strings = strings;
    reference.scale = number_of(all.scales, [&](const ScalePreset& preset) {
        return setup.guitar.scale_mm == scale_of(preset, strings);
    });
    reference.spring =
        number_of(all.springs, [&](const SpringPreset& p) { return p.spring == setup.guitar.spring; });
    reference.headstock = number_of(all.headstocks, [&](const HeadstockPreset& p) {
        return setup.guitar.headstock_mm == spread_over(p.headstock_mm, strings);
    });
    reference.now_set =
        number_of(all.string_sets, [&](const StringSetPreset& p) { return p.strings == setup.now.strings; });
    reference.next_set =
        number_of(all.string_sets, [&](const StringSetPreset& p) { return p.strings == setup.next.strings; });
    reference.now_tuning =
        number_of(all.tunings, [&](const TuningPreset& p) { return p.notes == setup.now.tuning; });
    reference.next_tuning =
        number_of(all.tunings, [&](const TuningPreset& p) { return p.notes == setup.next.tuning; });
    // Of the bridges the one from which the fewest leaves differ.
    const Leaves own = leaves_of(setup);
    std::size_t fewest = own.size() + 1;
    for (const BridgePreset& preset : all.bridges) {
        Reference tried = reference;
        tried.bridge = static_cast<std::uint64_t>(preset.number);
        const Leaves leaves = leaves_of(setup_of(tried));
        std::size_t differ = 0;
        for (const auto& [path, value] : own)
            differ += value != usual(leaves, path);
        if (differ < fewest) {
            fewest = differ;
            reference.bridge = tried.bridge;
        }
    }
    return reference;
}

SetupRead refused(const char* why) {
    SetupRead read;
    read.problems.add("", {why});
    return read;
}

} // namespace

std::string link_of(const Setup& setup) {
    BitWriter bits;
    Reference reference = reference_for(setup);
    reference.each([&](std::uint64_t number) { bits.bits(number, preset_bits); });
    const Leaves leaves = leaves_of(setup_of(reference));
    Write write{bits, leaves};
    Walk walk(write, "");
    fields::visit(walk, setup);
    const std::string text = version + bits.letters();
    return text + checksum(text);
}

SetupRead open_link(std::string_view link) {
    link = link.substr(link.rfind('#') + 1); // the whole of it where there is none
    if (link.size() > longest_link)
        return refused("refused.link_too_long");
    if (link.empty() || link.size() <= 1 + checksum_letters)
        return refused("refused.link_incomplete");
    const std::string_view text = link.substr(0, link.size() - checksum_letters);
    if (checksum(text) != link.substr(text.size()))
        return refused("refused.link_incomplete");
    return open_link_unchecked(text);
}

SetupRead open_link_unchecked(std::string_view text) {
    if (text.empty())
        return refused("refused.link_incomplete");
    if (text[0] != version)
        return refused("refused.link_version");
    BitReader bits(text.substr(1));
    Reference reference;
    reference.each([&](std::uint64_t& number) { number = bits.bits(preset_bits); });
    if (reference.strings > most_strings || reference.strings < 2)
        return refused("refused.link_incomplete");
    const Leaves leaves = leaves_of(setup_of(reference));
    Setup setup;
    Read read{bits, leaves};
    Walk walk(read, "");
    fields::visit(walk, setup);
    if (read.failed())
        return refused("refused.link_incomplete");
    return read_setup(write_setup(setup)); // as strictly as any document
}

} // namespace counterpull
