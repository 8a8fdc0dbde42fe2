#include "engine/document/choices.h"
#include "engine/document/document.h"
#include "engine/document/link.h"
#include "engine/say/bench_json.h"
#include "engine/say/work_sheet.h"
#include "tests/bench_support.h"
#include "tests/reference/random_setup.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cmath>
#include <set>
#include <utility>

using namespace counterpull;
using namespace counterpull::test;

TEST_CASE("the job done as told ends finished, by every way, on every example that can float") {
    for (const std::string& name : example_names()) {
        INFO(name);
        for (const Way way : {plain, wedge, test_first}) {
            const std::vector<StepKind> kinds = kinds_until_finished(by_way(example(name), way));
            CHECK(kinds.back() == (name == "cannot-float" ? StepKind::cannot : StepKind::finished));
        }
    }
}

TEST_CASE("any guitar's job comes to its end, wherever it is taken up") {
    int finished = 0, again = 0;
    for (std::uint64_t seed = 0; seed < 120; ++seed) {
        const SetupRead read = read_setup(reference::random_setup(seed).dump());
        REQUIRE(read.setup);
        if (!report(*read.setup).report)
            continue; // says nothing about where the claw is
        INFO("seed " << seed);
        const Way way = seed % 3 == 0 ? plain : seed % 3 == 1 ? wedge : test_first;
        Setup setup = *read.setup;
        if (setup.log.empty())
            setup = by_way(setup, way);
        Setup end;
        if (kinds_until_finished(setup, &end).back() != StepKind::finished)
            continue;
        ++finished;
        // And from there on, with readings in the log, to another tuning.
        end.bench.reset();
        keep_readings_true(setup, end);
        Setup other = end;
        for (Pitch& pitch : other.next.tuning)
            pitch = pitch_of_key(key_number(pitch) - 1);
        keep_readings_true(end, other);
        again += kinds_until_finished(other).back() == StepKind::finished;
    }
    CHECK(finished >= 20);
    CHECK(again >= 10);
}

TEST_CASE("the first step done writes down the way that takes the least work") {
    const Setup setup = example("lower-and-heavier");
    CHECK_FALSE(setup.bench);
    const Setup then = after(setup, {});
    REQUIRE(then.bench);
    CHECK(then.bench->way == BenchWay::wedge);
    CHECK(then.bench->done.size() == 1);
    CHECK(due_on(setup).number == 1);
    CHECK(due_on(then).number == 2);
    CHECK(due_on(then).of == due_on(setup).of);
}

TEST_CASE("a link, or the document, carries the job to another device at every step") {
    Setup setup = by_way(example("lower-and-heavier"), plain);
    for (int i = 0; i < most && due_on(setup).step.kind != StepKind::finished; ++i) {
        const SetupRead linked = open_link(link_of(setup)), read = read_setup(write_setup(setup));
        REQUIRE(linked.setup);
        REQUIRE(read.setup);
        CHECK(*linked.setup == setup);
        CHECK(*read.setup == setup);
        const Report here = answered(setup), there = answered(*linked.setup);
        CHECK(bench_json(here, bench(here), english()) == bench_json(there, bench(there), english()));
        setup = after(setup, as_expected(setup, due_on(setup).step));
    }
}

TEST_CASE("what is read goes into the log by itself, with the turns as they were made") {
    Setup setup = until(by_way(example("lower-and-heavier"), wedge), StepKind::turn);
    Answer answer;
    answer.turned = {-0.25, -0.5}; // not as told
    setup = after(setup, answer);
    // The rest of it is due before anything else.
    const Step rest = due_on(setup).step;
    REQUIRE(rest.kind == StepKind::turn);
    setup = until(setup, StepKind::wedge_out);
    CHECK(setup.log.empty());
    setup = after(setup, as_expected(setup, due_on(setup).step));
    REQUIRE(setup.log.size() == 1);
    CHECK(setup.log[0].kind == ReadingKind::wedge_out);
    CHECK(setup.log[0].turns[0] == Approx(-0.25 + rest.turns[0]));
    CHECK(setup.log[0].turns[1] == Approx(-0.5 + rest.turns[1]));
    CHECK(setup.log[0].tail_mm);
    // Stopped by the tuner and not counted: as expected, and known to be only that.
    const Step ease = due_on(setup).step;
    REQUIRE(ease.kind == StepKind::turn_until);
    setup = after(setup, {});
    REQUIRE(setup.log.size() == 2);
    CHECK_FALSE(setup.log[1].counted);
    CHECK(setup.log[1].turns[0] == Approx(setup.log[0].turns[0] + ease.turns[0]));
    REQUIRE(setup.log[1].cents);
    CHECK((*setup.log[1].cents)[6 - static_cast<std::size_t>(ease.string)] == ease.cents);
    setup = until(setup, StepKind::read);
    Answer read;
    read.tail_mm = 0.2;
    setup = after(setup, read);
    CHECK(setup.log.back().kind == ReadingKind::in_tune);
    CHECK(setup.log.back().tail_mm == 0.2);
    CHECK_FALSE(setup.log.back().cents); // in tune is exactly that
}

TEST_CASE("a step done that does not say how far the screws were turned was done as told") {
    for (const Way way : {plain, wedge}) {
        Setup setup = until(by_way(example("lower-and-heavier"), way), StepKind::turn);
        const Setup told = after(setup, {});
        StepDone turn;
        turn.kind = StepKind::turn;
        setup.bench->done.push_back(turn);
        const Step here = due_on(setup).step, there = due_on(told).step;
        CHECK(here.kind == there.kind);
        CHECK(at_bench(answered(setup)).turned[0] == Approx(at_bench(told).turned[0]));
    }
}

TEST_CASE("the tail may be corrected, and read on two sides, before anything is touched") {
    Answer answer;
    answer.tail_sides_mm = {-1.6, -1.0};
    const Setup setup = after(example("small-sag"), answer);
    CHECK(setup.now.tail_mm == Approx(-1.3));
    CHECK(setup.now.tail_sides_mm == std::array<double, 2>{-1.6, -1.0});
    CHECK(setup.log.empty());
    answer.tail_sides_mm = {44.0, 46.0}; // beyond its stop
    CHECK(refused_at(example("small-sag"), answer) == "tail_sides_mm");
}

TEST_CASE("where something was read on the way, what stood before the first turn is not asked for again") {
    Setup setup = after(until(by_way(example("small-sag"), plain), StepKind::turn_until), {});
    REQUIRE(setup.log.back().kind == ReadingKind::after_turn);
    setup.bench.reset();
    const Step again = due_on(setup).step;
    REQUIRE(again.kind == StepKind::note);
    CHECK(again.asks.empty());
    CHECK(after(setup, {}).now == setup.now);
    Answer answer;
    answer.tail_mm = -0.9;
    CHECK(refused_at(setup, answer) == "tail_mm");
    CHECK_FALSE(work_sheet(answered(setup), plain).steps[0].blank);
}

TEST_CASE("that all is in tune is no reading by itself, where a reading is taken in tune anyhow") {
    const Setup setup = until(by_way(example("small-sag"), plain), StepKind::wait);
    Answer answer;
    answer.in_tune = true;
    CHECK(after(setup, answer).log == setup.log);
}

TEST_CASE("a test reading goes into the log, though it is cents alone") {
    const Setup asked = until(by_way(example("lower-and-heavier"), test_first), StepKind::test);
    const Step test = due_on(asked).step;
    const Setup read = after(asked, as_expected(asked, test));
    REQUIRE(read.log.size() == 1);
    CHECK(read.log[0].kind == test.test.kind);
    CHECK_FALSE(read.log[0].tail_mm);
    REQUIRE(read.log[0].cents);
    // Of the string let down nothing is read, though it was heard with the others.
    Answer heard;
    heard.cents = std::vector<std::optional<double>>(asked.next.strings.size(), 4.0);
    const Reading entry = after(asked, heard).log.back();
    const std::size_t place = asked.next.strings.size() - static_cast<std::size_t>(test.test.string);
    for (std::size_t i = 0; i < entry.cents->size(); ++i)
        CHECK((*entry.cents)[i].has_value() == (i != place));
}

TEST_CASE("a test reading is taken before the first visit to the claw or not at all") {
    Setup setup = until(by_way(example("lower-and-heavier"), plain), StepKind::tune);
    setup = after(setup, {});
    REQUIRE(setup.log.empty());
    REQUIRE(at_bench(setup).visits == 1);
    REQUIRE(best_test_reading(answered(setup).solution));
    setup.bench->test = true; // thought of only now
    CHECK(due_on(setup).step.kind == StepKind::tune);
}

TEST_CASE("off by more than a ruler shows there is another visit, off by less the job is finished") {
    const Setup read = until(by_way(example("lower-and-heavier"), wedge), StepKind::read);
    Answer level, off;
    level.tail_mm = 0.4;
    off.tail_mm = 3.0;
    CHECK(due_on(after(read, level)).step.kind == StepKind::wait);
    const Step again = due_on(after(read, off)).step;
    CHECK((again.kind == StepKind::turn_until || again.kind == StepKind::slacken));
    // Too high is tightened.
    Answer low;
    low.tail_mm = -3.0;
    Setup lower = after(read, low);
    REQUIRE(due_on(lower).step.kind == StepKind::turn_until);
    CHECK(due_on(lower).step.turns[0] < 0.0);
}

TEST_CASE("a tail that is clearly off is never called finished, whatever was believed before") {
    Setup setup = example("lower-and-heavier");
    setup.next.strings = setup.now.strings;
    setup.now.tuning = notes_of("Eb2 Ab2 Db3 Gb3 Bb3 Eb4");
    setup.next.tuning = notes_of("E2 A2 D3 G3 B3 E4");
    setup = until(by_way(setup, wedge), StepKind::read);
    for (const double off_mm : {4.0, -4.0}) {
        Answer answer;
        answer.tail_mm = off_mm;
        const Step next = due_on(after(setup, answer)).step;
        INFO(off_mm << " mm");
        CHECK(next.kind != StepKind::wait);
        if (next.kind == StepKind::turn_until)
            CHECK(next.turns[0] * off_mm > 0.0);
    }
}

TEST_CASE("a reading that surprises is answered at the screws: nobody changes springs for it") {
    // Common practice: what is on and fits is turned, as long as there is thread.
    for (const auto& [wanted, off_mm] : {std::pair("D2 A2 D3 F#3 A3 D4", 4.0),
                                         {"D2 A2 D3 F#3 A3 D4", -4.0},
                                         {"F2 Bb2 Eb3 Ab3 C4 F4", 4.0}}) {
        Setup setup = example("lower-and-heavier");
        setup.next.strings = setup.now.strings;
        setup.next.tuning = notes_of(wanted);
        setup = until(by_way(setup, wedge), StepKind::read);
        Answer answer;
        answer.tail_mm = off_mm;
        const Setup then = after(setup, answer);
        INFO(wanted << ", " << off_mm << " mm");
        const Report report = answered(then);
        CHECK(report.solution.advised().moved == 0);
        CHECK(report.solution.more_turns() * off_mm > 0.0);
    }
}

TEST_CASE("a reading that is in doubt is taken twice before a screw is turned for it") {
    const Setup read = until(by_way(example("lower-and-heavier"), wedge), StepKind::read);
    Answer answer;
    answer.tail_mm = 1.2; // where all before it said level
    const Setup then = after(read, answer);
    const Report report = answered(then);
    REQUIRE(std::abs(report.solution.more_turns()) > 1.0 / 16.0);
    CHECK(bench(report).step.kind == StepKind::read);
    CHECK(due_on(after(then, answer)).step.kind != StepKind::read);
}

TEST_CASE("strings out of tune at the reading are tuned, and read again, in the same visit") {
    Setup setup = until(by_way(example("lower-and-heavier"), wedge), StepKind::read);
    Answer answer;
    answer.tail_mm = 0.0;
    answer.cents = {{0.0, -6.0, 0.0, 0.0, 0.0, 0.0}};
    setup = after(setup, answer);
    REQUIRE(due_on(setup).step.kind == StepKind::tune);
    setup = after(setup, {});
    CHECK(due_on(setup).step.kind == StepKind::read);
}

TEST_CASE("an answer that is missing, not asked for or not possible is refused, and nothing is lost") {
    const Setup read = until(by_way(example("lower-and-heavier"), wedge), StepKind::read);
    CHECK(refused_at(read, {}) == "tail_mm");
    Answer answer;
    answer.tail_mm = 44.0; // beyond its stop
    CHECK(refused_at(read, answer) == "tail_mm");
    answer.tail_mm = 0.0;
    answer.turned = {1.0, 1.0};
    CHECK(refused_at(read, answer) == "turned");
    answer.turned.reset();
    answer.cents = {{0.0, 0.0}};
    CHECK(refused_at(read, answer) == "cents");
    Answer spring;
    spring.happened = Mishap::spring_off;
    CHECK(refused_at(read, spring) == "hook");
    spring.hook = 1; // has none
    CHECK(refused_at(read, spring) == "hook");
    Answer string;
    string.happened = Mishap::string_broke;
    string.string = 7;
    CHECK(refused_at(read, string) == "string");
    CHECK(refused_at(until(read, StepKind::finished), {}) == "");
}

TEST_CASE("text that is no answer is refused with its place") {
    CHECK(read_answer("{}").answer);
    CHECK(read_answer(R"({"tail_mm": 0.4, "in_tune": true})").answer->tail_mm == 0.4);
    CHECK(read_answer(R"({"happened": "spring off", "hook": 2})").answer->happened == Mishap::spring_off);
    const auto place = [](const char* text) { return read_answer(text).problems.told.at(0).path; };
    CHECK(place(R"({"tail": 0.4})") == "tail");
    CHECK(place(R"({"tail_mm": "low"})") == "tail_mm");
    CHECK(place(R"({"happened": "rain"})") == "happened");
    CHECK(place(R"({"turned": [1]})") == "turned");
    CHECK(place(R"({"turned": [1, 100]})") == "turned[1]");
    CHECK_FALSE(read_answer("[]").answer);
    CHECK_FALSE(read_answer("{").answer);
}

TEST_CASE("the wanted tuning may be changed in the middle of a job") {
    Setup setup = until(by_way(example("lower-and-heavier"), wedge), StepKind::read);
    Answer level;
    level.tail_mm = 0.0;
    setup = until(after(setup, level), StepKind::check);
    Setup changed = setup;
    changed.next.tuning = notes_of("Db2 Gb2 B2 E3 Ab3 Db4");
    changed.bench->tuning_since = static_cast<int>(changed.bench->done.size());
    const std::vector<StepKind> kinds = kinds_until_finished(changed);
    CHECK(kinds.front() != StepKind::check);
    CHECK(std::find(kinds.begin(), kinds.end(), StepKind::read) != kinds.end());
    CHECK(kinds.back() == StepKind::finished);
}

TEST_CASE("the step that is due, as JSON, has what the contract names") {
    Setup setup = by_way(example("lower-and-heavier"), wedge);
    std::set<std::string> seen;
    for (int i = 0; i < most; ++i) {
        const Report report = answered(setup);
        const auto json = nlohmann::json::parse(bench_json(report, bench(report), english()));
        const std::string kind = json.at("do");
        seen.insert(kind);
        INFO(kind);
        CHECK(json.at("format") == "counterpull-bench/1");
        CHECK(json.at("step") == i + 1);
        CHECK(json.at("of") >= json.at("step"));
        CHECK(json.at("say").get<std::string>().size() > 5);
        CHECK(json.at("tuning").size() == 6);
        CHECK(json.at("offset_cents").size() == 6);
        for (const auto& asked : json.at("asks")) {
            CHECK((asked.at("field") == "tail_mm" || asked.contains("string")));
            CHECK(asked.contains("needed"));
        }
        CHECK((json.at("asks").empty() || kind == "note" || !json.at("reading").is_null()));
        if (kind == "turn" || kind == "turn until")
            CHECK(json.at("turns").size() == 2);
        if (kind == "tune")
            CHECK(json.at("aims").size() == 6);
        if (kind == "wedge in")
            CHECK((json.at("side") == "neck" || json.at("side") == "tail"));
        if (kind == "finished")
            break;
        setup = after(setup, as_expected(setup, bench(report).step));
    }
    CHECK(seen.size() >= 11);
}

TEST_CASE("a pass of aims that went on by ear until all were in tune counts as tuned plainly") {
    const Setup setup = until(by_way(example("small-sag"), plain), StepKind::tune);
    REQUIRE(due_on(setup).step.how == TuneHow::aimed);
    Answer in_tune;
    in_tune.in_tune = true;
    const Setup by_ear = after(setup, in_tune), by_aims = after(setup, {});
    CHECK(by_ear.bench->done.back().how == TuneHow::plain);
    CHECK(due_on(by_ear).step.reading == ReadingKind::in_tune);
    CHECK(by_aims.bench->done.back().how == TuneHow::aimed);
    CHECK(due_on(by_aims).step.look);
    // Under the wedge the pass is not the last.
    const Setup wedged = until(by_way(example("lower-and-heavier"), wedge), StepKind::wedge_in);
    const Setup rough = until(after(wedged, {}), StepKind::tune);
    const Setup aimed = due_on(rough).step.how == TuneHow::rough ? after(rough, {}) : rough;
    REQUIRE(due_on(aimed).step.how == TuneHow::aimed);
    CHECK(after(aimed, in_tune) == after(aimed, {}));
}
