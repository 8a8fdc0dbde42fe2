#include "engine/document/document.h"
#include "engine/document/model.h"
#include "engine/mechanics/balance.h"
#include "tests/properties/properties.h"
#include "tests/reference/random_setup.h"

#include <algorithm>
#include <cmath>
#include <random>

namespace properties {

using namespace counterpull;

namespace {

constexpr int balances_a_guitar = 25;
// Two ways to one balance differ by rounding only, larger where little holds the bridge (at a fold nothing).
constexpr double same_torque = 1e-9; // as a share of string_torque_scale_nm
constexpr double no_less_rad = 1e-11;

// The same on every platform for the same seed.
class Dice {
  public:
    explicit Dice(std::uint64_t seed) : bits_(seed) {}
    double between(double low, double high) {
        return low + static_cast<double>(bits_() >> 11) * 0x1.0p-53 * (high - low);
    }

  private:
    std::mt19937_64 bits_;
};

std::string name_of(const Rest& rest) {
    switch (rest.kind) {
    case RestKind::floats:
        return "floats";
    case RestKind::spring_closed:
        return "floats where a spring closes";
    case RestKind::tail_up_stop:
        return "pulled to the upper stop";
    case RestKind::tail_down_stop:
        return "held down on the lower stop";
    }
    return {};
}

Assembly mirrored(Assembly assembly) {
    for (SpringOnBridge& spring : assembly.springs) {
        spring.hole_z_m = -spring.hole_z_m;
        spring.hook_z_m = -spring.hook_z_m;
    }
    return assembly;
}

// All lengths `factor` times as long, of the same materials, the pitches 1/factor as high: every angle is the
// same. A wire's stiffness goes with its section, lengths², its bending stiffness with lengths⁴, weight per
// length with lengths²; so a string's pull µ(2Lf)² goes with lengths², and a spring's rate, a pull by a
// length, with lengths.
Assembly scaled(Assembly assembly, double factor) {
    const double square = factor * factor;
    Bridge& bridge = assembly.bridge;
    for (double* length : {&bridge.block_depth_m, &bridge.block_setback_m, &bridge.tail_m, &bridge.tail_low_m,
                           &bridge.tail_high_m, &bridge.weight_setback_m, &assembly.claw.depth_m,
                           &assembly.claw.screw_span_m, &assembly.claw.screw_pitch_m})
        *length *= factor;
    bridge.weight_n *= square;
    for (StringOnBridge& string : assembly.strings) {
        string.mechanics.unit_weight_kg_m *= square;
        string.mechanics.axial_stiffness_n *= square;
        string.mechanics.bending_stiffness_n_m2 *= square * square;
        string.frequency_hz /= factor;
        for (double* length :
             {&string.scale_m, &string.saddle_height_m, &string.saddle_setback_m, &string.dead_m})
            *length *= factor;
    }
    for (SpringOnBridge& spring : assembly.springs) {
        spring.spring.rate_n_m *= factor;
        spring.spring.initial_tension_n *= square;
        spring.spring.free_length_m *= factor;
        spring.hole_z_m *= factor;
        spring.hook_z_m *= factor;
    }
    return assembly;
}

class OneBalance {
  public:
    OneBalance(const Assembly& assembly, const ClawSetting& claw, double from_rad, std::uint64_t seed,
               Tally& tally)
        : assembly_(assembly), claw_(claw), from_rad_(from_rad), seed_(seed), tally_(tally),
          rest_(rest_at_pitch(assembly, claw, from_rad)) {}

    void look() {
        tally_.count("balance " + name_of(rest_));
        residual();
        nothing_before();
        mirror();
        monotone();
    }
    const Rest& rest() const { return rest_; }

    // Of the same guitar at another size.
    void same_attitude(const Assembly& larger, const ClawSetting& claw) {
        const Rest there = rest_at_pitch(larger, claw, from_rad_);
        check(there.kind == rest_.kind && same(there.angle_rad), "every angle stays where all is scaled");
    }

  private:
    void check(bool holds, const char* property) { tally_.check(holds, property, seed_); }
    double torque(double angle_rad) const { return net_torque_at_pitch(assembly_, claw_, angle_rad).value; }
    double scale(double angle_rad) const { return string_torque_scale_nm(assembly_, Attitude(angle_rad)); }
    // The same balance, or one at which the torque vanishes just as well.
    bool same(double angle_rad) const {
        return std::abs(angle_rad - rest_.angle_rad) < 1e-10 ||
               std::abs(torque(angle_rad)) < same_torque * scale(angle_rad);
    }

    void residual() {
        const double here = torque(rest_.angle_rad) / scale(rest_.angle_rad);
        constexpr double beside = 2.0 * jump_width;
        switch (rest_.kind) {
        case RestKind::floats:
            return check(std::abs(here) <= balance_tolerance, "the torque vanishes where it floats");
        case RestKind::spring_closed:
            return check(torque(rest_.angle_rad - beside) > 0.0 && torque(rest_.angle_rad + beside) < 0.0,
                         "the torque changes its sign where a spring closes");
        case RestKind::tail_up_stop:
            return check(here > 0.0, "the strings hold it at the upper stop");
        case RestKind::tail_down_stop:
            return check(here < 0.0, "the springs hold it at the lower stop");
        }
    }

    // From where it started the torque drives it all the way to where it rests.
    void nothing_before() {
        const double start = torque(from_rad_);
        bool driven = true;
        for (int i = 1; i < 8; ++i) {
            const double way = static_cast<double>(i) / 8.0;
            const double here = torque(from_rad_ + way * (rest_.angle_rad - from_rad_));
            driven = driven && (here > 0.0) == (start > 0.0);
        }
        check(driven || std::abs(start) <= balance_tolerance * scale(from_rad_),
              "the torque drives it all the way there");
    }

    void mirror() {
        const ClawSetting swapped{claw_.x_m, claw_.treble_turns, claw_.bass_turns};
        const Rest there = rest_at_pitch(mirrored(assembly_), swapped, from_rad_);
        check(there.kind == rest_.kind && same(there.angle_rad),
              "bass and treble exchanged, it rests the same");
    }

    void monotone() {
        const Rest tighter = rest_at_pitch(assembly_, claw_.turned(0.25), from_rad_);
        check(tighter.angle_rad <= rest_.angle_rad + no_less_rad, "tighter screws never raise the tail");
        if (assembly_.spring_count < most_springs) {
            Assembly more = assembly_;
            more.springs[static_cast<std::size_t>(more.spring_count)] = more.springs[0];
            ++more.spring_count;
            check(rest_at_pitch(more, claw_, from_rad_).angle_rad <= rest_.angle_rad + no_less_rad,
                  "one more spring never raises the tail");
        }
        Assembly sharper = assembly_;
        for (StringOnBridge& string : sharper.strings)
            string.frequency_hz *= std::exp2(20.0 / 1200.0);
        check(rest_at_pitch(sharper, claw_, from_rad_).angle_rad >= rest_.angle_rad - no_less_rad,
              "higher tuning never lowers the tail");
    }

    const Assembly& assembly_;
    ClawSetting claw_;
    double from_rad_;
    std::uint64_t seed_;
    Tally& tally_;
    Rest rest_;
};

} // namespace

void try_balances(long count, Tally& tally) {
    for (std::uint64_t seed = 1; count > 0; ++seed) {
        const SetupRead read = read_setup(reference::random_setup(seed).dump());
        tally.check(read.setup.has_value(), "random guitars are within the ranges", seed);
        if (!read.setup)
            continue;
        const Setup& setup = *read.setup;
        Problems problems;
        const std::optional<ClawSetting> now = checked_claw_now(setup, problems);
        if (!now) {
            tally.count("guitar that cannot be as it says");
            continue;
        }
        Dice dice(seed);
        const double factor = dice.between(0.8, 1.25);
        const Assembly assembly = assembly_of(setup, fitting_next(setup, setup.now.springs));
        const Assembly larger = scaled(assembly, factor);
        const double low = lowest_angle_rad(assembly.bridge), high = highest_angle_rad(assembly.bridge);
        for (int i = 0; i < balances_a_guitar && count > 0; ++i, --count) {
            ClawSetting claw =
                now->turned(dice.between(-setup.guitar.bay.turns_out_left, setup.guitar.bay.turns_in_left));
            claw.bass_turns += dice.between(-0.5, 0.5);
            OneBalance balance(assembly, claw, dice.between(low, high), seed, tally);
            balance.look();
            balance.same_attitude(larger, {claw.x_m * factor, claw.bass_turns, claw.treble_turns});
        }
    }
}

} // namespace properties
