#include "engine/belief/belief.h"

#include "engine/base/units.h"
#include "engine/belief/standing.h"
#include "engine/document/fields.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

constexpr double core_share = 0.08;

Basis basis_of(const GuitarSetup& guitar, std::string_view path) {
    for (const auto& [at, basis] : guitar.basis)
        if (at == path)
            return basis;
    return Basis::usual;
}

Spread by_basis(const GuitarSetup& guitar, const UncertainField& known) {
    const Prior& prior = known.field->prior;
    switch (basis_of(guitar, known.path)) {
    case Basis::measured:
        return {prior.measured.share, prior.measured.absolute};
    case Basis::guess:
        return {2.0 * prior.usual.share, 2.0 * prior.usual.absolute};
    case Basis::usual:
        break;
    }
    return {prior.usual.share, prior.usual.absolute};
}

double z_of(const Deviations& z, Unknown unknown) {
    return z[static_cast<std::size_t>(unknown)];
}

// A number in metres whose spread is given in the document's millimetres.
double moved_m(double metres, Spread spread, double z) {
    return metres_from_mm(spread.at(mm_from_metres(metres), z));
}

} // namespace

double Spread::at(double value, double z) const {
    return value * std::exp(share * z) + absolute * z;
}

double Spread::size_at(double value) const {
    return std::abs(value) * share + absolute;
}

std::string_view path_of(Unknown unknown) {
    for (const UncertainField& known : uncertain_fields())
        if (known.field->prior.unknown == unknown)
            return known.path;
    return "";
}

double friction_sigma_nm(const GuitarSetup& guitar) {
    return friction_nm_per_cent * return_cents(guitar) / std::sqrt(3.0);
}

Belief::Belief(const Setup& setup) : Belief(setup, Deviations{}) {
    standing_ = Standing(*this).row({});
}

Belief::Belief(const Setup& setup, const Deviations& standing) : setup_(&setup), standing_(standing) {
    for (const UncertainField& known : uncertain_fields()) {
        const Spread spread = by_basis(setup.guitar, known);
        if (known.field->prior.unknown)
            spreads_[static_cast<std::size_t>(*known.field->prior.unknown)] = spread;
        else
            headstock_ = spread; // the one that moves with another's unknown
    }
    anchor_ = spread(Unknown::dead_length);
    spreads_[static_cast<std::size_t>(Unknown::core)] = {core_share, 0.0};
    spreads_[static_cast<std::size_t>(Unknown::tail_now)] = {0.0, tail_reading_mm};
    spreads_[static_cast<std::size_t>(Unknown::friction_now)] = {0.0, friction_sigma_nm(setup.guitar)};
    spreads_[static_cast<std::size_t>(Unknown::springs_now)] = {
        0.0, spring_reading_mm / std::sqrt(static_cast<double>(setup.now.springs.size()))};
    spreads_[static_cast<std::size_t>(Unknown::screws_now)] = {0.0, screw_reading_turns};
    for (std::size_t i = 0; i < setup.next.strings.size(); ++i)
        stays_[i] = i < setup.now.strings.size() && setup.now.strings[i] == setup.next.strings[i];
}

int Belief::weight_index(Which strings, std::size_t string) const {
    const bool now = strings == Which::now || stays_[string];
    return common_unknowns + static_cast<int>(string) + (now ? 0 : most_strings);
}

int Belief::weight_index(const Fitting& fitting, std::size_t string) const {
    if (fitting.which)
        return weight_index(*fitting.which, string);
    const StringSetup& own = fitting.strings[string];
    if (string < setup_->now.strings.size() && setup_->now.strings[string] == own)
        return weight_index(Which::now, string);
    return setup_->next.strings[string] == own ? weight_index(Which::next, string) : -1;
}

bool Belief::used(int unknown) const {
    const int string = (unknown - common_unknowns) % most_strings;
    if (unknown == static_cast<int>(Unknown::screws_now)) // turned and turned back, they are off as well
        return std::any_of(setup_->log.begin(), setup_->log.end(),
                           [](const Reading& entry) { return entry.turns != std::array<double, 2>{}; });
    if (unknown == static_cast<int>(Unknown::friction_now))
        return !claw_from_spring_lengths(*setup_); // lengths say where the claw is whatever holds the bridge
    if (unknown < common_unknowns)
        return true;
    if (string >= static_cast<int>(setup_->next.strings.size()))
        return false;
    const bool next = unknown >= common_unknowns + most_strings;
    return next ? !stays_[static_cast<std::size_t>(string)]
                : string < static_cast<int>(setup_->now.strings.size());
}

Assembly Belief::assembly(const Fitting& fitting, const Deviations& z) const {
    Assembly assembly = assembly_of(*setup_, fitting);
    Bridge& bridge = assembly.bridge;
    auto moved = [&](double metres, Unknown unknown) {
        return moved_m(metres, spread(unknown), z_of(z, unknown));
    };
    bridge.block_depth_m = moved(bridge.block_depth_m, Unknown::block_depth);
    bridge.block_setback_m = moved(bridge.block_setback_m, Unknown::block_setback);
    assembly.claw.screw_pitch_m = moved(assembly.claw.screw_pitch_m, Unknown::screw_pitch);
    const double core_z = z_of(z, Unknown::core), dead_z = z_of(z, Unknown::dead_length);
    for (std::size_t i = 0; i < assembly.strung().size(); ++i) {
        StringOnBridge& string = assembly.strings[i];
        string.saddle_height_m = moved(string.saddle_height_m, Unknown::saddle_height);
        string.saddle_setback_m = moved(string.saddle_setback_m, Unknown::saddle_setback);
        string.dead_m = dead_m(i, dead_z);
        StringBuild build = build_of(fitting.strings[i]);
        if (build.wound && !build.core_m && core_z != 0.0) {
            build.core_m = std::min(spread(Unknown::core).at(estimated_core_m(build.diameter_m), core_z),
                                    thickest_core * build.diameter_m);
            string.mechanics = mechanics_of(build);
        }
        if (const int weight = weight_index(fitting, i); weight >= 0)
            string.mechanics.unit_weight_kg_m *= std::exp(weight_share * z[static_cast<std::size_t>(weight)]);
    }
    for (std::size_t i = 0; i < assembly.sprung().size(); ++i) {
        Spring& spring = assembly.springs[i].spring;
        spring.free_length_m = std::max(0.0, moved(spring.free_length_m, Unknown::free_length));
        // These spreads are relative: the unit does not matter.
        spring.rate_n_m = spread(Unknown::spring_rate).at(spring.rate_n_m, z_of(z, Unknown::spring_rate));
        spring.initial_tension_n =
            spread(Unknown::initial_tension).at(spring.initial_tension_n, z_of(z, Unknown::initial_tension));
    }
    return assembly;
}

double Belief::dead_m(std::size_t string, double z, bool nut_clamped) const {
    const GuitarSetup& guitar = setup_->guitar;
    const double open_mm = nut_clamped ? 0.0 : headstock_.at(guitar.headstock_mm.at(string), z);
    return std::max(0.0, metres_from_mm(anchor_.at(guitar.bridge.anchor_mm.at(string), z) + open_mm));
}

double Belief::dead_per_z_m(std::size_t string, double z) const {
    const GuitarSetup& guitar = setup_->guitar;
    if (dead_m(string, z) <= 0.0)
        return 0.0; // held there
    auto per_z = [z](Spread spread, double mm) { return spread.slope(spread.at(mm, z), z); };
    const double open_mm = guitar.nut_locked ? 0.0 : per_z(headstock_, guitar.headstock_mm.at(string));
    return metres_from_mm(per_z(anchor_, guitar.bridge.anchor_mm.at(string)) + open_mm);
}

std::optional<ClawSetting> Belief::claw(Assembly now, const Deviations& z, Problems& problems) const {
    now.unexplained_nm = spread(Unknown::friction_now).at(0.0, z_of(z, Unknown::friction_now));
    return claw_now(*setup_, now, problems,
                    {spread(Unknown::tail_now).at(0.0, z_of(z, Unknown::tail_now)),
                     spread(Unknown::springs_now).at(0.0, z_of(z, Unknown::springs_now))});
}

double Belief::angle_now_rad(const Deviations& z) const {
    return angle_of_tail_rad(*setup_, setup_->now.tail_mm +
                                          spread(Unknown::tail_now).at(0.0, z_of(z, Unknown::tail_now)));
}

double Belief::sigma_of(const Deviations& gradient) const {
    double sum = 0.0;
    if (covariance_.empty()) {
        // (1 + a aᵀ)⁻¹ = 1 − a aᵀ/(1 + aᵀa)
        double said = 0.0, size = 1.0;
        for (std::size_t i = 0; i < gradient.size(); ++i) {
            sum += gradient[i] * gradient[i];
            said += standing_[i] * gradient[i];
            size += standing_[i] * standing_[i];
        }
        return std::sqrt(std::max(sum - said * said / size, 0.0));
    }
    for (std::size_t i = 0; i < gradient.size(); ++i)
        for (std::size_t j = 0; j < gradient.size(); ++j)
            sum += gradient[i] * covariance_[i * gradient.size() + j] * gradient[j];
    return std::sqrt(std::max(sum, 0.0));
}

double Belief::sigma_of(Unknown unknown) const {
    Deviations only{};
    only[static_cast<std::size_t>(unknown)] = 1.0;
    return sigma_of(only);
}

void Belief::condition(const Deviations& mean, Covariance covariance) {
    mean_ = mean;
    covariance_ = std::move(covariance);
}

Belief Belief::about(const Setup& other) const {
    Belief belief(other, standing_);
    std::copy(mean_.begin(), mean_.begin() + common_unknowns + most_strings, belief.mean_.begin());
    return belief;
}

} // namespace counterpull
