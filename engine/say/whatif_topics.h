// What else changes, for people: topics with sentences and tables, for the screen and for print alike.
#pragma once

#include "engine/advice/report.h"
#include "engine/say/words.h"
#include "engine/whatif/whatif.h"

#include <string>
#include <string_view>
#include <vector>

namespace counterpull {

struct TopicTable {
    struct Row {
        Phrase head;
        std::vector<Parts> cells;
    };
    Phrase title;
    std::vector<Phrase> heads; // the first over the rows' heads
    std::vector<Row> rows;     // each with a cell less than there are heads
};
struct Topic {
    std::string_view id;
    Phrase title;
    std::vector<Phrase> says;
    std::vector<TopicTable> tables;
    std::vector<Phrase> cautions;
};
std::vector<Topic> whatif_topics(const Report& report, const WhatIf& answer);
std::string whatif_text(const Report& report, const WhatIf& answer, const Words& words);

} // namespace counterpull
