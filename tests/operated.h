#pragma once

#include "tests/headless.h"
#include "tests/support.h"

namespace counterpull::test {

// The page with everything open, operated by name.
struct Operated : Headless {
    Operated(Setup setup, const Screen& on) : Headless(std::move(setup)), screen(on) {
        open_everything(screen);
    }
    void ask(const std::string& id, const std::string& value) {
        interface.controls().request(id, value);
        draw(screen, 2);
    }
    std::vector<std::string> refused() {
        std::vector<std::string> all;
        for (const Control& control : interface.controls().all())
            if (control.id.starts_with("refused["))
                all.push_back(control.value);
        return all;
    }
    const Setup& setup() { return interface.bench().setup(); }
    Screen screen;
};

inline bool whole_in_sight(const Control& control) {
    return control.low.y == control.seen_low.y && control.high.y == control.seen_high.y &&
           control.low.y < control.high.y;
}

} // namespace counterpull::test
