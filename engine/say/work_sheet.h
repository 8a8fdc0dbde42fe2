// The work sheet: the steps of this very change (advice/steps.h) in sentences, with the cautions where they
// bite, blanks for the readings, what to have at hand, and the way back.
#pragma once

#include "engine/advice/steps.h"
#include "engine/say/words.h"

#include <optional>
#include <vector>

namespace counterpull {

struct SheetStep {
    std::vector<Phrase> text; // one sentence after the other
    std::vector<Phrase> cautions;
    std::optional<Phrase> blank; // a reading to write down
    std::string said(const Words& words) const;
};

struct WorkSheet {
    std::vector<Phrase> at_hand; // what to lay out before beginning, what must be bought among it
    std::vector<SheetStep> steps;
    std::vector<Phrase> back; // to how it was
};

// One step of those to come, in the sheet's sentences.
SheetStep sentences_of(const Report& report, const std::vector<Step>& to_come, std::size_t which);

// No steps where nothing fits; what to buy where that is all that is missing.
WorkSheet work_sheet(const Report& report, Way way);

// The sheet as lines of text: numbered steps, "!" before a caution, a blank to fill in.
std::string sheet_text(const WorkSheet& sheet, const Words& words);

// The sheet in words, for whoever lays it out anew: {"title", "answer", "strung": [], "hooks": {"title",
// "bass", "hook_mm": [], "hole_mm": [], "now_title", "now": [[hook, hole]], "next_title", "next"},
// "readings": {"title", "heads": []}, "details": [], "at_hand_title", "at_hand": [], "steps": [{"text",
// "cautions": [], "blank"}], "back_title", "back": [], "closing"}. Hooks and holes are counted from 0 at the
// bass side.
std::string sheet_json(const Report& report, const WorkSheet& sheet, const Words& words);

} // namespace counterpull
