// More slips at the page and at the bench: steps of a number, units, drafts, hidden fields, taps on a word.
#include "tests/at_the_bench.h"
#include "tests/operated.h"

#include <algorithm>

using namespace counterpull;
using namespace counterpull::test;

TEST_CASE("a number stepped up and down again is the one that it was") {
    Operated page(example("small-sag"), desktop);
    const Setup before = page.setup();
    for (const char* id : {"guitar.spring.rate_n_mm", "guitar.bridge.block_depth_mm", "now.tail_mm",
                           "guitar.bay.turns_in_left"}) {
        INFO(id);
        page.ask(std::string(id) + "+", "");
        CHECK(page.setup() != before);
        page.ask(std::string(id) + "-", "");
        CHECK(page.setup() == before);
    }
}

TEST_CASE("a unit that is none of a length is refused, not taken for millimetres") {
    Operated page(example("small-sag"), desktop);
    page.ask("now.tail_mm", "2 N");
    CHECK(page.refused().size() == 1);
    page.ask("now.tail_mm", "0.2 cm");
    CHECK(page.setup().now.tail_mm == Approx(2.0));
}

TEST_CASE("where the job tunes round by round there is no sheet to go through") {
    Setup setup = example("small-sag");
    setup.now.tuning = notes_of("Eb2 Ab2 Db3 Gb3 Bb3 Eb4");
    setup.next.strings = setup.now.strings;
    setup.next.tuning = notes_of("E2 A2 D3 G3 B3 E4");
    setup.guitar.bay.turns_in_left = 2.0;
    const Report report = answered(setup);
    REQUIRE(report.tuning);
    const std::vector<Step> plain = steps(report, Way{});
    REQUIRE(std::none_of(plain.begin(), plain.end(), [](const Step& step) {
        return step.kind == StepKind::tune && step.how == TuneHow::aimed;
    }));
    for (const Screen& screen : {desktop, phone}) {
        Operated page(setup, screen);
        CHECK_FALSE(page.interface.bench().outdated());
        page.interface.controls().request("worksheet.wedge", "");
        page.draw(screen);
        page.interface.controls().request("worksheet.wedge", "");
        page.draw(screen);
    }
}

TEST_CASE("the keys bring what they reach of a list into view") {
    Operated page(example("small-sag"), phone);
    page.ask("next.strings", "");
    const std::size_t options = page.find("next.strings")->options.size();
    REQUIRE(options > 12);
    for (std::size_t i = 0; i < options; ++i) {
        ImGui::GetIO().AddKeyEvent(ImGuiKey_DownArrow, true);
        page.draw(phone, 1);
        ImGui::GetIO().AddKeyEvent(ImGuiKey_DownArrow, false);
        page.draw(phone, 1);
    }
    page.draw(phone);
    const Control* last = page.find("next.strings/" + std::to_string(options - 1));
    REQUIRE(last);
    CHECK(whole_in_sight(*last));
}

TEST_CASE("a number that stands refused, or one side of two, is no answer") {
    AtTheBench job(example("small-sag"));
    REQUIRE(job.due().step.kind == StepKind::note);
    job.press("job.tail_mm", "1.5");
    job.press("job.tail_mm", "1.5.5");
    job.press("job.done");
    CHECK(job.steps_done() == 0);
    CHECK(job.find("job.refused"));
    job.press("job.sides"); // what was typed for both in one goes with its field
    job.press("job.tail_bass", "1");
    job.press("job.done");
    CHECK(job.steps_done() == 0);
    job.press("job.tail_treble", "2");
    job.press("job.done");
    CHECK(job.steps_done() == 1);
    CHECK(job.setup().now.tail_mm == Approx(1.5));
}

TEST_CASE("a screw said to turn hard and gone back from is turned as told") {
    AtTheBench job(example("lower-and-heavier"));
    job.go_to(StepKind::turn);
    const std::array<double, 2> told = job.due().step.turns;
    CHECK(job.interface.unfinished()); // the dials turn
    job.press("job.wrong");
    CHECK_FALSE(job.interface.unfinished());
    job.press("job.hard");
    job.press("job.turned[0]", "much");
    job.press("job.so_far");
    REQUIRE(job.find("job.turned[0]"));
    job.press("job.back");
    job.press("job.done");
    CHECK(job.setup().bench->done.back().turned.value_or(told) == told);
}

TEST_CASE("cents that are hidden again are not read") {
    AtTheBench job(example("small-sag"));
    while (job.due().step.kind != StepKind::read || job.due().step.reading != ReadingKind::in_tune) {
        REQUIRE_FALSE(job.at_end());
        job.do_step();
    }
    job.press("job.out_of_tune");
    job.press("job.cents[6]", "12");
    job.press("job.out_of_tune");
    job.press("job.tail_mm", std::to_string(*job.due().step.asks.front().expected));
    job.press("job.done");
    REQUIRE_FALSE(job.setup().log.empty());
    CHECK_FALSE(job.setup().log.back().cents);
}

TEST_CASE("the tap that opens the meaning of a word, and the one that closes it, are not Done") {
    AtTheBench job(example("lower-and-heavier"));
    const Control* word = nullptr;
    for (const Control& control : job.interface.controls().all())
        if (control.id.starts_with("term."))
            word = &control;
    REQUIRE(word);
    const float low = job.find("job.done")->low.y - 12.0f;
    const float y = 0.5f * (word->low.y + word->high.y), x = 0.5f * (word->low.x + word->high.x);
    job.draw(job.screen, 40);
    job.tap(x, y);
    job.draw(job.screen, 40);
    CHECK(job.steps_done() == 0);
    job.tap(10.0f, low);
    CHECK(job.steps_done() == 0);
    job.draw(job.screen, 40);
    job.tap(10.0f, low);
    CHECK(job.steps_done() == 1);
}
