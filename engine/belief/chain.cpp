#include "engine/belief/chain.h"

#include "engine/base/units.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

double z_of(const Deviations& z, Unknown unknown) {
    return z[static_cast<std::size_t>(unknown)];
}

} // namespace

Columns Columns::all() {
    Columns columns;
    for (int u = 0; u < most_unknowns; ++u)
        columns.of[static_cast<std::size_t>(u)] = u;
    return columns;
}

std::vector<double> Columns::row_of(const Deviations& derivatives, std::size_t width) const {
    std::vector<double> row(width);
    for (std::size_t u = 0; u < derivatives.size(); ++u)
        if (of[u] >= 0)
            row[static_cast<std::size_t>(of[u])] = derivatives[u];
    return row;
}

double dot(ConstDerivatives a, ConstDerivatives b) {
    double sum = 0.0;
    for (std::size_t i = 0; i < a.size(); ++i)
        sum += a[i] * b[i];
    return sum;
}

void add_scaled(double factor, ConstDerivatives what, Derivatives to) {
    for (std::size_t i = 0; i < to.size(); ++i)
        to[i] += factor * what[i];
}

Chain::Chain(const Belief& belief, const Fitting& fitting, const Assembly& assembly, const Deviations& z,
             const Columns& columns)
    : columns_(columns) {
    auto per_z = [&](Unknown unknown, double metres) {
        return metres_from_mm(belief.spread(unknown).slope(mm_from_metres(metres), z_of(z, unknown)));
    };
    block_depth_ = per_z(Unknown::block_depth, assembly.bridge.block_depth_m);
    block_setback_ = per_z(Unknown::block_setback, assembly.bridge.block_setback_m);
    screw_pitch_ = per_z(Unknown::screw_pitch, assembly.claw.screw_pitch_m);
    for (std::size_t i = 0; i < assembly.strung().size(); ++i)
        strings_[i] = string_per(belief, fitting, assembly.strings[i], i, z);
    rate_ = belief.spread(Unknown::spring_rate).share;
    initial_tension_ = belief.spread(Unknown::initial_tension).share;
    free_length_ = metres_from_mm(belief.spread(Unknown::free_length).absolute);
}

Chain::StringPer Chain::string_per(const Belief& belief, const Fitting& fitting, const StringOnBridge& string,
                                   std::size_t index, const Deviations& z) const {
    auto per_z = [&](Unknown unknown, double metres) {
        return metres_from_mm(belief.spread(unknown).slope(mm_from_metres(metres), z_of(z, unknown)));
    };
    StringPer per;
    const int weight = belief.weight_index(fitting, index);
    const double weight_z = weight < 0 ? 0.0 : z[static_cast<std::size_t>(weight)];
    per.weight_column = weight < 0 ? -1 : columns_.of[static_cast<std::size_t>(weight)];
    per.weight = weight_share * string.mechanics.unit_weight_kg_m;
    per.height = per_z(Unknown::saddle_height, string.saddle_height_m);
    per.setback = per_z(Unknown::saddle_setback, string.saddle_setback_m);
    per.dead = belief.dead_per_z_m(index, z_of(z, Unknown::dead_length));
    StringBuild build = build_of(fitting.strings[index]);
    if (build.wound && !build.core_m) {
        const double core_z = z_of(z, Unknown::core);
        const double core_m = belief.spread(Unknown::core).at(estimated_core_m(build.diameter_m), core_z);
        if (core_m >= thickest_core * build.diameter_m)
            return per; // held there
        build.core_m = core_m;
        const double core_per_z = belief.spread(Unknown::core).slope(core_m, core_z);
        per.core = mechanics_per_core_m(build);
        per.core.unit_weight_kg_m *= core_per_z * std::exp(weight_share * weight_z);
        per.core.axial_stiffness_n *= core_per_z;
        per.core.bending_stiffness_n_m2 *= core_per_z;
    }
    return per;
}

void Chain::put(Unknown unknown, double amount, Derivatives row) const {
    if (const int column = columns_[unknown]; column >= 0)
        row[static_cast<std::size_t>(column)] += amount;
}

void Chain::add(std::size_t string, const StringPartials& by, double factor, Derivatives row) const {
    const StringPer& per = strings_[string];
    if (per.weight_column >= 0)
        row[static_cast<std::size_t>(per.weight_column)] += factor * by.unit_weight * per.weight;
    put(Unknown::core,
        factor *
            (by.unit_weight * per.core.unit_weight_kg_m + by.axial_stiffness * per.core.axial_stiffness_n +
             by.bending_stiffness * per.core.bending_stiffness_n_m2),
        row);
    put(Unknown::saddle_height, factor * by.saddle_height * per.height, row);
    put(Unknown::saddle_setback, factor * by.saddle_setback * per.setback, row);
    put(Unknown::dead_length, factor * by.dead * per.dead, row);
}

void Chain::add(const Spring& spring, const SpringPartials& by, double factor, Derivatives row) const {
    put(Unknown::spring_rate, factor * by.rate * rate_ * spring.rate_n_m, row);
    put(Unknown::initial_tension, factor * by.initial_tension * initial_tension_ * spring.initial_tension_n,
        row);
    put(Unknown::free_length, factor * by.free_length * free_length_, row);
    add_block(factor * by.block_depth, factor * by.block_setback, row);
}

void Chain::add_screw_pitch(double by_pitch, Derivatives row) const {
    put(Unknown::screw_pitch, by_pitch * screw_pitch_, row);
}

void Chain::add_block(double by_depth, double by_setback, Derivatives row) const {
    put(Unknown::block_depth, by_depth * block_depth_, row);
    put(Unknown::block_setback, by_setback * block_setback_, row);
}

// tail = d sin θ + error, so dθ = d(error)/(d cos θ).
double angle_now_per_z(const Belief& belief, double angle_rad) {
    return belief.spread(Unknown::tail_now).absolute /
           (belief.setup().guitar.bridge.tail_mm * std::cos(angle_rad));
}

void add_torque_at_pitch(const Assembly& assembly, const Chain& chain, const Attitude& attitude,
                         double factor, Derivatives row) {
    for (std::size_t i = 0; i < assembly.strung().size(); ++i)
        chain.add(i,
                  torque_partials_at_pitch(assembly.strings[i], assembly.strings[i].frequency_hz, attitude),
                  factor, row);
}

double add_spring_torque(const Assembly& assembly, const Chain& chain, const ClawSetting& claw,
                         const Attitude& attitude, double factor, Derivatives row) {
    double per_x = 0.0, per_pitch = 0.0;
    for (const SpringOnBridge& spring : assembly.sprung()) {
        const SpringPartials by = torque_partials(assembly, spring, claw, attitude);
        chain.add(spring.spring, by, factor, row);
        per_x += by.hook_x;
        per_pitch += by.hook_x * turns_at(assembly.claw, claw, spring.hook_z_m);
    }
    chain.add_screw_pitch(factor * per_pitch, row);
    return per_x;
}

namespace {

// One spring of length ℓ says x = hole.x + √(ℓ² − up² − across²), up = −claw depth − hole.y, so with `along`
// the root
//     dx = d(hole.x) + (ℓ dℓ + up d(hole.y))/along.
// The hole, (−setback, −depth) when level, moves with the block and, as the bridge tilts, by
// (hole.y, −hole.x) per radian.
void add_claw_by_lengths(const Belief& belief, const Assembly& now, const Chain& chain, const Deviations& z,
                         Derivatives row) {
    const double angle = belief.angle_now_rad(z);
    const Attitude attitude(angle);
    const Point hole = attitude.of(now.bridge.block());
    const Columns& columns = chain.columns();
    const double share = 1.0 / static_cast<double>(now.spring_count);
    const double angle_per_z = angle_now_per_z(belief, angle);
    const double error_mm = belief.spread(Unknown::springs_now).at(0.0, z_of(z, Unknown::springs_now));
    const double length_per_z = metres_from_mm(belief.spread(Unknown::springs_now).absolute);
    auto put = [&](Unknown unknown, double amount) {
        if (const int column = columns[unknown]; column >= 0)
            row[static_cast<std::size_t>(column)] += share * amount;
    };
    for (std::size_t i = 0; i < now.sprung().size(); ++i) {
        const SpringOnBridge& spring = now.springs[i];
        const double length = metres_from_mm((*belief.setup().now.spring_mm)[i] + error_mm);
        const double up = -now.claw.depth_m - hole.y, across = spring.hook_z_m - spring.hole_z_m;
        const double along = std::sqrt(length * length - up * up - across * across);
        const double by_hole_y = up / along; // and 1 by hole.x
        chain.add_block(share * (-attitude.sine - by_hole_y * attitude.cosine),
                        share * (-attitude.cosine + by_hole_y * attitude.sine), row);
        put(Unknown::tail_now, (hole.y - by_hole_y * hole.x) * angle_per_z);
        put(Unknown::springs_now, length / along * length_per_z);
    }
}

} // namespace

void add_claw_now(const Belief& belief, const Assembly& now, const Chain& chain, const ClawSetting& claw,
                  const Deviations& z, Derivatives row) {
    if (claw_from_spring_lengths(belief.setup()))
        return add_claw_by_lengths(belief, now, chain, z, row);
    const double angle = belief.angle_now_rad(z);
    const Attitude attitude(angle);
    const double per_x = spring_torque_per_turn(now, claw, attitude) / now.claw.screw_pitch_m;
    if (per_x == 0.0)
        return; // every spring is closed: no reading says where the claw is
    add_torque_at_pitch(now, chain, attitude, -1.0 / per_x, row);
    add_spring_torque(now, chain, claw, attitude, -1.0 / per_x, row);
    if (const int column = chain.columns()[Unknown::friction_now]; column >= 0)
        row[static_cast<std::size_t>(column)] -= belief.spread(Unknown::friction_now).absolute / per_x;
    if (const int column = chain.columns()[Unknown::tail_now]; column >= 0)
        row[static_cast<std::size_t>(column)] -=
            net_torque_at_pitch(now, claw, angle).slope * angle_now_per_z(belief, angle) / per_x;
}

} // namespace counterpull
