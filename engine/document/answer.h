// What a player says of a step at the bench, as text: a JSON object of what was asked, `{}` where nothing
// was.
#pragma once

#include "engine/document/problems.h"
#include "engine/document/setup.h"

#include <array>
#include <optional>
#include <string_view>
#include <vector>

namespace counterpull {

struct Answer {
    std::optional<double> tail_mm;
    std::optional<std::array<double, 2>> tail_sides_mm;      // bass, treble: their mean is then the tail
    std::optional<std::vector<std::optional<double>>> cents; // per string, lowest first, null where not read
    bool in_tune = false;                                    // stands for all cents 0
    std::optional<std::array<double, 2>> turned; // what was really turned, bass and treble screw, + in
    std::optional<Mishap> happened;              // instead of the step
    std::optional<int> string;                   // that broke; the player's number
    std::optional<int> hook;                     // that lost its spring
};

struct AnswerRead {
    std::optional<Answer> answer; // present exactly where there is no problem
    Problems problems;
};
// Whether it answers what was asked is judged where that is known (advice/bench.h).
AnswerRead read_answer(std::string_view text);

} // namespace counterpull
