#include "engine/document/link.h"

#include "engine/base/bit_stream.h"
#include "engine/document/json_text.h"
#include "engine/document/link_walk.h"
#include "engine/document/placed_springs.h"
#include "engine/document/presets.h"
#include "engine/mechanics/bridge.h"

#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>

namespace counterpull {

namespace {

constexpr std::size_t checksum_letters = 3;
constexpr std::string_view checksum_alphabet =
    "0123456789ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz";
constexpr std::size_t longest_link = 100000;
constexpr std::size_t longest_path = 64;
constexpr std::size_t longest_title = 80 * 4; // bytes
constexpr int preset_bits = 8;

// Paths that a basis is mostly given for, by their number from 1 on; appended to only.
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

// Counts the numbers that differ from the reference's.
class Differences : public Carrier {
  public:
    std::size_t count = 0;
    double number(double value, double usual) override {
        count += value != usual;
        return value;
    }
    void text(std::string&) override {}
    void path(std::string&) override {}
    void fail() override {}
    bool failed() const override { return false; }
};

// One bit for a number that is the reference's, else the number after it.
class LinkWriter : public Carrier {
  public:
    explicit LinkWriter(BitWriter& bits) : bits_(bits) {}
    double number(double value, double usual) override {
        const bool same = value == usual && !(value == 0.0 && std::signbit(value));
        bits_.flag(!same);
        if (!same)
            bits_.number(value);
        return value;
    }
    void text(std::string& value) override { bits_.text(value); }
    void path(std::string& value) override {
        const auto known = std::find(std::begin(known_paths), std::end(known_paths), value);
        const bool is_known = known != std::end(known_paths);
        bits_.count(is_known ? static_cast<std::uint64_t>(known - std::begin(known_paths)) + 1 : 0);
        if (!is_known)
            bits_.text(value);
    }
    void fail() override {}
    bool failed() const override { return false; }

  private:
    BitWriter& bits_;
};

class LinkReader : public Carrier {
  public:
    explicit LinkReader(BitReader& bits) : bits_(bits) {}
    double number(double, double usual) override { return bits_.flag() ? bits_.number() : usual; }
    void text(std::string& value) override {
        value = bits_.text(longest_title);
        wrong_ = wrong_ || !is_utf8(value);
    }
    void path(std::string& value) override {
        const std::uint64_t known = bits_.count();
        wrong_ = wrong_ || known > std::size(known_paths);
        if (!wrong_)
            value = known > 0 ? std::string(known_paths[known - 1]) : bits_.text(longest_path);
        wrong_ = wrong_ || !is_utf8(value);
    }
    void fail() override { wrong_ = true; }
    bool failed() const override { return wrong_ || bits_.failed(); }

  private:
    BitReader& bits_;
    bool wrong_ = false;
};

std::size_t differences(const Setup& setup, const Setup& reference) {
    Differences differ;
    Setup walked = setup;
    walk_link(group_of<Setup>(), &walked, &reference, newest_version(group_of<Setup>()), differ);
    return differ.count;
}

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
    // Of the bridges the one from which the fewest numbers differ.
    std::size_t fewest = std::numeric_limits<std::size_t>::max();
    for (const BridgePreset& preset : all.bridges) {
        Reference tried = reference;
        tried.bridge = static_cast<std::uint64_t>(preset.number);
        const std::size_t differ = differences(setup, setup_of(tried));
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
    const Group& group = group_of<Setup>();
    const char version = version_needed(group, &setup);
    const Setup usual = setup_of(reference);
    Setup written = setup;
    LinkWriter writer(bits);
    walk_link(group, &written, &usual, version, writer);
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
    const Group& group = group_of<Setup>();
    const char version = text[0];
    if (version < first_version || version > newest_version(group))
        return refused("refused.link_version");
    BitReader bits(text.substr(1));
    Reference reference;
    reference.each([&](std::uint64_t& number) { number = bits.bits(preset_bits); });
    if (reference.strings > most_strings || reference.strings < 2)
        return refused("refused.link_incomplete");
    const Setup usual = setup_of(reference);
    Setup setup;
    LinkReader reader(bits);
    walk_link(group, &setup, &usual, version, reader);
    if (reader.failed())
        return refused("refused.link_incomplete");
    return read_setup(write_setup(setup)); // as strictly as any document
}

} // namespace counterpull
