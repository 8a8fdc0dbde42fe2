// What is not known for sure about a guitar. Some stand for a field of the document, which says how far off
// it may be (fields.h); what is believed of them all is told in belief.h.
#pragma once

namespace counterpull {

enum class Unknown : int {
    spring_rate, // of all springs alike
    initial_tension,
    saddle_height,
    saddle_setback,
    block_depth,
    block_setback,
    screw_pitch,
    dead_length,
    core,
    tail_now,    // the reading "now"
    springs_now, // the mean of the spring lengths "now", where they fix the claw
    screws_now,  // where the screws stand at the last reading, against what was counted
    weights,     // first of the unit weights: of each string now, then of each next
};

inline constexpr int common_unknowns = static_cast<int>(Unknown::weights);

} // namespace counterpull
