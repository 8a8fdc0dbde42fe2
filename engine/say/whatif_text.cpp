#include "engine/say/text_table.h"
#include "engine/say/whatif_topics.h"

namespace counterpull {

std::string whatif_text(const Report& report, const WhatIf& answer, const Words& words) {
    const std::string& title = report.setup().title;
    std::string out = title.empty() ? "" : title + "\n\n";
    const std::vector<Topic> topics = whatif_topics(report, answer);
    if (topics.empty())
        return out + std::string(words.text("whatif.nothing")) + "\n";
    for (const Topic& topic : topics) {
        out += (&topic == &topics.front() ? "" : "\n") + words.say(topic.title) + "\n";
        for (const Phrase& sentence : topic.says)
            out += "  " + words.say(sentence) + "\n";
        for (const TopicTable& rows : topic.tables) {
            TextTable table;
            std::vector<std::string> heads;
            for (const Phrase& head : rows.heads)
                heads.push_back(words.say(head));
            table.row(std::move(heads));
            for (const TopicTable::Row& row : rows.rows) {
                std::vector<std::string> cells = {words.say(row.head)};
                for (const Parts& cell : row.cells)
                    cells.push_back(words.say(cell));
                table.row(std::move(cells));
            }
            out += "\n  " + words.say(rows.title) + "\n" + table.text();
        }
        for (const Phrase& caution : topic.cautions)
            out += "  ! " + words.say(caution) + "\n";
    }
    return out;
}

} // namespace counterpull
