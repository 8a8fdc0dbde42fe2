// The views, one file each. A view reads the report, edits the set-up, and holds no physics and no state.
#pragma once

#include "shell/desk.h"

namespace counterpull {

void draw_masthead(const Desk& desk);
void draw_page(const Desk& desk); // what a reader chooses for this device
// The answer: first the sentence, then what it means. `pinned` keeps it to what must always be seen.
void draw_answer(const Desk& desk, bool pinned);
// The sentence itself, or that there is none.
const std::string& answer_in_words(const Workbench& bench, const Words& words, Kept& kept);
void draw_details(const Desk& desk);
// The job, a step at a time, in place of the page; and the button that leads there.
void draw_bench(const Desk& desk);
void draw_bench_button(const Desk& desk, std::string_view id);
void draw_choices(const Desk& desk); // spring arrangements compared, each to be taken
// Where the player has chosen springs: which, and a button that goes back to what is recommended.
void draw_chosen(const Desk& desk);
void draw_pulls(const Desk& desk); // string by string
void draw_side_view(const Desk& desk);
void draw_back_view(const Desk& desk);
// Steps of the bench, drawn: springs that come off and go on, and where the wedge goes.
void draw_springs_to_move(const Desk& desk, const Arrangement& fitted, const Arrangement& off,
                          const Arrangement& on);
void draw_wedge(const Desk& desk, WedgeSide side);
void draw_guitar(const Desk& desk);
void draw_now(const Desk& desk);
void draw_next(const Desk& desk);
void draw_sharper(const Desk& desk);
void draw_sheet(const Desk& desk);
void draw_strings_wanted(const Desk& desk);
void draw_tuning(const Desk& desk);
void draw_readings(const Desk& desk);
void draw_whatif(const Desk& desk); // what else changes
// How a number is known, with its worth and how to measure it.
void draw_knowledge(const Desk& desk, Unknown unknown);
// A small drawing of what an unknown measures; for those that have a place on the bridge or its springs.
void draw_measure_sketch(const Desk& desk, Unknown unknown);
void draw_footer(const Desk& desk);

// A short line of what a folded section holds.
std::string guitar_summary(const Desk& desk);
std::string now_summary(const Desk& desk);
std::string next_summary(const Desk& desk);

} // namespace counterpull
