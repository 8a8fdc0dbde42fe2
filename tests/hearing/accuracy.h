// How well strings are heard, over many sounds whose truth is known.
#pragma once

#include "engine/hearing/listener.h"
#include "tests/hearing/real_sounds.h"
#include "tests/hearing/sounds.h"

#include <cstdint>
#include <string>
#include <vector>

namespace counterpull::test {

// A guitar's strings as the engine has them: tuning, stiffness from the mechanics.
struct Strings {
    std::string name;
    std::vector<StringTarget> targets; // lowest first
};
const std::vector<Strings>& several_guitars();

// The keys of all their strings, each once.
std::vector<int> keys_of_guitars();

// What came of many clips.
struct Tally {
    std::vector<double> errors_cents; // of what was heard and sounded, without sign
    int sounding = 0;                 // strings that sounded
    int heard = 0;                    // of these
    int wrong = 0;                    // given as heard over 5 cents off, or not sounding at all
    double within_two_sigma = 0.0;    // share
    double milliseconds = 0.0;        // each clip
    double median() const { return quantile(0.5); }
    double ninety_five() const { return quantile(0.95); }
    double worst() const { return quantile(1.0); }
    double quantile(double share) const;
    double heard_share() const { return sounding > 0 ? static_cast<double>(heard) / sounding : 1.0; }
};

struct Conditions {
    bool strum = false;       // all strings, one missing in every third; else one string
    double off_cents = 150.0; // each lies within ± this of its note
    bool phone = false;
    double snr_db = 40.0;
    bool hum = false;
    bool told = false;    // where to look is known, to 20 cents
    double lasts_s = 0.8; // after the last onset
    const std::vector<RealNote>* real =
        nullptr; // recorded notes instead of made ones, all that the guitars need
};
// Seeds `first`, first + 2, …: even ones are for tuning the hearing, odd ones for reporting.
Tally tally(const Conditions& conditions, std::uint64_t first, int clips);

enum class NoString { silence, speech, clap, car, hum, noise };
// Clips in which anything was heard at all.
int heard_in(NoString what, std::uint64_t first, int clips);

} // namespace counterpull::test
