// What every reading of a set-up should have shown, if the guitar were as some deviations say.
//
// The readings are played through in order, each by what was done just before it: tuned to pitch, only the
// claw turned, tuned once, a string bent or let down, a wedge pulled. A tail reading at a stop is no value:
// it says only that the bridge would have gone at least that far.
#pragma once

#include "engine/belief/belief.h"
#include "engine/mechanics/tuning.h"

#include <span>
#include <vector>

namespace counterpull {

enum class Observed { tail, cents, spring };

struct Observation {
    int entry = 0; // of the log; −1 is "now"
    Observed what = Observed::tail;
    int index = 0;      // string or spring, by its place
    double value = 0.0; // mm or cents
    double sigma = 0.0;
    int stop = 0; // read at the lower (−1) or upper (+1) stop
};

// 1 σ of what a tuner shows.
double tuner_sigma(double cents);

// How a balance is found while playing: by a full search; near the one found last time; or by a single step
// of Newton's from there, which is exact to first order, for derivatives.
enum class Settling { search, near, step };

class Playback {
  public:
    // `belief` must outlive it.
    explicit Playback(const Belief& belief);

    const std::vector<Observation>& observations() const { return observations_; }
    // A visit to the claw begins wherever the turns differ from the entry before; at zero turns there was
    // none yet.
    int visits() const { return visits_; }

    // What each observation should have been, into `predicted`. `screws`: for each visit, by how many turns
    // the screws stand beyond what was counted. False where no claw position fits "now".
    bool play(const Deviations& z, std::span<const double> screws, Settling how,
              std::vector<double>& predicted);

    // The bridge as the last entry left it, by the last play.
    const Strung& left() const { return left_; }

  private:
    struct Found {
        double angle_rad = 0.0;
        bool at_stop = false;
    };
    double settle(const Assembly& assembly, const Tuners& tuners, const ClawSetting& claw, double from_rad);
    Strung settle_and_tune(const Assembly& assembly, const Tuners& tuners, const ClawSetting& claw,
                           double from_rad);
    Strung play_entry(const Reading& reading, const Assembly& assembly, const ClawSetting& claw,
                      const Strung& before, Strung& shown);
    Fitting fitting_of(const Reading& reading) const;

    const Belief& belief_;
    std::vector<Observation> observations_;
    std::vector<int> visit_of_;    // entry → visit, −1 none yet
    std::vector<int> assembly_of_; // entry → one of the different assemblies, named by its first entry
    int visits_ = 0;
    std::vector<Found> found_; // by the order of settling, from the last full play
    std::size_t settled_ = 0;
    Settling how_ = Settling::search;
    Strung left_;
};

} // namespace counterpull
