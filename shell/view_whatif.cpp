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
    plot.explain(desk.say(title),
                 desk.say(Phrase("whatif.plot_text").with("first", 1).with("last", strings)));
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

void draw_topic_table(const Desk& desk, const std::string& id, const TopicTable& topic) {
    std::vector<std::string> heads;
    for (const Phrase& head : topic.heads)
        heads.push_back(desk.say(head));
    std::vector<std::vector<std::string>> rows;
    for (const TopicTable::Row& row : topic.rows) {
        std::vector<std::string> cells{desk.say(row.head)};
        for (const Parts& cell : row.cells)
            cells.push_back(desk.say(cell));
        rows.push_back(std::move(cells));
    }
    body(desk, desk.say(topic.title));
    table(desk, id, desk.say(topic.title), heads, rows);
    space(4.0f);
}

} // namespace

void draw_whatif(const Desk& desk) {
    const std::vector<Topic>& topics = desk.bench.effects().topics;
    if (topics.empty())
        body(desk, desk.say("whatif.nothing"));
    for (const Topic& topic : topics) {
        const std::string id = "whatif." + std::string(topic.id);
        if (!section(desk, "section." + id, desk.say(topic.title), ""))
            continue;
        for (const Phrase& sentence : topic.says)
            body(desk, desk.say(sentence));
        if (topic.id == "arm")
            draw_arms(desk);
        for (const TopicTable& rows : topic.tables)
            draw_topic_table(desk, id + "." + rows.title.key, rows);
        for (const Phrase& caution : topic.cautions)
            warning(desk, desk.say(caution));
    }
}

} // namespace counterpull
