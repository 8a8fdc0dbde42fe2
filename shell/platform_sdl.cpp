#include "shell/platform.h"

#include <SDL.h>
#include <imgui.h>
#include <imgui_impl_opengl3.h>
#include <imgui_impl_sdl2.h>
#include <imgui_internal.h>

#include <algorithm>
#include <cmath>

#ifdef __EMSCRIPTEN__
#include <SDL_opengles2.h>
#else
#include <SDL_opengl.h>
#endif

namespace counterpull {

namespace {

constexpr float tap_slop = 10.0f;        // a finger that moves less than this has tapped
constexpr float sideways = 1.5f;         // moved so much more across than along, it drags a number
constexpr unsigned hold_ms = 350;        // longer than this it holds, so that steppers repeat
constexpr float rest_half_life = 0.08f;  // seconds; of the speed of a finger that does not move
constexpr float glide_stop = 0.02f;      // px per ms
constexpr float glide_half_life = 0.22f; // seconds

const char* shading_language() {
#ifdef __EMSCRIPTEN__
    return "#version 100";
#else
    return "#version 130";
#endif
}

// The innermost sheet under a place that has more than it shows. Not by way of wheel events: those go to
// whatever is hovered when they arrive, and arrive a frame late where the finger has just come down.
ImGuiWindow* scrollable_at(float x, float y) {
    const ImGuiContext& g = *GImGui;
    for (int i = g.Windows.Size - 1; i >= 0; --i) {
        ImGuiWindow* window = g.Windows[i];
        if (!window->WasActive || window->Hidden || !window->OuterRectClipped.Contains({x, y}))
            continue;
        while (window->ScrollMax.y <= 0.0f && window->ParentWindow)
            window = window->ParentWindow;
        if (window->ScrollMax.y > 0.0f)
            return window;
    }
    return nullptr;
}

void scroll_by(float x, float y, float pixels) {
    if (ImGuiWindow* window = scrollable_at(x, y))
        ImGui::SetScrollY(window, std::clamp(window->Scroll.y - pixels, 0.0f, window->ScrollMax.y));
}

} // namespace

bool Window::open(const char* title, int width, int height) {
    // Fingers are handled here: SDL's imitation of a mouse leaves hover stuck and does not scroll.
    SDL_SetHint(SDL_HINT_TOUCH_MOUSE_EVENTS, "0");
    SDL_SetHint(SDL_HINT_EMSCRIPTEN_KEYBOARD_ELEMENT, "#canvas");
    if (SDL_Init(SDL_INIT_VIDEO) != 0)
        return false;
#ifndef __EMSCRIPTEN__
    SDL_GL_SetAttribute(SDL_GL_CONTEXT_MAJOR_VERSION, 3);
    SDL_GL_SetAttribute(SDL_GL_CONTEXT_MINOR_VERSION, 0);
#endif
    SDL_GL_SetAttribute(SDL_GL_DOUBLEBUFFER, 1);
    SDL_GL_SetAttribute(SDL_GL_DEPTH_SIZE, 0); // nothing here lies behind anything
    window_ = SDL_CreateWindow(title, SDL_WINDOWPOS_CENTERED, SDL_WINDOWPOS_CENTERED, width, height,
                               SDL_WINDOW_OPENGL | SDL_WINDOW_RESIZABLE | SDL_WINDOW_ALLOW_HIGHDPI);
    context_ = window_ ? SDL_GL_CreateContext(window_) : nullptr;
    if (!context_)
        return false;
    SDL_GL_SetSwapInterval(1);
    ImGui::CreateContext();
    ImGuiIO& io = ImGui::GetIO();
    io.IniFilename = nullptr;
    io.LogFilename = nullptr;
#ifndef __EMSCRIPTEN__ // there it is the page's
    io.ConfigFlags |= ImGuiConfigFlags_NavEnableKeyboard;
#endif
    io.ConfigInputTextCursorBlink = false; // idle is still
    ImGui_ImplSDL2_InitForOpenGL(window_, context_);
    ImGui_ImplOpenGL3_Init(shading_language());
    has_context_ = true;
    return true;
}

void Window::close() {
    ImGui_ImplOpenGL3_Shutdown();
    ImGui_ImplSDL2_Shutdown();
    ImGui::DestroyContext();
    SDL_GL_DeleteContext(context_);
    SDL_DestroyWindow(window_);
    SDL_Quit();
}

void Window::take_finger(const void* what) {
    const auto& event = *static_cast<const SDL_Event*>(what);
    const SDL_TouchFingerEvent& touch = event.tfinger;
    ImGuiIO& io = ImGui::GetIO();
    const float x = touch.x * io.DisplaySize.x, y = touch.y * io.DisplaySize.y;
    io.AddMouseSourceEvent(ImGuiMouseSource_TouchScreen);
    if (event.type == SDL_FINGERDOWN && !finger_.down) {
        finger_ = {true, false, false, false, touch.fingerId, x, y, x, y, SDL_GetTicks(), 0.0f};
        io.AddMousePosEvent(x, y);
        return;
    }
    if (!finger_.down || touch.fingerId != finger_.id)
        return;
    if (event.type == SDL_FINGERMOTION) {
        const float dx = std::abs(x - finger_.start_x), dy = std::abs(y - finger_.start_y);
        if (!finger_.scrolling && !finger_.dragging && dx > tap_slop && dx > sideways * dy &&
            interface_.controls().field_at(finger_.start_x, finger_.start_y)) {
            if (!finger_.pressed) {
                io.AddMousePosEvent(finger_.start_x, finger_.start_y);
                io.AddMouseButtonEvent(0, true);
            }
            finger_.pressed = finger_.dragging = true;
        }
        if (finger_.dragging) {
            io.AddMousePosEvent(x, y);
            return;
        }
        if (!finger_.scrolling && std::hypot(x - finger_.start_x, y - finger_.start_y) > tap_slop) {
            if (finger_.pressed) { // it held, or the device is slow: what it held is let go of, not pressed
                io.AddMousePosEvent(-FLT_MAX, -FLT_MAX);
                io.AddMouseButtonEvent(0, false);
                finger_.pressed = false;
            }
            finger_.scrolling = true;
        }
        if (finger_.scrolling) {
            scroll_by(finger_.start_x, finger_.start_y, y - finger_.y);
            finger_.speed = 0.6f * finger_.speed + 0.4f * (y - finger_.y) / 16.0f;
        }
        finger_.x = x;
        finger_.y = y;
        return;
    }
    // Lifted: a tap presses and releases where it began; then no hover is left behind.
    if (!finger_.scrolling && !finger_.pressed)
        io.AddMouseButtonEvent(0, true);
    if (!finger_.scrolling)
        io.AddMouseButtonEvent(0, false);
    if (!finger_.scrolling)
        finger_.speed = 0.0f;
    io.AddMousePosEvent(-FLT_MAX, -FLT_MAX);
    finger_.down = finger_.pressed = finger_.dragging = false;
}

// A finger that stays where it is holds the button under it.
void Window::hold_finger() {
    if (!finger_.down || finger_.pressed || finger_.scrolling || SDL_GetTicks() - finger_.start_ms < hold_ms)
        return;
    finger_.pressed = true;
    ImGui::GetIO().AddMouseButtonEvent(0, true);
}

void Window::glide(float seconds) {
    if (finger_.down) {
        finger_.speed *= std::exp2(-seconds / rest_half_life); // until it moves again
        return;
    }
    if (std::abs(finger_.speed) < glide_stop) {
        finger_.speed = 0.0f;
        return;
    }
    scroll_by(finger_.start_x, finger_.start_y, finger_.speed * seconds * 1000.0f);
    finger_.speed *= std::exp2(-seconds / glide_half_life);
}

bool Window::take_events() {
    SDL_Event event;
    while (SDL_PollEvent(&event)) {
        wake();
        if (event.type == SDL_QUIT)
            return false;
        if (event.type == SDL_FINGERDOWN || event.type == SDL_FINGERMOTION || event.type == SDL_FINGERUP)
            take_finger(&event);
        else
            ImGui_ImplSDL2_ProcessEvent(&event);
    }
    return true;
}

void Window::draw(const Screen& screen) {
    if (!has_context_)
        return;
    if (interface_.load_fonts(screen.density) || !has_letters_) {
        ImGui_ImplOpenGL3_DestroyFontsTexture();
        ImGui_ImplOpenGL3_CreateFontsTexture();
        has_letters_ = true;
    }
    ImGuiIO& io = ImGui::GetIO();
    ImGui_ImplOpenGL3_NewFrame();
    ImGui_ImplSDL2_NewFrame();
    // SDL's own figures lose part of a pixel where the density is no whole number, and text goes soft.
    io.DisplaySize = {screen.width, screen.height};
    io.DisplayFramebufferScale = {screen.density, screen.density};
    io.DeltaTime = std::clamp(io.DeltaTime, 0.001f, 0.1f);
    hold_finger();
    if (screen.calm && !finger_.down)
        finger_.speed = 0.0f;
    glide(io.DeltaTime);
    ImGui::NewFrame();
    interface_.frame(screen);
    ImGui::Render();
    glViewport(0, 0, static_cast<int>(std::lround(screen.width * screen.density)),
               static_cast<int>(std::lround(screen.height * screen.density)));
    glClearColor(0.0f, 0.0f, 0.0f, 1.0f);
    glClear(GL_COLOR_BUFFER_BIT);
    ImGui_ImplOpenGL3_RenderDrawData(ImGui::GetDrawData());
    SDL_GL_SwapWindow(window_);
    ++frames_drawn_;
    if (interface_.unfinished())
        wake();
    else if (frames_due_ > 0)
        --frames_due_;
}

bool Window::quiet() const {
    if (!has_context_)
        return true;
    const bool busy = frames_due_ > 0 || !GImGui->InputEventsQueue.empty() || finger_.down ||
                      std::abs(finger_.speed) >= glide_stop || ImGui::IsAnyMouseDown();
    return !busy;
}

void Window::lose_context() {
    if (!has_context_)
        return;
    has_context_ = false;
    ImGui_ImplOpenGL3_Shutdown();
}

void Window::restore_context() {
    if (has_context_)
        return;
    ImGui_ImplOpenGL3_Init(shading_language());
    has_context_ = true;
    has_letters_ = false; // they went with the context
    wake();
}

} // namespace counterpull
