// What a frame asks memory for: replaces the program's own operator new by one that counts.
#include "shell/interface.h"
#include "tests/support.h"

#include <imgui.h>

#include <cstdlib>
#include <new>

namespace {
long asked = 0;
}

void* operator new(std::size_t size) {
    ++asked;
    if (void* place = std::malloc(size))
        return place;
    throw std::bad_alloc();
}
void operator delete(void* place) noexcept {
    std::free(place);
}
void operator delete(void* place, std::size_t) noexcept {
    std::free(place);
}

using namespace counterpull;
using namespace counterpull::test;

TEST_CASE("a frame in which nothing changes makes none of its sentences anew") {
    for (const bool narrow : {false, true}) {
        const Screen screen{narrow ? 412.0f : 1280.0f, 900.0f, 1, narrow, false, true, 0, 0, 0, 0};
        ImGui::CreateContext();
        ImGui::GetIO().IniFilename = nullptr;
        long first = 0, later = 0;
        std::size_t controls = 0;
        {
            Interface page(example("lower-and-heavier"));
            page.load_fonts(1.0f);
            ImGui::GetIO().Fonts->Build();
            ImGui::GetIO().DisplaySize = {screen.width, screen.height};
            auto draw = [&] {
                const long before = asked;
                ImGui::NewFrame();
                page.frame(screen);
                ImGui::Render();
                return asked - before;
            };
            first = draw();
            for (int i = 0; i < 5; ++i)
                later = draw();
            controls = page.controls().all().size();
        }
        ImGui::DestroyContext();
        INFO(first << " calls for memory in the first frame, " << later << " later, " << controls
                   << " controls");
        CHECK(first > 2 * later);
        CHECK(later <= static_cast<long>(2 * controls));
    }
}
