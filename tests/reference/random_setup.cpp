#include "tests/reference/random_setup.h"

#include <array>
#include <cmath>
#include <random>
#include <string>

namespace reference {

namespace {

using nlohmann::json;

class Dice {
  public:
    explicit Dice(std::uint64_t seed) : bits_(seed) {}
    // By hand, since the standard's distributions differ between libraries. Rounded as people write it.
    double between(double low, double high, double grain = 0.01) {
        const double u = static_cast<double>(bits_() >> 11) * 0x1.0p-53;
        return std::round((low + u * (high - low)) / grain) * grain;
    }
    int whole(int low, int high) { // both included
        return low + static_cast<int>(bits_() % static_cast<std::uint64_t>(high - low + 1));
    }
    bool chance(double share) { return between(0, 1, 1e-6) < share; }

  private:
    std::mt19937_64 bits_;
};

std::string pitch_name(int key) {
    static constexpr std::array names = {"C", "C#", "D", "Eb", "E", "F", "F#", "G", "Ab", "A", "Bb", "B"};
    return names[static_cast<std::size_t>(key % 12)] + std::to_string(key / 12 - 1);
}

// A string that pulls about 50 to 110 N at a pitch, from Mersenne's law for a solid wire.
json string_for(int key, double scale_mm, Dice& dice) {
    const double hz = 440 * std::pow(2.0, (key - 69) / 12.0);
    const double tension = dice.between(50, 110);
    const double mu = tension / std::pow(2 * scale_mm / 1000 * hz, 2);
    double gauge = std::sqrt(4 * mu / (7850 * 3.14159265)) / 0.0254;
    const bool wound = gauge > 0.019;
    gauge *= wound ? 1.06 : 1.0; // a wrap is not solid
    json s = {{"gauge_in", std::round(gauge * 2000) / 2000}, {"wound", wound}};
    const double diameter = s["gauge_in"];
    if (wound && dice.chance(0.4)) {
        s["core_in"] = std::round(diameter * dice.between(0.35, 0.5) * 10000) / 10000;
        if (dice.chance(0.5))
            s["core"] = "hex";
    }
    if (wound && dice.chance(0.3))
        s["wrap"] = dice.chance(0.5) ? "nickel" : "stainless steel";
    if (dice.chance(0.15))
        s["unit_weight_g_m"] = std::round(mu * 1e6 * dice.between(0.97, 1.03)) / 1000;
    return s;
}

json strung(std::size_t count, const json& scale, int shift, Dice& dice) {
    // Fourths and a third up to E4, more strings below and, past seven, a fourth above.
    static constexpr std::array keys = {25, 30, 35, 40, 45, 50, 55, 59, 64};
    json part = {{"tuning", json::array()}, {"strings", json::array()}};
    for (std::size_t i = 0; i < count; ++i) {
        const int key = std::max(23, keys[keys.size() - count + i] + shift);
        const double length = scale.is_array() ? scale[i].get<double>() : scale.get<double>();
        part["tuning"].push_back(pitch_name(key));
        part["strings"].push_back(string_for(key, length, dice));
    }
    if (dice.chance(0.3))
        part["offset_cents"] = dice.between(-30, 30);
    return part;
}

json spring_kind(Dice& dice) {
    return {{"rate_n_mm", dice.between(1.5, 3.2)},
            {"free_length_mm", dice.between(52, 68, 0.1)},
            {"initial_tension_n", dice.between(0, 12, 0.1)},
            {"longest_mm", dice.between(85, 115, 0.1)}};
}

json springs(std::size_t places, int count, Dice& dice) {
    json list = json::array();
    std::vector<int> hooks, holes;
    for (int i = 0; i < static_cast<int>(places); ++i) {
        hooks.push_back(i);
        holes.push_back(i);
    }
    const bool splayed = dice.chance(0.3);
    for (int i = 0; i < count; ++i) {
        const auto k = static_cast<std::size_t>(dice.whole(0, static_cast<int>(hooks.size()) - 1));
        const auto m =
            splayed ? static_cast<std::size_t>(dice.whole(0, static_cast<int>(holes.size()) - 1)) : k;
        json placed = {{"hook", hooks[k]}, {"hole", holes[m]}};
        hooks.erase(hooks.begin() + static_cast<std::ptrdiff_t>(k));
        holes.erase(holes.begin() + static_cast<std::ptrdiff_t>(m));
        if (dice.chance(0.2))
            placed["spring"] = spring_kind(dice);
        list.push_back(placed);
    }
    return list;
}

json per_string_falling(std::size_t count, double first, double last, Dice& dice) {
    json list = json::array();
    for (std::size_t i = 0; i < count; ++i)
        list.push_back(
            std::round((first + (last - first) * static_cast<double>(i) / static_cast<double>(count - 1) +
                        dice.between(-0.5, 0.5, 0.1)) *
                       10) /
            10);
    return list;
}

} // namespace

json random_setup(std::uint64_t seed) {
    Dice dice(seed);
    const auto count = static_cast<std::size_t>(dice.whole(4, 9));
    json scale = dice.between(600, 690, 0.05);
    if (dice.chance(0.25))
        scale = per_string_falling(count, dice.between(660, 700), dice.between(620, 650), dice);
    const double depth = dice.between(32, 44, 0.1), tail = dice.between(36, 60, 0.1);
    const std::size_t places = dice.chance(0.3) ? 6 : 5;
    json across = json::array();
    for (std::size_t i = 0; i < places; ++i)
        across.push_back(-24 + 48.0 * static_cast<double>(i) / static_cast<double>(places - 1));
    json guitar = {
        {"scale_mm", scale},
        {"nut_locked", dice.chance(0.4)},
        {"headstock_mm", dice.between(40, 170, 0.1)},
        {"bridge",
         {{"saddle_height_mm", dice.between(7, 12, 0.1)},
          {"saddle_setback_mm", per_string_falling(count, dice.between(13, 20), dice.between(7, 12), dice)},
          {"anchor_mm", dice.between(4, 45, 0.1)},
          {"block_depth_mm", depth},
          {"block_setback_mm", dice.between(4, 20, 0.1)},
          {"tail_mm", tail},
          {"tail_limits_mm", {-6, 16}}}},
        {"bay",
         {{"hole_mm", across},
          {"hook_mm", across},
          {"claw_depth_mm", depth + dice.between(-3, 3, 0.1)},
          {"screw_span_mm", dice.between(32, 45, 0.1)},
          {"screw_pitch_mm", dice.chance(0.5) ? 1.69 : 1.95},
          {"turns_in_left", dice.between(3, 8, 0.5)},
          {"turns_out_left", dice.between(3, 8, 0.5)}}},
        {"spring", spring_kind(dice)},
        {"springs_owned", 6}};
    if (dice.chance(0.4)) {
        guitar["held"] = "on its back";
        guitar["bridge"]["mass_g"] = dice.between(150, 500, 1);
        guitar["bridge"]["mass_setback_mm"] = dice.between(0, 15, 0.1);
    }
    json now = strung(count, scale, 0, dice);
    json next = strung(count, scale, -dice.whole(0, 5), dice);
    if (dice.chance(0.15)) { // same strings, same tuning: a correction
        next = now;
    }
    const int most = static_cast<int>(std::min<std::size_t>(places, 6));
    now["springs"] = springs(places, dice.whole(2, most), dice);
    now["tail_mm"] = dice.between(-2.5, 2.5, 0.1);
    if (dice.chance(0.15)) {
        now.erase("strings");
        now.erase("tuning");
        now.erase("offset_cents");
        now["in_tune"] = false;
        now["spring_mm"] = json::array();
        for (std::size_t i = 0; i < now["springs"].size(); ++i)
            now["spring_mm"].push_back(dice.between(72, 82, 0.5));
    }
    next["tail_mm"] = dice.between(-1, 2, 0.1);
    json setup = {{"format", "counterpull-setup/1"}, {"guitar", guitar}, {"now", now}, {"next", next}};
    if (dice.chance(0.3))
        setup["a4_hz"] = dice.between(430, 445, 1);
    return setup;
}

} // namespace reference
