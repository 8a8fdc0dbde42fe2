// The page with the bench open, operated by its controls.
#pragma once

#include "shell/interface.h"

#include "engine/advice/bench.h"
#include "tests/headless.h"
#include "tests/support.h"

#include <imgui.h>

#include <cmath>

namespace counterpull::test {

inline constexpr int most_steps = 60; // no job takes more (engine/advice/steps.cpp)

class AtTheBench : public Headless {
  public:
    explicit AtTheBench(Setup setup, const Screen& on = phone, const char* language = "en")
        : Headless(std::move(setup)), screen(on) {
        interface.preferences().language = language;
        draw(screen);
        press("job.open");
        REQUIRE(find("job.head"));
    }
    void press(const std::string& id, const std::string& value = "") {
        INFO(id << " " << value);
        draw(screen);
        REQUIRE(find(id));
        interface.controls().request(id, value);
        draw(screen);
    }
    const Setup& setup() { return interface.bench().setup(); }
    Bench due() { return bench(interface.bench().report()); }
    std::size_t steps_done() { return setup().bench ? setup().bench->done.size() : 0; }
    bool at_end() { return due().step.kind == StepKind::finished || due().step.kind == StepKind::cannot; }

    // Answers what is needed as it is expected, and says Done. What the engine makes of the same answer.
    Setup do_step() {
        const Bench bench = due();
        Answer answer;
        answer.in_tune = bench.step.reading == ReadingKind::in_tune;
        const std::size_t strings = setup().next.strings.size();
        for (const Asked& asked : bench.step.asks) {
            if (!asked.needed)
                continue;
            const double read = std::round(10.0 * asked.expected.value_or(0.0)) / 10.0;
            const std::string text = std::to_string(read);
            if (asked.field == AskedField::tail_mm) {
                answer.tail_mm = read;
                press("job.tail_mm", text);
                continue;
            }
            if (!answer.cents)
                answer.cents.emplace(strings);
            (*answer.cents)[strings - static_cast<std::size_t>(asked.string)] = read;
            press("job.cents[" + std::to_string(asked.string) + "]", text);
        }
        const Answered after = answered(interface.bench().report(), answer);
        REQUIRE(after.setup);
        for (std::size_t i = 1; i < bench.step.aims.size(); ++i)
            press("job.done");
        press("job.done");
        if (find("job.right"))
            press("job.right");
        return *after.setup;
    }
    // To the first step of that kind.
    void go_to(StepKind kind) {
        for (int i = 0; i < most_steps && due().step.kind != kind && !at_end(); ++i)
            do_step();
        REQUIRE(due().step.kind == kind);
    }
    void tap(float x, float y) {
        auto& io = ImGui::GetIO();
        io.AddMousePosEvent(x, y);
        draw(screen, 2);
        io.AddMouseButtonEvent(0, true);
        draw(screen, 2);
        io.AddMouseButtonEvent(0, false);
        draw(screen, 2);
    }
    std::string label(const std::string& id) { return find(id) ? find(id)->label : ""; }
    std::string value(const std::string& id) { return find(id) ? find(id)->value : ""; }

    Screen screen;
};

} // namespace counterpull::test
