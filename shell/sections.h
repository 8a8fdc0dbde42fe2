// The sections of the page. Each stands here once, in the order in which a phone shows them; a desk walks the
// same list and lays them beside each other.
#pragma once

#include "shell/desk.h"

#include <span>

namespace counterpull {

struct Section {
    // Where it lies on a desk.
    enum class Place { inputs, picture, answer, work, page };
    // How it begins on a desk; on a phone every section is folded.
    enum class OnDesk { folded, open, never_folds };

    const char* id;
    const char* title;                   // key
    const char* note;                    // key of what is said while it is folded, "" nothing
    std::string (*summary)(const Desk&); // the same, of the set-up as it is; or null
    void (*draw)(const Desk&);
    Place place;
    OnDesk on_desk;
};

std::span<const Section> sections();

// Draws a section under its heading, which folds it.
void draw_folding(const Desk& desk, const Section& section);

} // namespace counterpull
