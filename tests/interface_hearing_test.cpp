// Listening on the page, without a window and without a microphone: what would be heard is told as the
// platform tells it (web/hearing/hearing.cpp).
#include "engine/advice/bench.h"
#include "engine/base/embedded.h"
#include "engine/say/listen_for.h"
#include "tests/bench_support.h"
#include "tests/headless.h"

#include <nlohmann/json.hpp>

#include <cmath>
#include <optional>
#include <regex>

using namespace counterpull;
using namespace counterpull::test;

namespace {

using Shown = std::vector<std::optional<double>>; // cents, lowest string first

class Listening : public Headless {
  public:
    explicit Listening(Setup setup, const Screen& on = phone, const char* language = "en")
        : Headless(std::move(setup)), screen(on) {
        interface.preferences().language = language;
        draw(screen);
    }
    void press(const std::string& id, const std::string& value = "") {
        draw(screen);
        INFO(id);
        REQUIRE(find(id));
        interface.controls().request(id, value);
        draw(screen);
    }
    // Until a step of this kind is due, all as expected; then its button is pressed.
    void listen_at(StepKind kind) {
        interface.bench().open(until(interface.bench().setup(), kind));
        press("job.open");
        press("job.listen");
        REQUIRE(interface.take_wish() == "listen");
    }
    std::size_t strings() { return strings_of(interface.bench().setup()); }
    // Struck now, for so long all sound like this; `live`: the place of the only one that sounds.
    void hear(const Shown& shown, double for_s, std::optional<std::size_t> live = {}) {
        struck_s = now_s - 0.25;
        ring_on(shown, for_s, live);
    }
    void ring_on(const Shown& shown, double for_s, std::optional<std::size_t> live = {}) {
        for (const double until_s = now_s + for_s; now_s < until_s; now_s += 0.05) {
            std::vector<double> told = {now_s, now_s - struck_s, 0.1, -1.0, 0.0, 0.0};
            if (live) {
                told[3] = static_cast<double>(*live);
                told[4] = shown[*live].value();
                told[5] = 0.3;
            }
            for (int list = 0; list < 2; ++list)
                for (const auto& cents : shown) {
                    const double one[] = {cents ? 1.0 : 0.0, 100.0, cents.value_or(0.0), 0.3,
                                          now_s - 0.25,      1.0};
                    told.insert(told.end(), std::begin(one), std::end(one));
                }
            interface.hear(nlohmann::json(told).dump(), note);
            draw(screen, 1);
        }
        draw(screen);
    }
    Shown only(std::size_t place, double cents) {
        Shown shown(strings());
        shown[place] = cents;
        return shown;
    }
    Bench due() { return bench(interface.bench().report()); }
    std::string value(const std::string& id) {
        draw(screen);
        const Control* control = find(id);
        return control ? control->value : "(none)";
    }
    std::string label(const std::string& id) {
        draw(screen);
        const Control* control = find(id);
        return control ? control->label : "(none)";
    }
    std::vector<double> told() {
        return nlohmann::json::parse(interface.listened_for()).get<std::vector<double>>();
    }

    const Screen screen;
    double now_s = 1.0, struck_s = 0.0;
    std::string note;
};

// The string that is due, by its place, and its aim: what it is told to be off, played at its note.
struct Due {
    std::size_t place;
    double aim_cents;
};
Due due_string(Listening& page) {
    const std::string label = page.label("job.aim"); // "String 6, 1 of 6"
    const int string = std::stoi(label.substr(label.find(' ')));
    const std::size_t place = page.strings() - static_cast<std::size_t>(string);
    page.hear(page.only(place, 0.0), 0.1, place);
    const std::string shown = page.value("job.listen[" + std::to_string(string) + "]");
    std::smatch off;
    INFO(shown);
    REQUIRE(std::regex_search(shown, off, std::regex(", (\\+|−)?(\\d+) ±")));
    return {place, std::stod(off[2]) * (off[1] == "−" ? 1.0 : -1.0)};
}

} // namespace

TEST_CASE("the microphone is asked for when its button is pressed, no sooner, and told where to look") {
    Listening page(example("lower-and-heavier"));
    page.open_everything(phone);
    CHECK_FALSE(page.interface.has_wish());
    CHECK(page.told().empty());
    page.press("hearing.now");
    CHECK(page.interface.take_wish() == "listen");
    CHECK(page.label("hearing.now") == "Asking for the microphone");
    Problems problems;
    const auto strings = targets_of(example("lower-and-heavier"), Which::now, {}, problems);
    const std::vector<double> told = page.told();
    REQUIRE(told.size() == 4 * strings.size());
    CHECK(std::abs(told[0] - strings[0].hz) < 1e-6);
    CHECK(told[2] == 0.0); // nobody knows what it shows
    CHECK(std::abs(told[3] / strings[0].inharmonicity - 1.0) < 1e-6);
    page.hear({3.4, {}, {}, {}, {}, -12.0}, 0.1);
    CHECK(page.label("hearing.now") == "Listening: press to stop");
    CHECK(page.value("hearing.now[6]") == "E2 +3, +3 ± 1, loosen");
    CHECK(page.value("hearing.now[5]") == "not heard yet");
    CHECK(page.value("hearing.now[1]") == "E4 −12, −12 ± 1, tighten");
    page.press("hearing.now");
    CHECK(page.interface.take_wish() == "deaf");
    CHECK(page.label("hearing.now") == "Listen to the strings");
    CHECK(page.value("hearing.now[6]") == "(none)");
}

TEST_CASE("a desktop window, which has no microphone, offers none") {
    Screen window = desktop;
    window.in_a_page = false;
    Listening page(example("lower-and-heavier"), window);
    page.open_everything(window);
    for (const Control& control : page.interface.controls().all())
        CHECK(control.label != "Listen to the strings");
}

TEST_CASE("what a reading shows is heard, all strings in one strum, and is one step to undo") {
    Listening page(example("small-sag"));
    page.open_everything(phone);
    page.press("log.add", "right after a turn, nothing retuned");
    page.press("log[0].listen");
    CHECK(page.interface.take_wish() == "listen");
    page.hear({1.24, -2.0, 3.0, {}, 5.0, 6.0}, 0.2);
    REQUIRE(page.interface.bench().setup().log.size() == 1);
    const auto& cents = page.interface.bench().setup().log[0].cents;
    REQUIRE(cents);
    CHECK(*cents == Shown{1.2, -2.0, 3.0, {}, 5.0, 6.0});
    page.press("undo");
    CHECK(page.interface.bench().setup().log.empty());
}

TEST_CASE("listening ends with a reason: it is told there, and numbers can be typed") {
    Listening page(example("small-sag"));
    page.listen_at(StepKind::tune);
    page.note = "Too quiet.";
    page.hear(Shown(6), 0.1);
    CHECK(page.value("job.listen.note") == "Too quiet.");
    page.interface.stop_hearing("No microphone was found.");
    CHECK(page.label("job.listen") == "Listen to the strings");
    CHECK(page.value("job.listen.note") == "No microphone was found.");
    CHECK(page.find("job.done"));
    page.press("job.listen");
    CHECK(page.interface.take_wish() == "listen");
    CHECK(page.value("job.listen.note") == "(none)");
}

TEST_CASE("a step that asks cents enters what is heard; what is typed over it stays") {
    Listening page(by_way(example("small-sag"), plain));
    page.listen_at(StepKind::read);
    REQUIRE(page.due().step.look);
    page.hear({2.26, 1.0, {}, {}, {}, {}}, 0.1);
    CHECK(page.value("job.listen[6]") == "D2 +2, +2 ± 1"); // it is read, not tuned
    CHECK(page.value("job.cents[6]") == "+2.3 cents");
    CHECK(page.value("job.cents[5]") == "(none)"); // not asked
    page.press("job.cents[6]", "7");
    page.ring_on({2.4, 1.0, {}, {}, {}, {}}, 0.1); // the same pluck
    CHECK(page.value("job.cents[6]") == "+7 cents");
    page.hear({2.26, 1.0, {}, {}, {}, {}}, 0.1);
    CHECK(page.value("job.cents[6]") == "+2.3 cents");
    page.ring_on({2.31, 1.0, {}, {}, {}, {}}, 0.1);
    page.press("job.tail_mm", "0.5");
    page.press("job.done");
    const auto& log = page.interface.bench().setup().log;
    REQUIRE_FALSE(log.empty());
    REQUIRE(log.back().cents);
    CHECK((*log.back().cents)[0] == 2.3);
    CHECK(log.back().tail_mm == 0.5);
}

TEST_CASE("while the claw is turned the string to watch comes nearer to its stop, and no tuner is named") {
    Listening page(by_way(example("small-sag"), plain));
    page.listen_at(StepKind::turn_until);
    const Step step = page.due().step;
    const std::size_t place = page.strings() - static_cast<std::size_t>(step.string);
    const std::string row = "job.listen[" + std::to_string(step.string) + "]";
    page.hear(page.only(place, step.cents + 8.0), 0.1, place);
    CHECK(page.value(row).ends_with(", +8 ± 1"));
    page.hear(page.only(place, step.cents + 0.4), 0.1, place);
    CHECK(page.value(row).ends_with(", 0 ± 1, there"));
    // The others have stops of their own.
    const std::vector<double> stops = shown_when_turned(answered(page.interface.bench().setup()), step);
    REQUIRE(stops.size() == page.strings());
    const std::size_t other = place == 0 ? 1 : 0;
    page.hear(page.only(other, stops[other]), 0.1, other);
    CHECK(page.value("job.listen[" + std::to_string(page.strings() - other) + "]").ends_with(", there"));
}

TEST_CASE("tuning goes on by itself when a string has stood within a cent of its aim for a second") {
    Listening page(by_way(example("lower-and-heavier"), wedge));
    page.listen_at(StepKind::tune);
    while (page.due().step.how == TuneHow::rough) { // brought up, no finer than need be
        const std::size_t done = page.interface.bench().setup().bench->done.size();
        for (std::size_t i = 0; i < page.strings(); ++i) {
            const auto [place, aim_cents] = due_string(page);
            page.hear(page.only(place, aim_cents + 7.0), 0.8, place);
        }
        REQUIRE(page.interface.bench().setup().bench->done.size() == done + 1);
    }
    REQUIRE(page.due().step.kind == StepKind::tune);
    REQUIRE(page.due().step.wedged); // whose aims are all at pitch
    const std::string first = page.label("job.aim");
    page.hear(page.only(0, 2.6), 2.0, 0); // near is not there
    CHECK(page.label("job.aim") == first);
    page.hear(page.only(0, 0.6), 0.7, 0); // not long enough
    CHECK(page.label("job.aim") == first);
    page.hear(page.only(0, 0.6), 0.5, 0);
    CHECK(page.label("job.aim") != first);
    const std::size_t done = page.interface.bench().setup().bench->done.size();
    for (std::size_t i = 1; i < page.strings(); ++i)
        page.hear(page.only(i, -0.4), 1.3, i);
    page.hear(Shown(page.strings(), 0.3), 0.2);
    CHECK(page.interface.bench().setup().bench->done.size() == done + 1);
}

TEST_CASE("what the others show makes other aims of those to come") {
    Listening page(by_way(example("small-sag"), plain));
    page.listen_at(StepKind::tune);
    REQUIRE(page.due().step.how == TuneHow::aimed);
    const std::string told = page.value("job.aim");
    const std::vector<double> begin = answered(page.interface.bench().setup()).tuning->begin_cents;
    Shown shown(begin.begin(), begin.end());
    for (auto& cents : shown)
        *cents -= 12.0; // the bridge stands elsewhere than was thought
    page.hear(shown, 0.2);
    CHECK(page.value("job.aim") != told);
    CHECK(page.value("job.say").find("the aims follow what is heard") != std::string::npos);
}

TEST_CASE(
    "strings that all are in tune when they are first heard need no tuning, and none of the sheet's aims") {
    Listening page(by_way(example("small-sag"), plain));
    page.listen_at(StepKind::tune);
    const std::size_t done = page.interface.bench().setup().bench->done.size();
    page.hear({0.4, -0.8, 0.2, 1.1, -0.3, 0.0}, 0.3);
    REQUIRE(page.interface.bench().setup().bench->done.size() == done + 1);
    CHECK(page.interface.bench().setup().bench->done.back().how == TuneHow::plain);
    CHECK(page.due().step.reading == ReadingKind::in_tune);
}

TEST_CASE("stopped and begun again amid a step, what is heard counts from then on") {
    Listening page(by_way(example("small-sag"), plain));
    page.now_s = 50.0;
    page.listen_at(StepKind::tune);
    const Due due = due_string(page);
    page.hear(page.only(due.place, due.aim_cents + 0.2), 1.5, due.place); // the next string is due
    const std::size_t done = page.interface.bench().setup().bench->done.size();
    page.press("job.listen");
    page.interface.take_wish();
    page.press("job.listen");
    REQUIRE(page.interface.take_wish() == "listen");
    page.now_s = 1.0;
    page.hear({0.4, -0.8, 0.2, 1.1, -0.3, 0.0}, 0.3);
    CHECK(page.interface.bench().setup().bench->done.size() == done + 1);
}

TEST_CASE("where no string is to be played any more it is listened to no more") {
    Listening page(by_way(example("small-sag"), plain));
    page.listen_at(StepKind::read);
    page.hear({2.0, {}, {}, {}, {}, {}}, 0.1);
    page.interface.take_wish(); // where to look is told anew as the step goes
    page.press("job.wrong");
    REQUIRE(page.find("job.question"));
    CHECK(page.interface.take_wish() == "deaf");
    CHECK(page.told().empty());
}

TEST_CASE("what is heard fits the smallest phone, in every language") {
    for (const Language& language : languages())
        for (const StepKind kind : {StepKind::tune, StepKind::turn_until, StepKind::read}) {
            Listening page(by_way(example("small-sag"), plain), small_phone,
                           std::string(language.code).c_str());
            page.listen_at(kind);
            page.hear(Shown(6, -118.4), 0.1);
            INFO(language.code);
            CHECK(page.value("job.listen[6]").size() > 12);
            for (const std::string& text : page.interface.controls().overflowing())
                FAIL_CHECK("cut: " << text);
            CHECK(page.controls_are_high_enough(small_phone));
        }
}
