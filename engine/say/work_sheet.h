// The work sheet: the steps of this very change in order, with its quantities, the readings to expect, the
// cautions where they bite, and the way back.
#pragma once

#include "engine/advice/report.h"
#include "engine/say/words.h"

#include <optional>
#include <vector>

namespace counterpull {

struct SheetStep {
    Phrase text;
    std::vector<Phrase> cautions;
    std::optional<Phrase> blank; // a reading to write down
};

struct WorkSheet {
    std::vector<Phrase> buy; // what is missing
    std::vector<SheetStep> steps;
    std::vector<Phrase> back; // to how it was
};

enum class SheetWay { wedge, plain };
// With the wedge for a big change, where it can be done; without for a mere correction.
SheetWay usual_way(const Report& report);

// No steps where nothing fits.
WorkSheet work_sheet(const Report& report, SheetWay way);

// The sheet as lines of text: numbered steps, "!" before a caution, a blank to fill in.
std::string sheet_text(const WorkSheet& sheet, const Words& words);

// The sheet in words, for whoever lays it out anew: {"title", "answer", "details": [], "buy_title", "buy":
// [], "steps": [{"text", "cautions": [], "blank"}], "back_title", "back": [], "closing"}.
std::string sheet_json(const Report& report, const WorkSheet& sheet, const Words& words);

} // namespace counterpull
