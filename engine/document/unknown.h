// What is not known for sure about a guitar. Some stand for a field of the document, which says how far off
// it may be (fields.h); what is believed of them all is told in belief.h.
#pragma once

namespace counterpull {

enum class Unknown : int {
    spring_rate, // of all springs alike
    initial_tension,
    free_length,
    saddle_height,
    saddle_setback,
    block_depth,
    block_setback,
    screw_pitch,
    dead_length,
    core,
    tail_now,     // the reading "now"
    friction_now, // the torque by which friction holds the bridge off its balance "now"
    springs_now,  // the mean of the spring lengths "now", where they fix the claw
    screws_now,   // where the screws stand at the last reading, against what was counted
    weights,      // first of the unit weights: of each string now, then of each next
};

// The error of a reading, or what stood in its way; no number of the guitar.
constexpr bool is_of_reading(Unknown unknown) {
    return unknown == Unknown::tail_now || unknown == Unknown::friction_now ||
           unknown == Unknown::springs_now || unknown == Unknown::screws_now;
}

inline constexpr int common_unknowns = static_cast<int>(Unknown::weights);

} // namespace counterpull
