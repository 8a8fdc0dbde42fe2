// The balance of the bridge: strings raise the tail, springs lower it.
//
// Everything is a torque about the pivot in the sense of θ (+ raises the tail), in N·m. By virtual work the
// torque of a pull F along a line of length ℓ(θ) is −F ℓ'(θ) (see bridge.h), so
//     τ(θ) = −Σ T_i L_i'(θ) − Σ F_j ℓ_j'(θ) − W s cos θ
// with string tensions T, spring forces F, and the bridge's weight W at setback s where the guitar lies on
// its back. Two laws for T:
//   at pitch  the tuning is the constant: T_i follows from its pitch and L_i(θ); what a retuned bridge obeys;
//   free      the tuner is not touched: T_i follows from its unstretched length n_i; what happens between
//             two tunings.
// A balance is stable where τ falls as θ grows. At pitch it need not be: then the bridge stands still at any
// moment, but retuning runs away.
// Nothing here allocates, but for `cents_shown`.
#pragma once

#include "engine/mechanics/bridge.h"
#include "engine/mechanics/guitar_string.h"
#include "engine/mechanics/root.h"
#include "engine/mechanics/spring.h"

#include <array>
#include <optional>
#include <span>
#include <vector>

namespace counterpull {

// One string on its saddle.
struct StringOnBridge {
    StringMechanics mechanics;
    double frequency_hz = 0.0;
    double scale_m = 0.0; // speaking length when level
    double saddle_height_m = 0.0;
    double saddle_setback_m = 0.0;
    double dead_m = 0.0; // length that stretches but does not speak
    Point saddle() const { return {-saddle_setback_m, saddle_height_m}; }
    Point nut() const { return {scale_m - saddle_setback_m, saddle_height_m}; }
};

// One spring between its hole in the block and its hook on the claw.
struct SpringOnBridge {
    Spring spring;
    double hole_z_m = 0.0;
    double hook_z_m = 0.0;
};

// A bridge with what pulls at it. Strings run from the lowest to the highest.
struct Assembly {
    Bridge bridge;
    Claw claw;
    int string_count = 0;
    std::array<StringOnBridge, most_strings> strings;
    int spring_count = 0;
    std::array<SpringOnBridge, most_springs> springs;
    double unexplained_nm = 0.0; // a constant torque that a reading shows and nothing above explains
    std::span<const StringOnBridge> strung() const {
        return {strings.data(), static_cast<std::size_t>(string_count)};
    }
    std::span<const SpringOnBridge> sprung() const {
        return {springs.data(), static_cast<std::size_t>(spring_count)};
    }
};

// Unstretched length of each string, in metres: what a tuner sets.
using StringLengths = std::array<double, most_strings>;

// A balance is taken as reached where the net torque is below this share of `string_torque_scale_nm`. At
// 1e-11 the tail is known to about 1e-9 mm; doubles would allow 1e-14.
inline constexpr double balance_tolerance = 1e-11;
// A bracket this narrow across which the sign still changes is a spring's jump: in rad, and in turns.
inline constexpr double jump_width = 1e-13;
inline constexpr double jump_width_turns = 1e-11;

// Torque of all strings at pitch, of all strings with their tuners untouched, of all springs, and of the
// weight (with what is unexplained), each with its derivative by θ.
Sample string_torque_at_pitch(const StringOnBridge& string, const Attitude& attitude); // of one string
Sample string_torque_at_pitch(const Assembly& assembly, const Attitude& attitude);
Sample string_torque_free(const Assembly& assembly, const StringLengths& lengths, const Attitude& attitude);
Sample spring_torque(const Assembly& assembly, const ClawSetting& claw, const Attitude& attitude);
Sample weight_torque(const Assembly& assembly, const Attitude& attitude);
// Derivative of the springs' torque by one more turn of both screws, N·m per turn.
double spring_torque_per_turn(const Assembly& assembly, const ClawSetting& claw, const Attitude& attitude);

Sample net_torque_at_pitch(const Assembly& assembly, const ClawSetting& claw, double angle_rad);
Sample net_torque_free(const Assembly& assembly, const StringLengths& lengths, const ClawSetting& claw,
                       double angle_rad);

// The torque that strings at pitch would have with their whole saddle radius as lever arm, Σ T |S|: the
// measure of a residual. It does not vanish where the real arms do.
double string_torque_scale_nm(const Assembly& assembly, const Attitude& attitude);

// Speaking length of one string, its tension at pitch, and with its tuner untouched (0 where it is slack);
// length of one spring.
double speaking_length_m(const StringOnBridge& string, const Attitude& attitude);
double tension_at_pitch_n(const StringOnBridge& string, const Attitude& attitude);
double tension_free_n(const StringOnBridge& string, double unstretched_m, const Attitude& attitude);
double spring_length_m(const Assembly& assembly, const SpringOnBridge& spring, const ClawSetting& claw,
                       const Attitude& attitude);
// Unstretched lengths of all strings when tuned to pitch at an attitude.
StringLengths lengths_at_pitch(const Assembly& assembly, const Attitude& attitude);

// What the tuner shows for a string, or for each, with its tuner untouched, in cents against its own pitch, +
// sharp; lowest first. A slack string shows what its stiffness alone would sound.
double cents_shown(const StringOnBridge& string, double unstretched_m, const Attitude& attitude);
std::vector<double> cents_shown(const Assembly& assembly, const StringLengths& lengths,
                                const Attitude& attitude);

enum class RestKind {
    floats,         // the torque vanishes
    spring_closed,  // it floats where a spring has just closed: the torque jumps across zero
    tail_up_stop,   // the strings hold the bridge against its upper stop
    tail_down_stop, // the springs hold it against its lower stop
};

// Where a bridge comes to rest. `per_turn_m`: change of the tail for one more turn in of both screws,
// d(tail)/d(turns), negative for a stable float; 0 at a stop, where a spring has just closed, and where
// the tuners are not all at pitch: `rest_at_pitch` alone tells it.
struct Rest {
    RestKind kind = RestKind::floats;
    double angle_rad = 0.0;
    bool stable = true; // the torque falls as θ grows; true at a stop
    double per_turn_m = 0.0;
    RootStatus status = RootStatus::converged;
    int iterations = 0;
    double residual = 0.0; // net torque over string_torque_scale_nm; at a stop the torque held there
    bool at_stop() const { return kind == RestKind::tail_up_stop || kind == RestKind::tail_down_stop; }
};

// Brought to pitch from an attitude, the bridge follows the sign of the net torque to the first angle where
// that vanishes, or to the stop. `from_rad` must lie within the travel.
Rest rest_at_pitch(const Assembly& assembly, const ClawSetting& claw, double from_rad);
// The same with the tuners untouched.
Rest rest_free(const Assembly& assembly, const StringLengths& lengths, const ClawSetting& claw,
               double from_rad);

// Either law, string by string: a string with a pitch above zero is kept there at every attitude (being
// tuned, or bent until it sounds that), the others have their unstretched length.
struct Tuners {
    StringLengths lengths_m{};
    std::array<double, most_strings> pitch_hz{};
};
Tuners all_at_pitch(const Assembly& assembly);
Tuners untouched(const StringLengths& lengths);
// `lengths` but for one string (by its place, lowest 0), which sounds `pitch_hz`.
Tuners one_at_pitch(const StringLengths& lengths, int string, double pitch_hz);

Sample net_torque(const Assembly& assembly, const Tuners& tuners, const ClawSetting& claw, double angle_rad);
Rest rest(const Assembly& assembly, const Tuners& tuners, const ClawSetting& claw, double from_rad);
// The same near a guess, by Newton's steps alone; falls back on `rest` from `from_rad` where they do not
// settle within the travel at a stable float. For repeated balances that differ little.
Rest rest_near(const Assembly& assembly, const Tuners& tuners, const ClawSetting& claw, double guess_rad,
               double from_rad);
// Lengths of all strings as they are at an attitude: those at pitch take the length that this gives them.
StringLengths lengths_as_tuned(const Assembly& assembly, const Tuners& tuners, const Attitude& attitude);

// d(tail)/d(turns of both screws) at pitch for a bridge that floats at an angle, m per turn.
double tail_per_turn_m(const Assembly& assembly, const ClawSetting& claw, double angle_rad);

// The same with the claw wherever it holds the bridge at that angle, with its sign also where it is not
// stable; nothing where no claw position does.
std::optional<double> tail_per_turn_balanced_m(const Assembly& assembly, double angle_rad);

// The turns of both screws, from `claw`, at which the springs balance a torque at an attitude. `opposing` is
// the torque to balance, + raising the tail, above zero.
//   converged       found; the residual is a share of `opposing`
//   jump            a spring has just closed there: no exact balance
//   no_sign_change  no claw position balances it
Root turns_to_balance(const Assembly& assembly, const ClawSetting& claw, const Attitude& attitude,
                      double opposing_nm);

// The same for the strings at pitch and the weight: the claw for a wanted attitude, and, where the bridge is
// in tune at a known attitude, the claw as it is.
Root turns_for_attitude(const Assembly& assembly, const ClawSetting& claw, double angle_rad);

} // namespace counterpull
