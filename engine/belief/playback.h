// What every reading of a set-up should have shown, if the guitar were as some deviations say.
//
// The readings are played through in order, each by what was done just before it: tuned to pitch, only the
// claw turned, tuned once, a string bent or let down, a wedge pulled. A tail reading at a stop is no value:
// it says only that the bridge would have gone at least that far. So the tail is predicted as it would stand
// without its stops: a reading between them is learnt from also where the guitar as thought lies on one.
#pragma once

#include "engine/belief/information.h"
#include "engine/mechanics/tuning.h"

#include <optional>
#include <vector>

namespace counterpull {

enum class Observed { tail, cents, spring };

struct Observation {
    int entry = 0; // of the log; −1 is "now"
    Observed what = Observed::tail;
    int index = 0;      // string or spring, by its place
    double value = 0.0; // mm or cents
    double sigma = 0.0;
    int stop = 0; // read at the lower (−1) or upper (+1) stop, or as good as there
};

// 1 σ of what a tuner shows.
double tuner_sigma(double cents);

// How a balance is found while playing: by a full search, or near the one found last time.
enum class Settling { search, near };

class Playback {
  public:
    // `belief` must outlive it.
    explicit Playback(const Belief& belief);

    const std::vector<Observation>& observations() const { return observations_; }
    // A visit to the claw begins wherever the turns differ from the entry before; at zero turns there was
    // none yet: −1.
    std::size_t visits() const { return unknowns_.visits.size(); }
    std::size_t entries() const { return visit_of_.size(); }
    int visit_of(std::size_t entry) const { return visit_of_[entry]; }

    // The unknowns that readings say something about, in a row. First, entry by entry: where a visit begins,
    // by how much the screws stand beyond what was counted, in units of `screw_reading_turns`; and the torque
    // by which friction holds the bridge while the entry is read, in units of its spread; of a wedge pulled,
    // how far off it had been set by the ruler, in units of `tail_reading_mm`. Then those of the belief that
    // play a part, but for screws_now, which is the last visit's.
    const RowOfUnknowns& unknowns() const { return unknowns_; }
    std::size_t width() const { return unknowns_.width; }

    // What each observation should have been, into `predicted`, a tail possibly beyond its stops; `x` has
    // `width` values. False where no claw position fits "now".
    bool play(ConstDerivatives x, Settling how, std::vector<double>& predicted);
    // How each observation moves with x there, row by row: `width` derivatives each. After a play of the same
    // x: it takes the balances found then, and differentiates them as they stand. A balance τ(θ, x) = 0 moves
    // by dθ/dx = −(∂τ/∂x)/(∂τ/∂θ), one at a stop or in a spring's jump not at all.
    bool linearize(ConstDerivatives x, std::vector<double>& jacobian);

    // The bridge as the last entry left it, by the last play.
    const Strung& left() const { return left_.strung; }

    Deviations deviations(ConstDerivatives x) const;

  private:
    struct Found {
        double angle_rad = 0.0;
        bool at_stop = false;
    };
    // The bridge at some moment and, while linearizing, how it moves with x: the row of its angle, then those
    // of the strings' unstretched lengths.
    struct Moment {
        Strung strung;
        std::vector<double> rows;
    };
    // One of the different assemblies of a log.
    struct Model {
        Assembly assembly;
        std::optional<Chain> chain; // while linearizing
    };
    // What an entry is played on.
    struct Stage {
        const Model& model;
        ClawSetting claw;
        int visit = -1; // where in the row, −1 none
        int friction = -1;
        int wedge = -1;
        double wedge_off_mm = 0.0; // the tail as it was wedged, off what is wanted
    };
    bool run(ConstDerivatives x, std::vector<double>& out);
    Model model_of(const Fitting& fitting, const Deviations& z) const;
    void observe_springs(const Stage& stage, std::size_t& next, std::vector<double>& out);
    void observe(const Stage& stage, int entry, std::size_t& next, std::vector<double>& out);
    void slacken(const Model& model, Moment& moment) const;
    void tune_at(const Model& model, const Tuners& tuners, Moment& moment) const;
    void settle(const Stage& stage, const Tuners& tuners, Moment& moment);
    void settle_and_tune(const Stage& stage, const Tuners& tuners, Moment& moment);
    void move_angle(const Stage& stage, const Tuners& tuners, Moment& moment) const;
    // The bridge as it is read, with its tail where it would stand if there were no stop in its way.
    Moment& unstopped(const Stage& stage);
    // `in_tune`: the strings are at pitch as the entry before left them.
    void play_entry(const Reading& reading, const Stage& stage, bool in_tune);
    int visit_place(std::size_t entry) const {
        const int visit = visit_of_[entry];
        return visit < 0 ? -1 : static_cast<int>(unknowns_.visits[static_cast<std::size_t>(visit)]);
    }
    Derivatives angle_row(Moment& moment) const { return {moment.rows.data(), width()}; }
    Derivatives length_row(Moment& moment, std::size_t string) const {
        return {moment.rows.data() + (1 + string) * width(), width()};
    }

    const Belief& belief_;
    std::vector<Observation> observations_;
    std::vector<int> visit_of_;            // entry → visit, −1 none yet
    std::vector<std::size_t> friction_of_; // entry → its friction's place in the row
    std::vector<int> wedge_of_;            // entry → its wedge's error's place, −1 none
    std::vector<std::size_t> assembly_of_; // entry → one of the different assemblies
    std::vector<std::size_t> first_of_;    // assembly → its first entry
    RowOfUnknowns unknowns_;
    double friction_sigma_nm_;

    std::vector<Found> found_; // by the order of settling, from the last play
    std::size_t settled_ = 0;
    Settling how_ = Settling::search;
    bool linearizing_ = false;
    std::vector<Model> models_;
    std::vector<double> claw_row_; // of the claw's x now
    Moment left_, shown_;          // as an entry leaves the bridge, and as it stood while it was read
    Moment beyond_;                // the latter without stops
    Tuners last_tuners_;           // of the last settling
};

} // namespace counterpull
