// How a job at the bench begins, by which way, and how it ends.
#include "shell/view_bench.h"

#include "engine/base/format.h"
#include "engine/say/answer.h"
#include "shell/widgets.h"

#include <imgui.h>

namespace counterpull {

namespace {

constexpr Way ways[] = {{true, false}, {false, false}, {false, true}};

struct WayText {
    Way way;
    std::string id, text;
};
struct WaysText {
    std::string taken;
    std::vector<WayText> others;
};

std::string text_of(const Desk& desk, const Job& job, const Way& way) {
    const Work work = predicted_work(job, way);
    return desk.say(Phrase(way.wedge  ? "bench.way_wedge"
                           : way.test ? "bench.way_test"
                                      : "bench.way_plain")
                        .with("time", time_in_words(work.minutes))
                        .with("visits", number(work.visits, 1)));
}

WaysText texts_of(const Desk& desk, const DueStep& due) {
    const Report& report = desk.bench.report();
    const Job& job = report.solution.advised().job;
    WaysText texts;
    texts.taken = text_of(desk, job, due.bench.way);
    for (const Way& way : ways)
        if (way != due.bench.way && (!way.wedge || report.wedge) && (!way.test || job.turns_sigma_tested))
            texts.others.push_back({way,
                                    way.wedge  ? "job.way_wedge"
                                    : way.test ? "job.way_test"
                                               : "job.way_plain",
                                    desk.say(Phrase("bench.instead").with("way", text_of(desk, job, way)))});
    return texts;
}

std::string both(const Desk& desk, const std::array<double, 2>& turns) {
    return desk.say(signed_number(turns[0], 2)) + ", " + desk.say(signed_number(turns[1], 2));
}

void draw_finished(const Desk& desk, const DueStep& due) {
    const auto& rows = desk.kept("job.rows", [&] {
        const Setup& setup = desk.bench.setup();
        const std::array<double, 2> none{};
        return std::vector<Lines>{
            {std::string(desk.say("text.tail")), desk.say(signed_millimetres(setup.now.tail_mm, 1)),
             desk.say(signed_millimetres(due.bench.step.tail_mm, 1))},
            {std::string(desk.say("bench.hooks")), desk.say(Parts{hooks_of(setup.now.springs)}),
             desk.say(Parts{hooks_of(due.at.springs)})},
            {std::string(desk.say("bench.turns")), both(desk, none), both(desk, due.at.turned)}};
    });
    table(desk, "job.table", desk.say("bench.title"),
          desk.kept(
              "job.heads",
              [&] {
                  return Lines{"", std::string(desk.say("ui.before")), std::string(desk.say("text.after"))};
              }),
          rows);
    space(8.0f);
    faint(desk, desk.say("bench.next_note"));
    if (wide_button(desk, "job.next", desk.say("bench.next"), ImGui::GetContentRegionAvail().x, 60.0f,
                    true)) {
        desk.bench.begin_step();
        desk.bench.edit(begin_next_job);
        desk.view.at_bench = {};
        desk.view.wish = "asleep";
    }
}

} // namespace

void draw_way(const Desk& desk, const DueStep& due) {
    const Setup& setup = desk.bench.setup();
    if (setup.bench && !setup.bench->done.empty())
        return;
    const WaysText& texts = desk.kept("job.ways", [&] { return texts_of(desk, due); });
    space(4.0f);
    body(desk, texts.taken);
    for (const WayText& other : texts.others)
        if (wide_button(desk, other.id, other.text, ImGui::GetContentRegionAvail().x, 52.0f, false)) {
            desk.bench.begin_step();
            desk.bench.edit([&](Setup& s) { s.bench = begin_job(s, other.way); });
            return;
        }
}

void draw_end(const Desk& desk, const DueStep& due) {
    if (due.bench.step.kind == StepKind::finished)
        return draw_finished(desk, due);
    for (const std::string& reason : desk.kept("job.reasons", [&] {
             Lines lines;
             for (const Phrase& phrase :
                  reasons_of(desk.bench.setup(), desk.bench.report().solution.advised()))
                 lines.push_back(desk.say(phrase));
             for (const Alternative& other : desk.bench.report().instead)
                 lines.push_back(desk.say(sentence_of(other)));
             return lines;
         }))
        body(desk, reason);
}

} // namespace counterpull
