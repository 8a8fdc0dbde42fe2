// What else changes: each topic folded, with its sentences, plots and tables.
#include "engine/base/put_in_order.h"
#include "engine/base/units.h"
#include "engine/say/whatif_topics.h"
#include "shell/drawing.h"
#include "shell/views.h"
#include "shell/widgets.h"

#include <algorithm>

namespace counterpull {

namespace {

constexpr float names_width = 64.0f;
constexpr double lowest_shown = -24.0; // semitones

// Names in a column beside the plot, each as near to its line's end as the others let it.
void name_lines(const Desk& desk, const Plot& plot, std::vector<std::pair<ImVec2, std::string>> ends) {
    const float height = desk.theme.fonts.small->FontSize;
    put_in_order(ends, [](const auto& a, const auto& b) { return a.first.y < b.first.y; });
    std::vector<float> places;
    float next = plot.top();
    for (const auto& [end, name] : ends)
        next = places.emplace_back(std::max(next, end.y - 0.5f * height)) + height;
    // Pushed down too far, they move up again from the foot.
    float foot = plot.bottom();
    for (std::size_t i = places.size(); i-- > 0;)
        foot = places[i] = std::min(places[i], foot - height);
    for (std::size_t i = 0; i < ends.size(); ++i) {
        const float x = plot.right() + 14.0f;
        plot.line(ends[i].first, {x - 3.0f, places[i] + 0.5f * height}, desk.theme.colours.line);
        plot.label({x, places[i]}, ends[i].second, desk.theme.colours.ink);
    }
}

void draw_arm(const Desk& desk, const char* id, const char* title, const ArmRange& arm,
              const std::vector<Pitch>& tuning, double rest_m) {
    const Colours& c = desk.theme.colours;
    auto across = [&](double metres) {
        return from_document(mm_from_metres(metres), Measure::length, desk.words.units());
    };
    double low = 0.0, high = 0.0;
    for (const ArmSample& sample : arm.samples)
        for (const auto& cents : sample.cents)
            if (cents) {
                low = std::min(low, *cents / 100.0);
                high = std::max(high, *cents / 100.0);
            }
    low = std::max(low, lowest_shown);
    body(desk, desk.say(title));
    const Plot plot(desk, id, 240.0f,
                    {across(arm.samples.front().tail_m), across(arm.samples.back().tail_m),
                     unit_name(Measure::length, desk.words.units())},
                    {low, high, desk.say("whatif.semitones")}, names_width);
    plot.line(plot.at(across(rest_m), low), plot.at(across(rest_m), high), c.faint);
    std::vector<std::pair<ImVec2, std::string>> ends;
    const std::size_t strings = arm.strings.size();
    for (std::size_t s = 0; s < strings; ++s) {
        std::vector<ImVec2> points;
        for (const ArmSample& sample : arm.samples)
            if (sample.cents[s] && *sample.cents[s] >= 100.0 * lowest_shown)
                points.push_back(plot.at(across(sample.tail_m), *sample.cents[s] / 100.0));
        if (points.empty())
            continue;
        plot.lines(points, false, c.ink, 1.6f);
        ends.emplace_back(points.back(), std::to_string(strings - s) + " " + desk.say(tuning[s]));
    }
    name_lines(desk, plot, std::move(ends));
    plot.explain(desk.say(title), desk.kept("text of plots", [&] {
        return desk.say(Phrase("whatif.plot_text")
                            .with("unit", unit_name(Measure::length, desk.words.units()))
                            .with("first", 1)
                            .with("last", strings));
    }));
}

void draw_arms(const Desk& desk) {
    const WhatIf& answer = desk.bench.effects().answer;
    const Setup& setup = desk.bench.answered();
    if (answer.now)
        draw_arm(desk, "arm now", "whatif.plot_now", answer.now->arm, setup.now.tuning,
                 answer.now->stand.tail_m());
    if (answer.next)
        draw_arm(desk, "arm next", "whatif.plot_next", answer.next->arm, setup.next.tuning,
                 answer.next->stand.tail_m());
}

// A topic in words.
struct TableText {
    std::string id, title;
    Lines heads;
    std::vector<Lines> rows;
};
struct TopicText {
    std::string id, title;
    Lines says, cautions;
    std::vector<TableText> tables;
    bool has_plots;
};

Lines in_words(const Desk& desk, const std::vector<Phrase>& phrases) {
    Lines lines;
    for (const Phrase& phrase : phrases)
        lines.push_back(desk.say(phrase));
    return lines;
}

TableText text_of(const Desk& desk, const std::string& id, const TopicTable& table) {
    TableText text{id + "." + table.title.key, desk.say(table.title), in_words(desk, table.heads), {}};
    for (const TopicTable::Row& row : table.rows) {
        Lines& cells = text.rows.emplace_back(Lines{desk.say(row.head)});
        for (const Parts& cell : row.cells)
            cells.push_back(desk.say(cell));
    }
    return text;
}

std::vector<TopicText> texts_of(const Desk& desk, const std::vector<Topic>& topics) {
    std::vector<TopicText> texts;
    for (const Topic& topic : topics) {
        const std::string id = "whatif." + std::string(topic.id);
        TopicText& text = texts.emplace_back(TopicText{"section." + id,
                                                       desk.say(topic.title),
                                                       in_words(desk, topic.says),
                                                       in_words(desk, topic.cautions),
                                                       {},
                                                       topic.id == "arm"});
        for (const TopicTable& table : topic.tables)
            text.tables.push_back(text_of(desk, id, table));
    }
    return texts;
}

} // namespace

void draw_whatif(const Desk& desk) {
    const auto& topics = desk.kept("topics", [&] { return texts_of(desk, desk.bench.effects().topics); });
    if (topics.empty())
        body(desk, desk.say("whatif.nothing"));
    for (const TopicText& topic : topics) {
        if (!section(desk, topic.id, topic.title, ""))
            continue;
        for (const std::string& sentence : topic.says)
            body(desk, sentence);
        if (topic.has_plots)
            draw_arms(desk);
        for (const TableText& text : topic.tables) {
            body(desk, text.title);
            table(desk, text.id, text.title, text.heads, text.rows);
            space(4.0f);
        }
        for (const std::string& caution : topic.cautions)
            warning(desk, caution);
    }
}

} // namespace counterpull
