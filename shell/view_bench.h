// What the files of the bench view share.
#pragma once

#include "engine/advice/bench.h"
#include "engine/say/bench_json.h"
#include "shell/desk.h"

namespace counterpull {

// The step that is due, in words.
struct DueStep {
    Bench bench;
    AtBench at;
    BenchSaid said;
    std::string head; // "Step 5 of about 13"
};
const DueStep& due_step(const Desk& desk);

// A button over the width given, high enough for a thumb; its label may take two lines.
bool wide_button(const Desk& desk, std::string_view id, std::string_view label, float width, float height,
                 bool primary);

// Takes the step as done, or as gone wrong, unless what was read is to be asked about first.
void finish_step(const Desk& desk, const Answer& answer);

// view_bench_asks.cpp
void draw_asks(const Desk& desk, const DueStep& due);
bool is_answered(const Desk& desk, const DueStep& due);
Answer answer_typed(const Desk& desk, const DueStep& due);
void draw_question(const Desk& desk, const DueStep& due); // any part but the step itself

// view_bench_drawing.cpp
// What the tuner shall show, large, where the step goes by that; false where it does not.
bool draw_step_aim(const Desk& desk, const DueStep& due);
void draw_step_picture(const Desk& desk, const DueStep& due);

// view_bench_hears.cpp
// Listening, in a step in which strings are played: it enters what is asked, and goes on from string to
// string.
void draw_step_heard(const Desk& desk, const DueStep& due);
// The aims of a step that tunes, as they are by what was heard.
const std::vector<Aim>& aims_of(const Desk& desk, const Step& step);
// Of the string that is due; of the last one where none is left.
const Aim& due_aim(const Desk& desk, const Step& step);
// The string due has been tuned: what it shows, where that was heard; on to the next.
void next_string(const Desk& desk, const Step& step, std::optional<double> shows = {});

// view_bench_end.cpp
void draw_way(const Desk& desk, const DueStep& due); // before anything is done
void draw_end(const Desk& desk, const DueStep& due); // finished, or cannot

} // namespace counterpull
