/* What SDL and its user name but the page never needs: game controllers, shared objects, pictures drawn without OpenGL,
 * recorded gestures, full screens. */
#include <SDL.h>
#include <emscripten.h>
#include <emscripten/html5.h>

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

/* Emscripten has a script of this name: all of an older SDL, with sound and full screens. */
void SDL_FreeSurface(SDL_Surface* surface) {
    (void)surface;
}

int SDL_GetRendererOutputSize(SDL_Renderer* renderer, int* width, int* height) {
    (void)renderer;
    (void)width;
    (void)height;
    return -1;
}

/* Why something failed is asked by nobody, and nothing is logged. */
int SDL_SetError(const char* format, ...) {
    (void)format;
    return -1;
}

int SDL_Error(SDL_errorcode code) {
    (void)code;
    return -1;
}

const char* SDL_GetError(void) {
    return "";
}

void SDL_ClearError(void) {}

void SDL_Log(const char* format, ...) {
    (void)format;
}

void SDL_LogInit(void) {}

void SDL_LogQuit(void) {}

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

/* Full screens, a pointer that is locked in, a question before the page is left, a title (the page sets its own), sizes
 * that the style sheet does not give, waiting inside of a frame. */
EMSCRIPTEN_RESULT emscripten_request_fullscreen_strategy(const char* target, EM_BOOL later,
                                                         const EmscriptenFullscreenStrategy* strategy) {
    (void)target;
    (void)later;
    (void)strategy;
    return EMSCRIPTEN_RESULT_NOT_SUPPORTED;
}

EMSCRIPTEN_RESULT emscripten_exit_fullscreen(void) {
    return EMSCRIPTEN_RESULT_NOT_SUPPORTED;
}

EMSCRIPTEN_RESULT emscripten_set_fullscreenchange_callback_on_thread(const char* target, void* data, EM_BOOL capture,
                                                                     em_fullscreenchange_callback_func callback,
                                                                     pthread_t thread) {
    (void)target;
    (void)data;
    (void)capture;
    (void)callback;
    (void)thread;
    return EMSCRIPTEN_RESULT_NOT_SUPPORTED;
}

EMSCRIPTEN_RESULT emscripten_request_pointerlock(const char* target, EM_BOOL later) {
    (void)target;
    (void)later;
    return EMSCRIPTEN_RESULT_NOT_SUPPORTED;
}

EMSCRIPTEN_RESULT emscripten_exit_pointerlock(void) {
    return EMSCRIPTEN_RESULT_NOT_SUPPORTED;
}

EMSCRIPTEN_RESULT emscripten_set_pointerlockchange_callback_on_thread(const char* target, void* data, EM_BOOL capture,
                                                                      em_pointerlockchange_callback_func callback,
                                                                      pthread_t thread) {
    (void)target;
    (void)data;
    (void)capture;
    (void)callback;
    (void)thread;
    return EMSCRIPTEN_RESULT_NOT_SUPPORTED;
}

EMSCRIPTEN_RESULT emscripten_set_beforeunload_callback_on_thread(void* data, em_beforeunload_callback callback,
                                                                 pthread_t thread) {
    (void)data;
    (void)callback;
    (void)thread;
    return EMSCRIPTEN_RESULT_NOT_SUPPORTED;
}

EMSCRIPTEN_RESULT emscripten_set_element_css_size(const char* target, double width, double height) {
    (void)target;
    (void)width;
    (void)height;
    return EMSCRIPTEN_RESULT_NOT_SUPPORTED;
}

void emscripten_set_window_title(const char* title) {
    (void)title;
}

/* A browser has no environment. */
char* getenv(const char* name) {
    (void)name;
    return NULL;
}

int setenv(const char* name, const char* value, int overwrite) {
    (void)name;
    (void)value;
    (void)overwrite;
    return -1;
}

/* Emscripten's own answer brings along its main loop, sound and full screens. */
void emscripten_get_screen_size(int* width, int* height) {
    *width = EM_ASM_INT({ return screen.width; });
    *height = EM_ASM_INT({ return screen.height; });
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
