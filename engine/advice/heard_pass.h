// What a pass of tuning shows of the guitar under it.
//
// How the strings move each other goes nearly all by the one movement of the tail. By how many cents a string
// goes with the tail is known from the string; how far the tail goes when another is tuned depends on the
// springs, which are not. So the first string tuned, with the others heard after it, says most of what there
// is to know. All cents heard in the pass are weighed together with what is believed of the guitar
// (belief.h); sought besides are the stiffness of each string for itself, what friction takes up between two
// moments, and what each string was truly tuned to. One value that lies far off the others counts little.
#pragma once

#include "engine/belief/belief.h"
#include "engine/mechanics/tuning.h"

#include <optional>
#include <vector>

namespace counterpull {

// One moment of a pass; cents against the pitch that the assembly has, lowest string first.
struct PassMoment {
    std::optional<std::size_t> tuned; // the string tuned since the moment before, by its place
    std::vector<std::optional<double>> shown_cents;
    double aimed_cents = 0.0; // what that string was tuned to, where it was not heard
};

// What is known before the pass.
struct PassBegin {
    const Belief& belief;
    Fitting fitting; // what is on the bridge
    ClawSetting claw;
    double angle_rad = 0.0;          // about where the bridge stands
    std::vector<double> begin_cents; // of strings that are not heard as the pass begins
};

struct HeardPass {
    Assembly assembly;                      // as learned, held in balance as it was heard
    Strung strung;                          // at the last moment
    std::vector<std::vector<double>> cents; // what each string truly showed, moment by moment
};

// `moments` must not be empty. Nothing where the numbers do not settle.
std::optional<HeardPass> heard_pass(const PassBegin& begin, const std::vector<PassMoment>& moments);

} // namespace counterpull
