#include "engine/say/bench_json.h"

#include "engine/document/fields.h"
#include "engine/document/json_text.h"
#include "engine/say/answer.h"
#include "engine/say/springs_json.h"
#include "engine/say/work_sheet.h"

namespace counterpull {

namespace {

template <class Enum>
Json name_in(const Group& group, std::string_view key, Enum value) {
    return std::string(find_field(group, key)->names[static_cast<std::size_t>(value)]);
}
Json reading_name(const std::optional<ReadingKind>& kind) {
    return kind ? name_in(group_of<Reading>(), "reading", *kind) : Json(nullptr);
}

Json asks_json(const Step& step) {
    Json list = Json::array();
    for (const Asked& asked : step.asks) {
        Json one = object_of({{"field", asked.field == AskedField::tail_mm ? "tail_mm" : "cents"}});
        if (asked.field == AskedField::cents)
            one["string"] = asked.string;
        one["needed"] = asked.needed;
        if (asked.expected)
            one["expected"] = json_number(*asked.expected);
        list.push_back(std::move(one));
    }
    return list;
}

Json pair_json(const std::array<double, 2>& both) {
    Json list = Json::array();
    for (const double one : both)
        list.push_back(json_number(one));
    return list;
}

Json strings_json(const std::vector<StringSetup>& strings) {
    Json list = Json::array();
    for (const StringSetup& string : strings)
        list.push_back(object_of({{"gauge_in", json_number(string.gauge_in)}, {"wound", string.wound}}));
    return list;
}

void add_aims(const Step& step, Json& json) {
    Json aims = Json::array();
    for (const Aim& aim : step.aims)
        aims.push_back(object_of(
            {{"string", aim.string}, {"cents", json_number(aim.cents)}, {"hz", json_number(aim.hz)}}));
    json["aims"] = std::move(aims);
    json["rough"] = step.how == TuneHow::rough;
    json["plain"] = step.how == TuneHow::plain;
}

// What the kind says besides.
void add_quantities(const Report& report, const Step& step, const Words& words, Json& json) {
    const Setup& setup = report.setup();
    switch (step.kind) {
    case StepKind::test:
        json["string"] = step.test.string;
        json["by_cents"] = json_number(step.test.by_cents);
        return;
    case StepKind::slacken:
        json["by_cents"] = nullptr; // slack
        return;
    case StepKind::springs:
        json["off"] = placed_json(step.off);
        json["on"] = placed_json(step.on);
        return;
    case StepKind::turn_until:
        json["string"] = step.string;
        json["cents"] = json_number(step.cents);
        json["turns"] = pair_json(step.turns);
        return;
    case StepKind::turn:
        json["turns"] = pair_json(step.turns);
        return;
    case StepKind::strings:
        json["strings"] = strings_json(setup.next.strings);
        if (step.replaced > 0)
            json["string"] = step.replaced;
        return;
    case StepKind::wedge_in:
        json["tail_mm"] = json_number(step.tail_mm);
        json["side"] = "neck"; // of the block (wedge.h)
        return;
    case StepKind::tune:
        return add_aims(step, json);
    case StepKind::finished: {
        json["tail_mm"] = json_number(step.tail_mm);
        Json cents = Json::array();
        const bool read = !setup.log.empty() && setup.log.back().cents;
        for (std::size_t i = 0; i < setup.next.strings.size(); ++i)
            cents.push_back(read ? json_number((*setup.log.back().cents)[i]) : json_number(0.0));
        json["cents"] = std::move(cents);
        return;
    }
    case StepKind::cannot: {
        Json reasons = Json::array();
        for (const Phrase& reason : reasons_of(setup, report.solution.advised()))
            reasons.push_back(words.say(reason));
        for (const Alternative& other : report.instead)
            reasons.push_back(words.say(sentence_of(other)));
        json["reasons"] = std::move(reasons);
        return;
    }
    default:
        return;
    }
}

} // namespace

BenchSaid said(const Report& report, const Bench& bench, const Words& words) {
    std::vector<Step> to_come = steps(report, at_bench(report), bench.way);
    if (to_come.empty())
        to_come.push_back(bench.step);
    const SheetStep step = sentences_of(report, to_come, 0);
    BenchSaid said{step.said(words), {}};
    for (const Phrase& caution : step.cautions)
        said.cautions.push_back(words.say(caution));
    return said;
}

std::string bench_json(const Report& report, const Bench& bench, const Words& words) {
    const Setup& setup = report.setup();
    const Step& step = bench.step;
    const BenchSaid told = said(report, bench, words);
    Json cautions = Json::array();
    for (const std::string& caution : told.cautions)
        cautions.push_back(caution);
    const bool now = bench.against == Which::now;
    Json tuning = Json::array(), offsets = Json::array();
    const std::vector<Pitch>& notes = now ? setup.now.tuning : setup.next.tuning;
    const PerString& offset = now ? setup.now.offset_cents : setup.next.offset_cents;
    for (std::size_t i = 0; i < notes.size(); ++i) {
        tuning.push_back(name_of(notes[i]));
        offsets.push_back(json_number(offset.at(i)));
    }
    Json json = object_of({{"format", "counterpull-bench/1"},
                           {"step", bench.number},
                           {"of", bench.of},
                           {"do", name_in(group_of<StepDone>(), "do", step.kind)},
                           {"say", told.say},
                           {"cautions", std::move(cautions)},
                           {"asks", asks_json(step)},
                           {"reading", reading_name(step.reading)},
                           {"tuning", std::move(tuning)},
                           {"offset_cents", std::move(offsets)},
                           {"way", bench.way.wedge ? "wedge" : "plain"},
                           {"test", bench.way.test}});
    add_quantities(report, step, words, json);
    return json.dump(2) + "\n";
}

std::string bench_text(const Report& report, const Bench& bench, const Words& words) {
    const BenchSaid told = said(report, bench, words);
    std::string text = words.say(Phrase("bench.step").with("step", bench.number).with("of", bench.of)) +
                       "\n  " + told.say + "\n";
    for (const std::string& caution : told.cautions)
        text += "  ! " + caution + "\n";
    if (bench.step.kind != StepKind::cannot)
        return text;
    for (const Phrase& reason : reasons_of(report.setup(), report.solution.advised()))
        text += "  - " + words.say(reason) + "\n";
    for (const Alternative& other : report.instead)
        text += "  - " + words.say(sentence_of(other)) + "\n";
    return text;
}

} // namespace counterpull
