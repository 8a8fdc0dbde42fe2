#include "engine/whatif/whatif.h"

#include "engine/base/embedded.h"
#include "engine/document/json_text.h"
#include "engine/say/whatif_json.h"
#include "engine/say/whatif_topics.h"
#include "tests/support.h"

#include <cmath>

using namespace counterpull;
using namespace counterpull::test;

TEST_CASE("every example has what else changes, as text in every language and as JSON") {
    for (const std::string& name : example_names()) {
        INFO(name);
        const Setup setup = example(name);
        const Report answer = answered(setup);
        const WhatIf effects = whatif(answer.solution);
        CHECK(effects.now.has_value() == setup.now.in_tune);
        CHECK(effects.next.has_value() == answer.next.has_value());
        for (const Language& language : languages()) {
            const std::string text = whatif_text(answer, effects, Words(language.code));
            CHECK(text.find("whatif.") == std::string::npos);
            CHECK(text.find('{') == std::string::npos);
            CHECK(text.find(" nan") == std::string::npos);
        }
        const Json json = Json::parse(whatif_json(effects));
        CHECK(json["format"] == "counterpull-whatif/1");
        CHECK(json.dump().find("nan") == std::string::npos);
        const std::size_t strings = setup.next.strings.size();
        for (const char* side : {"now", "next"}) {
            if (json[side].is_null())
                continue;
            CHECK(json[side]["bends"].size() == strings * bend_cents.size());
            CHECK(json[side]["arm"]["cents"].size() == static_cast<std::size_t>(arm_samples));
            CHECK(json[side]["without_string"].size() == strings);
            CHECK(json[side]["without_string"][0]["cents"].size() == strings);
            CHECK(json[side]["compensation"].size() == strings);
            CHECK(json[side]["nut"]["fine_tuner_cents"].size() == strings);
        }
    }
}

TEST_CASE("every table has a cell for every head") {
    const Setup setup = example("lower-and-heavier");
    const Report answer = answered(setup);
    const std::vector<Topic> topics = whatif_topics(answer, whatif(answer.solution));
    CHECK(topics.size() == 8);
    for (const Topic& topic : topics)
        for (const TopicTable& table : topic.tables)
            for (const TopicTable::Row& row : table.rows) {
                INFO(topic.id << ": " << table.title.key);
                CHECK(row.cells.size() + 1 == table.heads.size());
            }
}

TEST_CASE("what stands now and next is what the report says stands") {
    const Setup setup = example("lower-and-heavier");
    const Report answer = answered(setup);
    const WhatIf effects = whatif(answer.solution);
    for (const auto& [side, state] :
         {std::pair(&*effects.now, &answer.now), {&*effects.next, &*answer.next}}) {
        CHECK(side->stand.tail_m() * 1e3 == Approx(state->tail_mm).margin(1e-9));
        const Moved still = moved(side->stand, untouched(side->stand.lengths_m));
        CHECK(still.tail_m == Approx(side->stand.tail_m()).margin(1e-8)); // it does stand
        for (const auto& cents : still.cents)
            CHECK(*cents == Approx(0.0).margin(1e-3));
    }
}

TEST_CASE("nothing in tune and nothing that fits is said so") {
    Setup setup = example("cannot-float");
    const Report answer = answered(setup);
    WhatIf nothing;
    CHECK(whatif_topics(answer, nothing).empty());
    CHECK(whatif_text(answer, nothing, english()).find("nothing to compare") != std::string::npos);
}

TEST_CASE("the command line answers what if") {
    const Run text = run_command("whatif -", example_text("small-sag"));
    CHECK(text.exit == 0);
    CHECK(text.out.find("What a held string shows meanwhile") != std::string::npos);
    const Run json = run_command("whatif --json -", example_text("small-sag"));
    CHECK(Json::parse(json.out)["format"] == "counterpull-whatif/1");
    CHECK(run_command("whatif --language de -", example_text("small-sag")).out.find("Saite 1") !=
          std::string::npos);
    CHECK(run_command("whatif --language xx -", "{}").exit == 2);
    CHECK(run_command("whatif -", "{}").exit == 1);
}
