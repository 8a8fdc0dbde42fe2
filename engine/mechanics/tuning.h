// Tuning a floating bridge: string by string, each moving all the others; and one pass that lands everything.
//
// Plain tuning brings one string after the other to pitch, lowest first, and again, since every string tuned
// moves the bridge and with it all others. The one-pass sheet knows the end: the unstretched lengths n* that
// the strings have when all are at pitch. Given its n* in turn, each string shows at that moment what it must
// be aimed at so that the last one brings all of them to pitch.
// Related work: D. Hebenstreit, "Tuning a musical instrument with vibrato system", J. Acoust. Soc. Am. 143
// (2018).
#pragma once

#include "engine/mechanics/balance.h"

#include <optional>
#include <vector>

namespace counterpull {

// All strings within this of their pitch is in tune.
inline constexpr double in_tune_cents = 2.0;
inline constexpr int most_passes = 50;

// Strings with their tuners where they are, and the bridge at rest on them.
struct Strung {
    StringLengths lengths_m{};
    double angle_rad = 0.0;
};

// Just slack with the tail on its lower stop, where slack strings leave it.
Strung slack(const Assembly& assembly);
// The bridge let go, from where it stands.
Strung settled(const Assembly& assembly, const ClawSetting& claw, Strung strung);
// Each string brought to pitch once, in this order (places, lowest 0); all, lowest first, where it is empty.
Strung after_pass(const Assembly& assembly, const ClawSetting& claw, Strung strung,
                  const std::vector<int>& order = {});

struct Pass {
    std::vector<double> cents; // what the tuner shows for each string after it
};

// Pass by pass until every string is within `in_tune_cents`, at most `most_passes`.
std::vector<Pass> plain_tuning(const Assembly& assembly, const ClawSetting& claw, Strung strung);
// How many passes that takes; 0 where it is in tune already, nothing past `most_passes`.
std::optional<int> passes_needed(const Assembly& assembly, const ClawSetting& claw, const Strung& strung);

struct Aims {
    std::vector<double>
        cents; // per string, in the order in which they are tuned; what to aim it at in its turn
    double most_strength = 0.0; // the largest share of a breaking load on the way
    bool against_stop = false;  // the bridge rests on a stop somewhere on the way
    Strung after;               // when all are done
};

// The aims that bring the strings from `strung` to the lengths `wanted`, in this order (places, lowest 0).
Aims one_pass(const Assembly& assembly, const ClawSetting& claw, Strung strung, const StringLengths& wanted,
              const std::vector<std::size_t>& order);
// The same for all, lowest string first.
Aims one_pass(const Assembly& assembly, const ClawSetting& claw, Strung strung, const StringLengths& wanted);

} // namespace counterpull
