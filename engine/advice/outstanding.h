// What of a job is outstanding: how the guitar at the bench differs from what the report says it should be.
// It decides nothing of the order; that is for the steps (steps.h).
#pragma once

#include "engine/advice/at_bench.h"
#include "engine/advice/report.h"

namespace counterpull {

// Under full pull screws are hard to turn: up to this the strings may stay up, beyond it they come down.
inline constexpr double few_turns = 0.5;
// Loosening goes under pull too.
inline constexpr double few_turns_out = 2.0;
// Where the tuner stops the turn a hand can do less.
inline constexpr double least_stopped_turn = 1.0 / 32.0;
// Nothing is left to do where the last reading in tune is within level_tail_mm of what was wanted, all
// strings within this.
inline constexpr double finished_cents = 3.0;

class Outstanding {
  public:
    // Both must outlive it.
    Outstanding(const Report& report, const AtBench& at, Way way);

    bool all_in_tune() const;
    // The newest entry of the log is of this kind, with the strings wanted in their tuning.
    bool is_last(ReadingKind kind) const;
    // The last reading in tune is as wanted, or as near as a hand can set it.
    bool is_level() const;
    // Turns of both screws, + in.
    double more() const;
    bool springs_differ() const { return springs_moved(at_.springs, best_.springs) > 0; }
    bool new_strings() const { return !at_.next_on; }
    // The tuner shows how it stands: by a reading of it, or as it was when the job was begun.
    bool is_watched() const;
    // A small turn is made with the strings up, an eye on the tuner. Once the wedge is out what is left is.
    bool stays_up() const;
    bool turns_due() const;
    // Off by what one reading may be: nobody turns for that before it was read twice.
    bool reads_again() const;
    bool comes_down() const;
    // The nut's clamps are closed, and cannot stay so.
    bool nut_is_forced() const;
    // How many passes by aims the tuning sheet has. They hold for strings that are as it takes them to be.
    std::size_t aims_to_take() const;
    // Before tuning finely the tuner is read once: what it shows then says what is left to turn. With a wedge
    // that is done as it is pulled.
    bool looks() const;

  protected:
    const Reading* last() const { return setup_.log.empty() ? nullptr : &setup_.log.back(); }

    const Setup& setup_;
    const Report& report_;
    const Advice& best_;
    const AtBench& at_;
    const WedgeWay* wedge_; // where the visit is to have one, or has it

  private:
    double off_mm() const { return *last()->tail_mm - setup_.next.tail_mm; }
    double target() const;
    // The wedge is out, and what was not read is taken as told.
    bool eases_as_told() const { return at_.imagined && at_.freed && at_.stopped == 0; }
};

} // namespace counterpull
