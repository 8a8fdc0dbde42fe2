#include "engine/whatif/disturbance.h"

#include "engine/base/units.h"

#include <cmath>

namespace counterpull {

namespace {

// On its stop the screws hold more than a balance.
bool rests_on_stop(const Stand& stand) {
    const Rest rest = rest_at_pitch(stand.assembly, stand.claw, stand.angle_rad);
    return rest.at_stop() && std::abs(rest.angle_rad - stand.angle_rad) < 1e-9;
}

// The claw that holds `assembly` at pitch where `stand` stood.
void set_right(const Stand& stand, const Assembly& assembly, Loss& loss) {
    loss.retuned_tail_m =
        tail_at_angle_m(assembly.bridge, rest_at_pitch(assembly, stand.claw, stand.angle_rad).angle_rad);
    if (rests_on_stop(stand))
        return;
    const Root turns = turns_for_attitude(assembly, stand.claw, stand.angle_rad);
    if (turns.found())
        loss.turns = turns.at;
}

} // namespace

Loss without_string(const Stand& stand, int string) {
    Stand left = stand;
    const auto place = static_cast<std::size_t>(string);
    for (std::size_t i = place + 1; i < stand.assembly.strung().size(); ++i) {
        left.assembly.strings[i - 1] = stand.assembly.strings[i];
        left.lengths_m[i - 1] = stand.lengths_m[i];
    }
    --left.assembly.string_count;
    Loss loss;
    loss.moved = moved(left, untouched(left.lengths_m));
    loss.moved.cents.insert(loss.moved.cents.begin() + string, std::nullopt);
    set_right(stand, left.assembly, loss);
    return loss;
}

Loss with_string_at(const Stand& stand, int string, double by_cents) {
    const auto place = static_cast<std::size_t>(string);
    Loss loss;
    Stand other = stand;
    double& pitch = other.assembly.strings[place].frequency_hz;
    pitch *= std::exp2(by_cents / 1200.0);
    loss.moved = moved(other, one_at_pitch(stand.lengths_m, string, pitch));
    set_right(stand, other.assembly, loss);
    return loss;
}

Moved turned_over(const Stand& stand, bool lies, double mass_kg, double setback_m) {
    Stand over = stand;
    Bridge& bridge = over.assembly.bridge;
    bridge.weight_n += (lies ? -1.0 : 1.0) * mass_kg * standard_gravity_m_s2;
    bridge.weight_setback_m = setback_m;
    return moved(over, untouched(stand.lengths_m));
}

Moved warmer(const Stand& stand, double by_kelvin) {
    Stand warm = stand;
    const double steel = 1.0 + steel_expansion_per_k * by_kelvin,
                 wood = 1.0 + wood_expansion_per_k * by_kelvin,
                 modulus = 1.0 + steel_modulus_per_k * by_kelvin;
    for (std::size_t i = 0; i < stand.assembly.strung().size(); ++i) {
        StringOnBridge& string = warm.assembly.strings[i];
        warm.lengths_m[i] *= steel;
        string.mechanics.unit_weight_kg_m /= steel;
        string.mechanics.axial_stiffness_n *= modulus;
        string.mechanics.bending_stiffness_n_m2 *= modulus;
        string.scale_m = (string.nut().x * wood) + string.saddle_setback_m;
        string.dead_m *= wood;
    }
    for (SpringOnBridge& on : warm.assembly.springs) {
        on.spring.free_length_m *= steel;
        on.spring.rate_n_m *= modulus;
        on.spring.initial_tension_n *= modulus;
    }
    warm.claw.x_m *= wood;
    return moved(warm, untouched(warm.lengths_m));
}

} // namespace counterpull
