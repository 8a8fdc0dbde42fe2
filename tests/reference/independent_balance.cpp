#include "tests/reference/independent_balance.h"

#include <gsl/gsl_const_mksa.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_math.h>
#include <gsl/gsl_roots.h>

#include <cmath>
#include <functional>
#include <map>
#include <stdexcept>
#include <utility>

namespace reference {

namespace {

using nlohmann::json;

struct Vector {
    double x = 0.0, y = 0.0, z = 0.0;
    Vector operator-(const Vector& o) const { return {x - o.x, y - o.y, z - o.z}; }
    Vector operator*(double s) const { return {x * s, y * s, z * s}; }
    double size() const { return std::sqrt(x * x + y * y + z * z); }
};
double moment_about_z(const Vector& arm, const Vector& force) {
    return arm.x * force.y - arm.y * force.x;
}

using Function = std::function<double(double)>;
double call(double x, void* f) {
    return (*static_cast<Function*>(f))(x);
}

double brent(Function f, double low, double high) {
    gsl_set_error_handler_off();
    if (low > high)
        std::swap(low, high);
    if (f(low) == 0.0)
        return low;
    if (f(high) == 0.0)
        return high;
    gsl_function function{&call, &f};
    gsl_root_fsolver* solver = gsl_root_fsolver_alloc(gsl_root_fsolver_brent);
    if (gsl_root_fsolver_set(solver, &function, low, high) != GSL_SUCCESS) {
        gsl_root_fsolver_free(solver);
        throw std::runtime_error("no sign change");
    }
    for (int i = 0; i < 300; ++i) {
        gsl_root_fsolver_iterate(solver);
        if (gsl_root_test_interval(gsl_root_fsolver_x_lower(solver), gsl_root_fsolver_x_upper(solver), 1e-14,
                                   1e-14) == GSL_SUCCESS)
            break;
    }
    const double root = gsl_root_fsolver_root(solver);
    gsl_root_fsolver_free(solver);
    return root;
}

double per_string(const json& value, std::size_t i) {
    return value.is_array() ? value[i].get<double>() : value.get<double>();
}

// Frequency of a pitch name; the cents of the naturals above C written out as whole-tone/semitone steps.
double pitch_hz(const std::string& name, double a4, double cents) {
    static const std::map<char, int> naturals = {{'C', -9}, {'D', -7}, {'E', -5}, {'F', -4},
                                                 {'G', -2}, {'A', 0},  {'B', 2}};
    int semitones = naturals.at(name[0]);
    for (const char c : name)
        semitones += c == '#' ? 1 : c == 'b' ? -1 : 0;
    semitones += 12 * (name.back() - '4');
    return a4 * std::pow(2.0, (semitones + cents / 100.0) / 12.0);
}

constexpr double inch = GSL_CONST_MKSA_INCH;

// Shigley, table 10-5 (A228), from memory.
double young_pa(double d_m) {
    const double d = d_m / inch;
    return (d < 0.033 ? 203.4 : d < 0.064 ? 200.0 : d <= 0.125 ? 196.5 : 193.0) * 1e9;
}

struct Wire {
    double mu, ea, ei, breaking;
};

Wire wire_of(const json& s) {
    const double diameter = s.at("gauge_in").get<double>() * inch;
    const bool wound = s.at("wound");
    const double core = !wound                  ? diameter
                        : s.contains("core_in") ? s["core_in"].get<double>() * inch
                                                : 0.0085 * inch + 0.18 * diameter;
    const bool hex = wound && s.value("core", "round") == "hex";
    // A regular hexagon from its six triangles: area 6·½·side·apothem, second moment 5√3/16 side⁴.
    const double side = core / std::sqrt(3.0);
    const double area = hex ? 6 * 0.5 * side * (core / 2) : M_PI * std::pow(core / 2, 2);
    const double second =
        hex ? 5 * std::sqrt(3.0) / 16 * std::pow(side, 4) : M_PI / 4 * std::pow(core / 2, 4);
    double mu = 7850 * area;
    if (wound) {
        const std::string wrap = s.value("wrap", "nickel plated steel");
        const double density = wrap == "nickel" ? 8900 : wrap == "stainless steel" ? 7900 : 7850;
        const double w = (diameter - core) / 2, middle_circle = M_PI * (core + w);
        const double turns_per_metre = 1 / w;
        mu += density * M_PI * w * w / 4 * turns_per_metre * std::sqrt(middle_circle * middle_circle + w * w);
    }
    if (s.contains("unit_weight_g_m"))
        mu = s["unit_weight_g_m"].get<double>() / 1000;
    return {mu, young_pa(core) * area, young_pa(core) * second, 2211e6 / std::pow(core * 1000, 0.145) * area};
}

double tension_n(const Wire& w, double hz, double length) {
    auto sounded = [&](double t) {
        return std::sqrt(
                   std::max(0.0, (t + M_PI * M_PI * w.ei / (length * length)) * (1 + t / w.ea) / w.mu)) /
                   (2 * length) -
               hz;
    };
    return brent(sounded, 0.0, 20000.0);
}

Vector turned(const Vector& p, double angle) { // by −angle about +z
    const double c = std::cos(-angle), s = std::sin(-angle);
    return {c * p.x - s * p.y, s * p.x + c * p.y, p.z};
}

} // namespace

Judge::Judge(json setup) : setup_(std::move(setup)) {
    claw_x_m_ = claw_x();
}

double Judge::angle_rad(double tail_mm) const {
    return std::asin(tail_mm / setup_["guitar"]["bridge"]["tail_mm"].get<double>());
}

Strings Judge::strings(const std::string& which, double angle) const {
    const json& bridge = setup_["guitar"]["bridge"];
    const json& from = setup_[which];
    Strings out;
    for (std::size_t i = 0; i < from["strings"].size(); ++i) {
        const Wire wire = wire_of(from["strings"][i]);
        const double hz = pitch_hz(from["tuning"][i], setup_.value("a4_hz", 440.0),
                                   from.contains("offset_cents") ? per_string(from["offset_cents"], i) : 0.0);
        const double back = per_string(bridge["saddle_setback_mm"], i) / 1000;
        const double height = per_string(bridge["saddle_height_mm"], i) / 1000;
        const double scale = per_string(setup_["guitar"]["scale_mm"], i) / 1000;
        const Vector saddle = turned({-back, height, 0}, angle), nut{scale - back, height, 0};
        out.tension_n.push_back(tension_n(wire, hz, (nut - saddle).size()));
        out.strength_used.push_back(out.tension_n.back() / wire.breaking);
    }
    return out;
}

Springs Judge::springs(const json& placed, double turns, double angle) const {
    const json& guitar = setup_["guitar"];
    Springs out;
    for (const json& p : placed) {
        const json& kind = p.contains("spring") && !p["spring"].is_null() ? p["spring"] : guitar["spring"];
        const Vector hole = turned({-guitar["bridge"]["block_setback_mm"].get<double>(),
                                    -guitar["bridge"]["block_depth_mm"].get<double>(),
                                    guitar["bay"]["hole_mm"][p["hole"].get<std::size_t>()].get<double>()},
                                   angle);
        const Vector hook{1000 * claw_x_m_ + turns * guitar["bay"]["screw_pitch_mm"].get<double>(),
                          -guitar["bay"]["claw_depth_mm"].get<double>(),
                          guitar["bay"]["hook_mm"][p["hook"].get<std::size_t>()].get<double>()};
        const double length = (hook - hole).size(), open = length - kind["free_length_mm"].get<double>();
        out.length_mm.push_back(length);
        out.force_n.push_back(open > 0 ? kind["initial_tension_n"].get<double>() +
                                             kind["rate_n_mm"].get<double>() * open
                                       : 0.0);
    }
    return out;
}

double Judge::torque(const std::string& which, const json& placed, double turns, double angle) const {
    const json& guitar = setup_["guitar"];
    const json& bridge = guitar["bridge"];
    double about_z = 0.0;
    const Strings pulls = strings(which, angle);
    for (std::size_t i = 0; i < pulls.tension_n.size(); ++i) {
        const double back = per_string(bridge["saddle_setback_mm"], i) / 1000;
        const double height = per_string(bridge["saddle_height_mm"], i) / 1000;
        const double scale = per_string(guitar["scale_mm"], i) / 1000;
        const Vector saddle = turned({-back, height, 0}, angle);
        const Vector line = Vector{scale - back, height, 0} - saddle;
        about_z += moment_about_z(saddle, line * (pulls.tension_n[i] / line.size()));
    }
    const Springs held = springs(placed, turns, angle);
    for (std::size_t i = 0; i < held.force_n.size(); ++i) {
        const json& p = placed[i];
        const Vector hole = turned(
            {-bridge["block_setback_mm"].get<double>() / 1000, -bridge["block_depth_mm"].get<double>() / 1000,
             guitar["bay"]["hole_mm"][p["hole"].get<std::size_t>()].get<double>() / 1000},
            angle);
        const Vector hook{claw_x_m_ + turns * guitar["bay"]["screw_pitch_mm"].get<double>() / 1000,
                          -guitar["bay"]["claw_depth_mm"].get<double>() / 1000,
                          guitar["bay"]["hook_mm"][p["hook"].get<std::size_t>()].get<double>() / 1000};
        const Vector line = hook - hole;
        about_z += moment_about_z(hole, line * (held.force_n[i] / line.size()));
    }
    if (guitar.value("held", "playing") == "on its back") {
        const Vector centre = turned({-bridge.value("mass_setback_mm", 0.0) / 1000, 0, 0}, angle);
        about_z +=
            moment_about_z(centre, {0, -bridge.value("mass_g", 0.0) / 1000 * GSL_CONST_MKSA_GRAV_ACCEL, 0});
    }
    return -about_z; // θ is counted against +z
}

double Judge::claw_x() const {
    const json& now = setup_["now"];
    const json& guitar = setup_["guitar"];
    const double angle = angle_rad(now["tail_mm"]);
    if (!now.value("in_tune", true)) {
        // What each length says of the claw, and their mean.
        double sum = 0.0;
        Judge trial = *this;
        for (std::size_t i = 0; i < now["spring_mm"].size(); ++i) {
            const json one = json::array({now["springs"][i]});
            auto excess = [&](double x) {
                trial.claw_x_m_ = x;
                return trial.springs(one, 0.0, angle).length_mm[0] - now["spring_mm"][i].get<double>();
            };
            const double block = -guitar["bridge"]["block_setback_mm"].get<double>() / 1000;
            sum += brent(excess, block + 0.001 - 0.01, block + 0.4);
        }
        return sum / static_cast<double>(now["spring_mm"].size());
    }
    Judge trial = *this;
    auto net = [&](double x) {
        trial.claw_x_m_ = x;
        return trial.torque("now", now["springs"], 0.0, angle);
    };
    return brent(net, 0.0, 2.0);
}

Untouched Judge::untouched() const {
    const json& now = setup_["now"]["springs"];
    const json& limits = setup_["guitar"]["bridge"]["tail_limits_mm"];
    const double tail = setup_["guitar"]["bridge"]["tail_mm"];
    auto net = [&](double angle) { return torque("next", now, 0.0, angle); };
    const double start = angle_rad(setup_["now"]["tail_mm"]), at_start = net(start);
    double rest = start;
    Untouched out{"floats"};
    if (std::abs(at_start) > 1e-10) {
        const double stop = angle_rad(limits[at_start > 0 ? 1 : 0]);
        constexpr int steps = 400;
        double a = start;
        bool found = false;
        for (int i = 1; i <= steps && !found; ++i) {
            const double b = start + (stop - start) * i / steps;
            if ((net(b) > 0) != (at_start > 0)) {
                rest = brent(net, a, b);
                found = true;
            }
            a = b;
        }
        if (!found) {
            rest = stop;
            out.outcome = at_start > 0 ? "tail up stop" : "tail down stop";
        }
    }
    out.tail_mm = tail * std::sin(rest);
    constexpr double d = 1e-5;
    const double per_rad = (net(rest + d) - net(rest - d)) / (2 * d);
    const double per_turn = (torque("next", now, d, rest) - torque("next", now, -d, rest)) / (2 * d);
    out.per_turn_mm = -per_turn / per_rad * tail * std::cos(rest);
    return out;
}

std::optional<Turns> Judge::turns_for(const json& placed, double tail_mm) const {
    const double angle = angle_rad(tail_mm);
    auto net = [&](double turns) { return torque("next", placed, turns, angle); };
    double last = net(-200);
    for (double t = -199.5; t < 300; t += 0.5) {
        const double here = net(t);
        if (last > 0 && here <= 0) {
            const double turns = brent(net, t - 0.5, t);
            constexpr double d = 1e-5;
            return Turns{
                turns, (torque("next", placed, turns, angle + d) - torque("next", placed, turns, angle - d)) /
                           (2 * d)};
        }
        last = here;
    }
    return std::nullopt;
}

} // namespace reference
