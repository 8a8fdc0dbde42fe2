// The tuning pass that goes by what is heard: after each string the aims of those to come are worked out
// anew, so that the last of them brings all to pitch though the springs are not as believed.
//
// How far the tail goes with a string comes out of how the others moved (heard_pass.h); with that the end is
// sought again, and the way there (pass_plan.h).
#pragma once

#include "engine/advice/steps.h"

#include <optional>
#include <vector>

namespace counterpull {

// All within this of their pitch is done.
inline constexpr double by_ear_cents = 2.0;

// What the strings showed at one moment of a pass: against the next tuning with its offsets, cents, lowest
// string first; nothing where a string was not heard.
struct HeardInPass {
    int tuned = 0; // the string tuned since the moment before, the player's number; 0: none, the pass begins
    std::vector<std::optional<double>> shown_cents;
};

// What is still to be tuned so that in the end all stand at pitch together, in order, each with its aim;
// empty: by all that was heard, each value with its own error, all stand within `by_ear_cents`. `step`: the
// tune step that is due; `pass`: what was heard since it began, oldest first. Where that is empty, the step's
// own aims. Those of them that are left while a wedge holds the tail, or where what was heard cannot be
// understood. Where the bridge would run onto a stop (`runs_to_stop`) it is not chased for ever: empty too
// after three rounds. Strings brought up roughly from slack are aimed sharp, as far as is allowed: what the
// tail takes of that need not be tuned again.
std::vector<Aim> aims_by_ear(const Report& report, const Step& step, const std::vector<HeardInPass>& pass);

// Whether the bridge as it was heard, brought to pitch, would run onto a stop: then tuning cannot bring it
// where it is wanted, the claw has to be turned first. False before a string was tuned.
bool runs_to_stop(const Report& report, const Step& step, const std::vector<HeardInPass>& pass);

// What every string will show once the first of those aims is tuned, cents, lowest string first; as the pass
// begins, where `pass` is empty. For the hearing to know where to look: the first of a pass is only as good
// as the springs are known.
std::vector<double> expected_by_ear(const Report& report, const Step& step,
                                    const std::vector<HeardInPass>& pass);

// What every string shows, cents against the next tuning, lowest first, when the claw has been turned to
// where `step.string` shows `step.cents`; empty where the step is not such a one.
std::vector<double> shown_when_turned(const Report& report, const Step& step);

} // namespace counterpull
