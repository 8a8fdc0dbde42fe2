// The bench on the screen: what of it is no part of the set-up.
#pragma once

#include "engine/advice/by_ear.h"
#include "engine/document/answer.h"

#include <array>
#include <optional>
#include <string>
#include <vector>

namespace counterpull {

struct BenchScreen {
    // What fills the screen: the step, or a question that comes between.
    enum class Shows { step, mishaps, string, hook, screw, doubt };

    bool open = false;
    long edition = -1;   // of the set-up that all below belongs to (Workbench::edition)
    bool begins = false; // what fills the screen has just come up
    Shows shows = Shows::step;
    void show(Shows what) {
        shows = what;
        begins = true;
    }
    // As far as it is typed.
    std::optional<double> tail_mm;
    std::array<std::optional<double>, 2> sides_mm;
    std::vector<std::optional<double>> cents;
    std::optional<std::array<double, 2>> turned; // nothing: as told
    bool both_sides = false, out_of_tune = false;
    Mishap mishap = Mishap::screw_hard; // that the question is about
    std::size_t string = 0;             // of a step that tunes, in its order
    // Of a step in which strings are heard:
    std::optional<std::vector<Aim>> aims; // where what was heard has made others of them
    std::vector<double> expected_cents;   // of a step that tunes: where to look for each string; may be empty
    std::vector<HeardInPass> pass;        // of a step that tunes: what was heard in it
    double stood_from_s = -1.0;   // since then the string due has been where it is wanted; −1 it is not
    double done_at_s = 0.0;       // what was heard before that was before the last string was done
    long tellings = 0;            // taken in so far (Hearing::tellings)
    std::optional<Setup> doubted; // the set-up after the step, if what was read is right
    std::string doubt, refused;   // in words
    float moved_s = 0.0f;         // since its drawing began to move
    bool moves = false;           // it still does
    double deaf_until = 0.0;      // taps and keys that come sooner belong to what was done before
    double explained_until = 0.0; // taps that come sooner are meant for a word that is explained
    bool framed = false;          // the keyboard is on a control
};

} // namespace counterpull
