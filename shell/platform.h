// The window that an Interface lives in: a desktop window or the browser's canvas. What both share is in
// platform_sdl.cpp; each has a file of its own for the rest, picked by the build.
#pragma once

#include "shell/interface.h"

struct SDL_Window;

namespace counterpull {

// Runs the interface in a desktop window until that is closed. Returns an exit code. (The browser starts its
// own, platform_web.cpp.)
int run_window(Interface& interface);

// The window itself.
class Window {
  public:
    explicit Window(Interface& interface) : interface_(interface) {}
    // False where there is no window or no OpenGL to be had.
    bool open(const char* title, int width, int height);
    void close();
    // Takes in what has happened; false when the window was closed.
    bool take_events();
    void draw(const Screen& screen);
    // Whether nothing will change until something happens.
    bool quiet() const;
    void wake() { frames_due_ = frames_to_settle; }
    // The graphics context went away or came back.
    void lose_context();
    void restore_context();
    SDL_Window* handle() const { return window_; }
    long frames_drawn() const { return frames_drawn_; }

  private:
    struct Finger {
        bool down = false, pressed = false, scrolling = false, dragging = false;
        long long id = 0;
        float start_x = 0, start_y = 0, x = 0, y = 0;
        unsigned start_ms = 0;
        float speed = 0.0f; // px per ms, for the glide after lifting
    };
    void take_finger(const void* event);
    void hold_finger();
    void glide(float seconds);

    Interface& interface_;
    SDL_Window* window_ = nullptr;
    void* context_ = nullptr;
    bool has_context_ = false;
    // Sheets within sheets take a frame each to find their size.
    static constexpr int frames_to_settle = 5;
    int frames_due_ = frames_to_settle;
    long frames_drawn_ = 0;
    bool has_letters_ = false; // on the graphics' side
    Finger finger_;
};

// What the platform knows of the screen now (platform_native.cpp, platform_web.cpp).
Screen screen_of(const Window& window);

} // namespace counterpull
