#include "shell/platform.h"

#include <SDL.h>

#include <cstdio>

namespace counterpull {

Screen screen_of(const Window& window) {
    int width = 0, height = 0, pixels = 0, pixel_height = 0;
    SDL_GetWindowSize(window.handle(), &width, &height);
    SDL_GL_GetDrawableSize(window.handle(), &pixels, &pixel_height);
    Screen screen;
    screen.width = static_cast<float>(width);
    screen.height = static_cast<float>(height);
    screen.density = width > 0 ? static_cast<float>(pixels) / static_cast<float>(width) : 1.0f;
    return screen;
}

int run_window(Interface& interface) {
    Window window(interface);
    if (!window.open("Counterpull", 1280, 800)) {
        std::fprintf(stderr, "counterpull: no window to be had: %s\n", SDL_GetError());
        return 1;
    }
    while (window.take_events()) {
        window.draw(screen_of(window));
        if (window.quiet())
            SDL_WaitEvent(nullptr);
    }
    window.close();
    return 0;
}

} // namespace counterpull
