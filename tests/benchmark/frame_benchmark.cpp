// What a frame of the interface costs, without a window: a minute of use at 60 frames a second, the same each
// time. It is looked at, a number is dragged (each step is solved), the page is scrolled, a gauge is typed,
// sections are opened.
#include "engine/document/presets.h"
#include "shell/interface.h"

#include <imgui.h>

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <map>
#include <string>
#include <vector>

using namespace counterpull;

namespace {

constexpr Screen desktop{1280, 800, 1, false, false, true, 0, 0, 0, 0};

class Minute {
  public:
    Minute() : interface_(example_setup()) {
        ImGui::CreateContext();
        io().IniFilename = nullptr;
        interface_.load_fonts(1.0f);
        unsigned char* pixels = nullptr;
        int width = 0, height = 0;
        io().Fonts->GetTexDataAsRGBA32(&pixels, &width, &height);
        io().DisplaySize = {desktop.width, desktop.height};
        io().DeltaTime = 1.0f / 60.0f;
    }
    ~Minute() { ImGui::DestroyContext(); }
    Minute(const Minute&) = delete;
    Minute& operator=(const Minute&) = delete;

    void use() {
        frame("opening", 5);
        for (int i = 0; i < 600; ++i) { // ten seconds of looking
            io().AddMousePosEvent(100.0f + 1.8f * static_cast<float>(i), 400.0f);
            frame("looking");
        }
        const ImVec2 tail = middle("now.tail_mm");
        io().AddMousePosEvent(tail.x, tail.y);
        frame("dragging");
        io().AddMouseButtonEvent(0, true);
        for (int i = 0; i < 900; ++i) { // fifteen of dragging a number to and fro
            const int step = i % 120;
            io().AddMousePosEvent(tail.x + static_cast<float>(step < 60 ? step : 120 - step), tail.y);
            frame("dragging");
        }
        io().AddMouseButtonEvent(0, false);
        frame("dragging");
        io().AddMousePosEvent(900.0f, 600.0f);
        for (int i = 0; i < 900; ++i) { // fifteen of scrolling down and up
            io().AddMouseWheelEvent(0.0f, i % 300 < 150 ? -0.2f : 0.2f);
            frame("scrolling");
        }
        for (int i = 0; i < 20; ++i) { // twenty changes, each looked at for half a second
            const double tail_mm = i % 2 == 0 ? -1.2 : -1.4;
            interface_.controls().request("now.tail_mm", i % 2 == 0 ? "-1.2" : "-1.4");
            frame("after a change", 30);
            if (interface_.bench().answered().now.tail_mm != tail_mm)
                std::puts("the change did not come");
        }
        for (const char* id : {"section.sharper", "section.strings", "section.sheet", "section.whatif"}) {
            interface_.controls().request(id, "");
            frame("with more open", 150);
        }
    }

    void print() {
        std::vector<double> all;
        std::printf("%-16s %7s %9s %9s %9s  milliseconds\n", "frames", "count", "median", "95 %", "worst");
        for (auto& [what, took] : took_) {
            print_row(what, took);
            all.insert(all.end(), took.begin(), took.end());
        }
        print_row("the minute", all);
    }

  private:
    static ImGuiIO& io() { return ImGui::GetIO(); }
    ImVec2 middle(const std::string& id) {
        for (const Control& control : interface_.controls().all())
            if (control.id == id)
                return {0.5f * (control.low.x + control.high.x), 0.5f * (control.low.y + control.high.y)};
        std::printf("no control %s\n", id.c_str());
        return {};
    }
    void frame(const std::string& what, int times = 1) {
        for (int i = 0; i < times; ++i) {
            const auto start = std::chrono::steady_clock::now();
            ImGui::NewFrame();
            interface_.frame(desktop);
            ImGui::Render();
            const std::chrono::duration<double, std::milli> took = std::chrono::steady_clock::now() - start;
            took_[what].push_back(took.count());
        }
    }
    static void print_row(const std::string& what, std::vector<double> took) {
        std::sort(took.begin(), took.end());
        const auto at = [&](double share) {
            return took[static_cast<std::size_t>(share * static_cast<double>(took.size() - 1))];
        };
        std::printf("%-16s %7zu %9.3f %9.3f %9.3f\n", what.c_str(), took.size(), at(0.5), at(0.95),
                    took.back());
    }

    Interface interface_;
    std::map<std::string, std::vector<double>> took_;
};

} // namespace

int main() {
    Minute minute;
    minute.use();
    minute.print();
}
