// An independent judge of the engine's balance, written from the physics alone: positions and forces as 3-D
// vectors with cross products, derivatives by central differences, every unknown (tension too) found by
// GSL's Brent root finder. It reads the set-up document itself and includes nothing of the engine.
#pragma once

#include <nlohmann/json.hpp>

#include <optional>
#include <string>
#include <vector>

namespace reference {

struct Strings {
    std::vector<double> tension_n;
    std::vector<double> strength_used;
};

struct Springs {
    std::vector<double> force_n;
    std::vector<double> length_mm;
};

struct Untouched {
    std::string outcome;
    double tail_mm = 0.0;
    double per_turn_mm = 0.0;
};

struct Turns {
    double turns = 0.0;
    double slope = 0.0; // d(torque)/d(angle) there: below zero is stable
};

class Judge {
  public:
    explicit Judge(nlohmann::json setup);
    Strings strings(const std::string& which, double angle_rad) const;
    Springs springs(const nlohmann::json& placed, double turns, double angle_rad) const;
    double angle_rad(double tail_mm) const;
    Untouched untouched() const;
    // Turns of both screws from "now" that hold the next strings at a tail reading, or nothing.
    std::optional<Turns> turns_for(const nlohmann::json& placed, double tail_mm) const;

  private:
    double torque(const std::string& which, const nlohmann::json& placed, double turns, double angle) const;
    double claw_x() const;
    nlohmann::json setup_;
    double claw_x_m_ = 0.0;
};

} // namespace reference
