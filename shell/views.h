// The views, one file each. A view reads the report, edits the set-up, and holds no physics and no state.
#pragma once

#include "shell/desk.h"

namespace counterpull {

void draw_masthead(const Desk& desk);
// Whose guitar it is; what has the example's title is the example. And the way to one's own.
Whose whose(const Desk& desk);
void draw_whose(const Desk& desk);
// Of which nothing has been said yet.
void begin_own_guitar(Workbench& bench, ViewState& view);
void draw_sentence(const Desk& desk);
void draw_page(const Desk& desk); // what a reader chooses for this device
// The answer: first the sentence with what must always be seen, then what it means.
void draw_answer(const Desk& desk);
// The sentence itself, or that there is none.
const std::string& answer_in_words(const Workbench& bench, const Words& words, Kept& kept);
void draw_details(const Desk& desk);
// Back and forward through what was edited; sharing and the notebook.
void draw_steps(const Desk& desk);
void draw_keeping(const Desk& desk);
// Under the thumb on a phone: the bench, back and forward.
void draw_bar(const Desk& desk);
// The job, a step at a time, in place of the page; and the button that leads there.
void draw_bench(const Desk& desk);
// As wide as there is room where that is wanted.
void draw_bench_button(const Desk& desk, std::string_view id, bool wide = false);
void draw_choices(const Desk& desk); // spring arrangements compared, each to be taken
// Where the player has chosen springs: which, and a button that goes back to what is recommended.
void draw_chosen(const Desk& desk);
void draw_pulls(const Desk& desk); // string by string
void draw_side_view(const Desk& desk);
void draw_back_view(const Desk& desk);
// The springs that are on it, put on and taken off by their hooks; and how high that is.
void draw_springs_fitted(const Desk& desk);
float height_of_springs(const Desk& desk);
// What went with the springs or the bridge that was on it before, where that has just been changed.
void draw_gone(const Desk& desk, bool by_springs);
// Steps of the bench, drawn: springs that come off and go on, and where the wedge goes.
void draw_springs_to_move(const Desk& desk, const Arrangement& fitted, const Arrangement& off,
                          const Arrangement& on);
void draw_wedge(const Desk& desk);
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
// A small drawing of what a number of the guitar measures, from where to where; for those that have a place
// on the bridge or its springs. `path` is under guitar.
void draw_measure_sketch(const Desk& desk, std::string_view path);
// How the tail is read, in three pictures.
void draw_how_tail(const Desk& desk);
void draw_footer(const Desk& desk);

// A short line of what a folded section holds.
std::string guitar_summary(const Desk& desk);
std::string now_summary(const Desk& desk);
std::string next_summary(const Desk& desk);

} // namespace counterpull
