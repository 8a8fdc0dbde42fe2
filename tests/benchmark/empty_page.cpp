// The least that there can be of the page's stack: one window of Dear ImGui on SDL2 with one slider, in a
// face of the page's. What the page costs is told beside what this costs.
#include "shell/fonts.h"

#include <SDL.h>
#include <SDL_opengles2.h>
#include <emscripten.h>
#include <imgui.h>
#include <imgui_impl_opengl3.h>
#include <imgui_impl_sdl2.h>

// clang-format off
EM_JS(void, report_frame, (), {
    Module['onFrame']();
});
// clang-format on

namespace {

SDL_Window* window = nullptr;
float value = 0.5f;

void frame() {
    SDL_Event event;
    while (SDL_PollEvent(&event))
        ImGui_ImplSDL2_ProcessEvent(&event);
    ImGui_ImplOpenGL3_NewFrame();
    ImGui_ImplSDL2_NewFrame();
    ImGui::NewFrame();
    ImGui::SetNextWindowPos({0, 0});
    ImGui::SetNextWindowSize(ImGui::GetIO().DisplaySize);
    ImGui::Begin("empty", nullptr, ImGuiWindowFlags_NoDecoration);
    ImGui::SetNextItemWidth(300.0f);
    ImGui::SliderFloat("value", &value, 0.0f, 1.0f);
    ImGui::End();
    ImGui::Render();
    glClear(GL_COLOR_BUFFER_BIT);
    ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
    SDL_GL_SwapWindow(window);
    report_frame();
}

} // namespace

int main() {
    SDL_Init(SDL_INIT_VIDEO);
    window = SDL_CreateWindow("empty", 0, 0, 412, 915,
                              SDL_WINDOW_OPENGL | SDL_WINDOW_RESIZABLE | SDL_WINDOW_ALLOW_HIGHDPI);
    SDL_GLContext context = SDL_GL_CreateContext(window);
    ImGui::CreateContext();
    ImGui::GetIO().IniFilename = nullptr;
    ImFontConfig config;
    config.FontDataOwnedByAtlas = false;
    ImGui::GetIO().Fonts->AddFontFromMemoryTTF(const_cast<unsigned char*>(counterpull::body_face),
                                               static_cast<int>(counterpull::body_face_size), 16.0f, &config);
    ImGui_ImplSDL2_InitForOpenGL(window, context);
    ImGui_ImplOpenGL3_Init("#version 100");
    emscripten_set_main_loop(frame, 0, 0);
    return 0;
}
