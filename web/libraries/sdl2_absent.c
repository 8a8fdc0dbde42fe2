/* What SDL and its user name but the page never needs: game controllers, shared objects, pictures drawn without OpenGL,
 * recorded gestures, and the address of every OpenGL function there is. Left out they save
 * 12 KB of a first visit (brotli). */
#include <SDL.h>

#include <stdarg.h>
#include <stdlib.h>
#include <string.h>

SDL_GameController* SDL_GameControllerOpen(int index) {
    (void)index;
    return NULL;
}

Sint16 SDL_GameControllerGetAxis(SDL_GameController* controller, SDL_GameControllerAxis axis) {
    (void)controller;
    (void)axis;
    return 0;
}

Uint8 SDL_GameControllerGetButton(SDL_GameController* controller, SDL_GameControllerButton button) {
    (void)controller;
    (void)button;
    return 0;
}

void SDL_UnloadObject(void* handle) {
    (void)handle;
}

/* Pictures: neither the window's own, nor a renderer, nor a cursor drawn by us. */
int Emscripten_CreateWindowFramebuffer(void* device, SDL_Window* window, Uint32* format, void** pixels, int* pitch) {
    (void)device;
    (void)window;
    (void)format;
    (void)pixels;
    (void)pitch;
    return -1;
}

int Emscripten_UpdateWindowFramebuffer(void* device, SDL_Window* window, const SDL_Rect* parts, int count) {
    (void)device;
    (void)window;
    (void)parts;
    (void)count;
    return -1;
}

void Emscripten_DestroyWindowFramebuffer(void* device, SDL_Window* window) {
    (void)device;
    (void)window;
}

SDL_Surface* SDL_ConvertSurfaceFormat(SDL_Surface* surface, Uint32 format, Uint32 flags) {
    (void)surface;
    (void)format;
    (void)flags;
    return NULL;
}

int SDL_GetRendererOutputSize(SDL_Renderer* renderer, int* width, int* height) {
    (void)renderer;
    (void)width;
    (void)height;
    return -1;
}

/* Gestures. */
int SDL_GestureAddTouch(SDL_TouchID touch) {
    (void)touch;
    return 0;
}

int SDL_GestureDelTouch(SDL_TouchID touch) {
    (void)touch;
    return 0;
}

void SDL_GestureProcessEvent(SDL_Event* event) {
    (void)event;
}

void SDL_GestureQuit(void) {}

/* SDL then takes the context to have no extensions; the drawing asks for none through it. */
void (*eglGetProcAddress(const char* name))(void) {
    (void)name;
    return NULL;
}

/* Dear ImGui reads the shaders' version with this, and window places from a file that the page has not. */
int sscanf(const char* text, const char* format, ...) {
    const char before[] = "#version ";
    va_list places;
    if (strcmp(format, "#version %d") != 0 || strncmp(text, before, sizeof before - 1) != 0)
        return 0;
    va_start(places, format);
    *va_arg(places, int*) = atoi(text + sizeof before - 1);
    va_end(places);
    return 1;
}
