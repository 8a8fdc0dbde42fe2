// How to go on with a pass of tuning: which strings, in which order, and to what.
//
// As few as will do: whatever would stand off when the others are at pitch. First those not yet tuned in this
// pass, lowest first, then those tuned the longest ago. Where that aims at more than the tuning sheet asks of
// anyone, the string with the furthest to go comes first, since the tail moves most with it and what it
// teaches serves all others; it is aimed no further than is allowed, and tuned once more later.
#pragma once

#include "engine/advice/heard_pass.h"

#include <vector>

namespace counterpull {

// Who will stand within this when all others are done is left alone.
inline constexpr double left_alone_cents = 1.5;

struct PlannedAim {
    std::size_t string = 0; // by its place
    double cents = 0.0;
};
struct PassPlan {
    std::vector<PlannedAim> aims;
    bool ends_at_stop = false; // brought to pitch, the bridge runs onto a stop
};

// `may_rest`: on a stop, on the way. Where all should stand at pitch already: the strings that are not known
// to, else the one that was heard furthest off, to be listened to.
PassPlan pass_plan(const HeardPass& heard, const ClawSetting& claw, const std::vector<PassMoment>& moments,
                   bool may_rest);

// Every string stands within `cents` as far as all that was heard says, and nothing at the last moment was
// heard further off than `heard_cents`.
bool all_stand(const HeardPass& heard, const std::vector<PassMoment>& moments, double cents,
               double heard_cents);

// How far a string may be aimed sharp: never short of its pitch.
double most_sharp_cents(const StringOnBridge& string);
// One string, by its place, brought to what the tuner then shows for it.
Strung brought_to(const Assembly& assembly, const ClawSetting& claw, Strung strung, std::size_t string,
                  double cents);

} // namespace counterpull
