// The page drawn without a window, at sizes that people have.
#pragma once

#include "shell/interface.h"

#include <catch2/catch.hpp>
#include <imgui.h>

#include <string>
#include <utility>
#include <vector>

namespace counterpull::test {

inline constexpr Screen desktop{1280, 800, 1, false, false, true, 0, 0, 0, 0};
inline constexpr Screen small_phone{360, 740, 3, true, false, true, 0, 0, 0, 0};
inline constexpr Screen wide{2560, 1440, 1, false, false, true, 0, 0, 0, 0};
inline constexpr Screen tablet{768, 1024, 2, true, false, true, 0, 0, 0, 0};
inline constexpr Screen phone{412, 915, 2.6f, true, false, true, 0, 0, 0, 0};

class Headless {
  public:
    explicit Headless(Setup setup) : interface(std::move(setup)) {
        ImGui::CreateContext();
        ImGui::GetIO().IniFilename = nullptr;
        interface.load_fonts(1.0f);
        unsigned char* pixels = nullptr;
        int width = 0, height = 0;
        ImGui::GetIO().Fonts->GetTexDataAsRGBA32(&pixels, &width, &height);
    }
    ~Headless() { ImGui::DestroyContext(); }
    void draw(const Screen& screen, int frames = 3) {
        for (int i = 0; i < frames; ++i) {
            ImGui::GetIO().DisplaySize = {screen.width, screen.height};
            ImGui::GetIO().DeltaTime = 1.0f / 60.0f;
            ImGui::NewFrame();
            interface.frame(screen);
            ImGui::Render();
            CHECK(ImGui::GetDrawData()->TotalVtxCount > 100);
        }
    }
    void open_everything(const Screen& screen) {
        draw(screen);
        for (int round = 0; round < 3; ++round) {
            std::vector<std::string> closed;
            for (const Control& control : interface.controls().all())
                if (control.role == Role::heading && control.value == "closed")
                    closed.push_back(control.id);
            for (const std::string& id : closed) {
                interface.controls().request(id, "");
                draw(screen);
            }
        }
    }
    const Control* find(const std::string& id) {
        for (const Control& control : interface.controls().all())
            if (control.id == id)
                return &control;
        return nullptr;
    }
    bool controls_are_high_enough(const Screen& screen) {
        for (const Control& control : interface.controls().all())
            if (screen.touch && control.role != Role::status && control.high.y - control.low.y < 44.0f)
                return false;
        return true;
    }
    Interface interface;
};

} // namespace counterpull::test
