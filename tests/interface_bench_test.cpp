// The bench on the screen, without a window: the whole job by its controls, what goes wrong, what is asked
// again, and the way back.
#include "engine/base/embedded.h"
#include "tests/at_the_bench.h"

#include <algorithm>
#include <set>

using namespace counterpull;
using namespace counterpull::test;

namespace {

void check_layout(AtTheBench& job) {
    CHECK(job.interface.controls().overflowing() == std::vector<std::string>{});
    std::set<std::string> ids;
    for (const Control& control : job.interface.controls().all()) {
        INFO(control.id);
        CHECK(ids.insert(control.id).second);
        CHECK_FALSE(control.label.empty());
        CHECK(control.low.x >= 0.0f);
        CHECK(control.high.x <= job.screen.width);
        if (job.screen.touch && control.role != Role::status)
            CHECK(control.high.y - control.low.y >= 44.0f);
    }
    if (const Control* aim = job.find("job.aim")) {
        CHECK(aim->high.y - aim->low.y >= 64.0f);
        CHECK(aim->high.y <= job.find("job.done")->low.y); // in sight
    }
}

} // namespace

TEST_CASE("the whole job is done by its controls, step by step as the engine has it, on every screen") {
    std::vector<std::pair<Screen, const char*>> screens = {{phone, "en"}, {desktop, "en"}};
    for (const Language& language : languages())
        for (const Screen& screen : {small_phone, Screen{740, 360, 2, true, false, true, 0, 0, 0, 0}})
            screens.emplace_back(screen, language.code.data());
    for (const char* name : {"lower-and-heavier", "small-sag", "seven-strings-two-scales", "six-screw-plate",
                             "strings-are-off", "three-readings-in"})
        for (const auto& [screen, language] : screens) {
            INFO(name << " at " << screen.width << " in " << language);
            AtTheBench job(example(name), screen, language);
            job.interface.load_fonts(1.0f);
            ImGui::GetIO().Fonts->Build();
            int steps = 0;
            std::vector<Setup> stood;
            for (; steps < most_steps && !job.at_end(); ++steps) {
                const Bench due = job.due();
                INFO("step " << due.number << ", kind " << static_cast<int>(due.step.kind));
                CHECK(job.value("job.head").find(std::to_string(due.number)) != std::string::npos);
                CHECK_FALSE(job.value("job.say").empty());
                check_layout(job);
                if (due.step.kind == StepKind::tune)
                    CHECK(job.find("job.aim"));
                stood.push_back(job.setup());
                const Setup expected = job.do_step();
                CHECK(job.setup() == expected);
            }
            CHECK(job.due().step.kind == StepKind::finished);
            check_layout(job);
            CHECK(job.find("job.next"));
            // And back to its beginning, as it stood at every step.
            for (; !stood.empty(); stood.pop_back()) {
                job.press("job.back");
                CHECK(job.setup() == stood.back());
            }
            CHECK_FALSE(job.find("job.back"));
        }
}

TEST_CASE("a job sent elsewhere goes back step by step, and forward again") {
    AtTheBench here(example("lower-and-heavier"));
    here.go_to(StepKind::wedge_out);
    Setup sent = here.setup();
    const std::size_t done = here.steps_done();
    here.interface.bench().begin(sent); // as a link does: there is nothing to undo
    CHECK_FALSE(here.interface.bench().can_undo());
    here.press("job.back");
    CHECK(here.steps_done() == done - 1);
    here.press("job.back");
    CHECK(here.steps_done() == done - 2);
    CHECK(here.interface.bench().can_undo());
}

TEST_CASE("the dials turn, unless nothing is to move by itself") {
    for (const bool calm : {false, true}) {
        Screen screen = phone;
        screen.calm = calm;
        AtTheBench job(example("lower-and-heavier"), screen);
        job.go_to(StepKind::turn);
        CHECK(job.interface.unfinished() == !calm);
        job.draw(screen, 200); // three seconds
        CHECK_FALSE(job.interface.unfinished());
    }
}

TEST_CASE("what is needed is asked for, and nothing goes on without it") {
    AtTheBench job(example("small-sag"));
    job.go_to(StepKind::read);
    const std::size_t before = job.steps_done();
    job.press("job.done");
    CHECK(job.steps_done() == before);
    CHECK(job.find("job.refused"));
    for (const Asked& asked : job.due().step.asks)
        if (asked.field == AskedField::cents)
            job.press("job.cents[" + std::to_string(asked.string) + "]", "0");
    job.press("job.tail_mm", "40");
    job.press("job.done");
    CHECK(job.steps_done() == before); // outside the travel
    CHECK(job.value("job.refused").find("outside") != std::string::npos);
}

TEST_CASE("both sides of the tail are read where it is asked") {
    AtTheBench job(example("small-sag"));
    REQUIRE(job.due().step.kind == StepKind::note);
    job.press("job.sides");
    job.press("job.tail_bass", "-1.5");
    job.press("job.tail_treble", "-0.5");
    job.press("job.done");
    REQUIRE(job.setup().now.tail_sides_mm);
    CHECK((*job.setup().now.tail_sides_mm)[0] == Approx(-1.5));
    CHECK(job.setup().now.tail_mm == Approx(-1.0));
}

TEST_CASE("a reading far off is asked about first, and stands as typed until it is corrected or confirmed") {
    AtTheBench job(example("lower-and-heavier"));
    for (int i = 0; i < most_steps && !job.at_end(); ++i) {
        const auto& asks = job.due().step.asks;
        if (std::any_of(asks.begin(), asks.end(), [](const Asked& a) {
                return a.needed && a.field == AskedField::tail_mm && a.expected;
            }))
            break;
        job.do_step();
    }
    const Bench due = job.due();
    const std::size_t before = job.steps_done();
    for (const Asked& asked : due.step.asks)
        if (asked.field == AskedField::cents)
            job.press("job.cents[" + std::to_string(asked.string) + "]", std::to_string(*asked.expected));
    job.press("job.tail_mm", "15");
    job.press("job.done");
    REQUIRE(job.find("job.correct"));
    CHECK(job.value("job.question").find("15.0 mm") != std::string::npos);
    CHECK(job.steps_done() == before);
    job.press("job.correct");
    CHECK(job.value("job.tail_mm") == "+15 mm");
    job.press("job.done");
    job.press("job.right");
    CHECK(job.steps_done() == before + 1);
    CHECK(job.setup().log.back().tail_mm == Approx(15.0));
}

TEST_CASE("each thing that goes wrong has a way on") {
    struct Case {
        StepKind at;
        std::vector<std::string> pressed;
        Mishap happened;
    };
    const std::vector<Case> cases = {
        {StepKind::wedge_in, {"job.no_wedge"}, Mishap::wedge_will_not_go_in},
        {StepKind::wedge_out, {"job.fell_out"}, Mishap::wedge_fell_out},
        {StepKind::turn, {"job.hard", "job.so_far"}, Mishap::screw_hard},
        {StepKind::turn, {"job.no_thread", "job.so_far"}, Mishap::no_thread},
        {StepKind::tune, {"job.broke", "job.string[1]"}, Mishap::string_broke},
        {StepKind::tune, {"job.spring_off", "job.hook[2]"}, Mishap::spring_off},
    };
    for (const Case& it : cases) {
        INFO(it.pressed.front());
        Setup setup = example("lower-and-heavier");
        setup.bench = begin_job(setup, {true, false});
        AtTheBench job(setup);
        job.go_to(it.at);
        const std::size_t before = job.steps_done();
        job.press("job.wrong");
        for (const std::string& id : it.pressed) {
            check_layout(job);
            job.press(id);
        }
        REQUIRE(job.steps_done() == before + 1);
        CHECK(job.setup().bench->done.back().happened == it.happened);
        CHECK(job.find("job.done"));
        job.press("job.back");
        CHECK(job.steps_done() == before);
    }
}

TEST_CASE("what was really turned is told, and turning too far leads there") {
    AtTheBench job(example("lower-and-heavier"));
    job.go_to(StepKind::turn);
    const std::array<double, 2> told = job.due().step.turns;
    job.press("job.wrong");
    job.press("job.too_far");
    job.press("job.turned[0]", std::to_string(told[0] + 0.5));
    job.press("job.done");
    REQUIRE(job.setup().bench->done.back().turned);
    CHECK((*job.setup().bench->done.back().turned)[0] == Approx(told[0] + 0.5).margin(1e-5));
    CHECK((*job.setup().bench->done.back().turned)[1] == Approx(told[1]));
}

TEST_CASE("the other way is taken before anything is done, and only then") {
    AtTheBench job(example("lower-and-heavier"));
    const Way first = job.due().way;
    const std::string other = first.wedge ? "job.way_plain" : "job.way_wedge";
    job.press(other);
    CHECK(job.due().way.wedge != first.wedge);
    CHECK(job.steps_done() == 0);
    job.do_step();
    CHECK_FALSE(job.find("job.way_plain"));
    CHECK_FALSE(job.find("job.way_wedge"));
}

TEST_CASE("a tap on the lower half and the keys of a foot switch are Done, but not while a number is typed") {
    AtTheBench job(example("lower-and-heavier"));
    auto& io = ImGui::GetIO();
    const auto tap = [&](float x, float y) {
        job.tap(x, y);
        io.AddMousePosEvent(-FLT_MAX, -FLT_MAX);
        job.draw(job.screen, 40);
    };
    const auto key = [&](ImGuiKey which) {
        io.AddKeyEvent(which, true);
        job.draw(job.screen, 2);
        io.AddKeyEvent(which, false);
        job.draw(job.screen, 40);
    };
    job.draw(job.screen, 40);
    std::size_t done = 0;
    const float low = job.find("job.done")->low.y - 12.0f;
    REQUIRE(low > 0.5f * job.screen.height);
    tap(10.0f, low);
    CHECK(job.steps_done() == ++done);
    tap(10.0f, 0.4f * job.screen.height);
    CHECK(job.steps_done() == done);
    for (const ImGuiKey which : {ImGuiKey_Space, ImGuiKey_Enter, ImGuiKey_PageDown, ImGuiKey_RightArrow}) {
        const Step due = job.due().step;
        REQUIRE(due.kind != StepKind::tune);
        REQUIRE(
            std::none_of(due.asks.begin(), due.asks.end(), [](const Asked& asked) { return asked.needed; }));
        key(which);
        CHECK(job.steps_done() == ++done);
    }
    job.interface.set_typing("job.tail_mm");
    key(ImGuiKey_Space);
    tap(10.0f, low);
    CHECK(job.steps_done() == done);
}

TEST_CASE("leaving the bench loses nothing, and the button says where it goes on") {
    AtTheBench job(example("lower-and-heavier"));
    job.do_step();
    job.do_step();
    const Setup stood = job.setup();
    job.press("job.leave");
    CHECK_FALSE(job.find("job.head"));
    CHECK(job.setup() == stood);
    CHECK(job.label("job.open") == "Go on at the bench: step 3 of " + std::to_string(job.due().of));
    job.press("job.open");
    CHECK(job.value("job.head") == "Step 3 of about " + std::to_string(job.due().of));
}

TEST_CASE("from the end of a job the next one begins where it stands") {
    AtTheBench job(example("lower-and-heavier"));
    for (int i = 0; i < most_steps && !job.at_end(); ++i)
        job.do_step();
    REQUIRE(job.find("job.next"));
    const double tail = job.due().step.tail_mm;
    job.press("job.next");
    CHECK_FALSE(job.find("job.head"));
    REQUIRE_FALSE(job.setup().log.empty()); // what it taught is kept
    CHECK(job.setup().log.back().turns == std::array<double, 2>{});
    CHECK_FALSE(job.setup().bench);
    CHECK(job.setup().now.tail_mm == Approx(tail));
    CHECK(job.setup().now.strings == job.setup().next.strings);
}

TEST_CASE("nothing fits: the page offers no bench, and a job that came there says what would work") {
    {
        Headless page(example("cannot-float"));
        page.draw(phone);
        CHECK_FALSE(page.find("job.open"));
    }
    AtTheBench job(example("lower-and-heavier"));
    job.do_step();
    const Setup impossible = example("cannot-float");
    job.interface.bench().edit([&](Setup& setup) {
        setup.next = impossible.next;
        setup.guitar = impossible.guitar;
        setup.now = impossible.now;
    });
    job.draw(phone);
    REQUIRE(job.due().step.kind == StepKind::cannot);
    CHECK_FALSE(job.find("job.done"));
    CHECK(job.find("job.back"));
    CHECK(job.value("job.say").starts_with("It cannot float"));
}
