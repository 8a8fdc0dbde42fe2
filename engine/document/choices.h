// What a player chooses in one go, and which choice a set-up already stands for.
//
// A choice fills several fields of a set-up from presets; a match finds the preset whose values a set-up has,
// so that it can be called by its name.
#pragma once

#include "engine/document/placed_springs.h"
#include "engine/document/presets.h"

namespace counterpull {

// The number of strings of a set-up.
std::size_t strings_of(const Setup& setup);

// A reading stays one of the strings and the tuning it was taken on. Where an edit has changed what "now" or
// "next" mean, entries of the log that refer to it carry from then on what it meant `before` (Reading::own);
// those that say so and what it means again need not any more. A job begun goes on from the step where the
// wanted strings or their tuning were changed (BenchSetup). A set-up that was refused before says nothing
// worth keeping: its entries belong to what it is mended into.
void keep_readings_true(const Setup& before, Setup& after);

// The guitar as the job leaves it becomes "now": its strings and tuning, the springs and the tail of the
// last reading, the thread that the turns left. Title, guitar and what is wanted stay; job and chosen
// springs go. The readings up to that stay, with the strings that they were read on and their turns counted
// from the new "now", and before them how the guitar stood when the job was begun: what they taught is kept.
// Nothing changes where no tail was read in tune.
void begin_next_job(Setup& setup);

// Gives now and next a set, a tuning and dimensions for another number of strings, and drops the readings.
// From a guitar to a bass (four or five strings) or back the scale becomes what is usual of that. Nothing
// changes where there is no set or no tuning for so many.
void change_string_count(Setup& setup, std::size_t strings);

// A guitar of which nothing has been said yet: the usual six strings, tuning, springs and dimensions of that
// kind of bridge, and nothing wanted that is not so.
Setup usual_setup(const BridgePreset& bridge);

// These springs are on it now, at least one. Where they are others, what was read with those before goes, and
// a job begun; a spring that stays keeps its length, the first one's stands for those that came. They count
// as owned.
void put_springs(Setup& setup, Arrangement springs);

// Puts another kind of bridge on: its dimensions, claw depth and usual aim, and a nut that clamps where that
// goes with it. Its weight stays, that belongs to the bridge and not to its kind; a tail now that it cannot
// give is replaced by its usual aim. Where it differs from the one before, the readings and a job begun go.
void put_bridge(Setup& setup, const BridgePreset& preset);

// The kind of bridge that this one is said to be, or any where it is not said; of these the one that differs
// from it in the fewest dimensions, and of those that are alike the first that is not retired.
const BridgePreset& nearest_bridge(const BridgeSetup& bridge);

// The kinds of bridge to choose among where this one is on: all but the retired ones that it is not.
std::vector<const BridgePreset*> offered_bridges(const BridgePreset& on);

// Presets whose values these are, or nothing.
const StringSetPreset* matching_set(const std::vector<StringSetup>& strings);
const TuningPreset* matching_tuning(const std::vector<Pitch>& notes);
const SpringPreset* matching_spring(const SpringSetup& spring);
const ScrewPreset* matching_screw(double screw_pitch_mm);
const HeadstockPreset* matching_headstock(const PerString& headstock_mm, std::size_t strings);

// The spring that most bridges are sold with: what a spring is measured against.
const SpringSetup& standard_spring();

} // namespace counterpull
