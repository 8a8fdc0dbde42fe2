/* SDL's window asks for OpenGL by way of EGL, which Emscripten imitates in script, together with a main loop, sound and
 * full screens. The page has one canvas with one WebGL context, so SDL's few questions are answered here without EGL. */
#include "src/SDL_internal.h"
#include "src/video/SDL_sysvideo.h"
#include "src/video/emscripten/SDL_emscriptenopengles.h"

#include <emscripten/html5.h>

/* There is nothing to load. */
int Emscripten_GLES_LoadLibrary(SDL_VideoDevice* device, const char* path) {
    (void)device;
    (void)path;
    return 0;
}

void SDL_EGL_UnloadLibrary(SDL_VideoDevice* device) {
    (void)device;
}

void* SDL_EGL_GetProcAddress(SDL_VideoDevice* device, const char* name) {
    (void)device;
    (void)name;
    return NULL; /* the drawing asks for no extension through it */
}

/* The canvas is the surface. */
EGLSurface* SDL_EGL_CreateSurface(SDL_VideoDevice* device, NativeWindowType window) {
    (void)window;
    return (EGLSurface*)device; /* any but none */
}

void SDL_EGL_DestroySurface(SDL_VideoDevice* device, EGLSurface surface) {
    (void)device;
    (void)surface;
}

/* The context that the page has made already (web/page/start.js) with all that it is to be: a canvas has only one. */
SDL_GLContext Emscripten_GLES_CreateContext(SDL_VideoDevice* device, SDL_Window* window) {
    EmscriptenWebGLContextAttributes wanted = {0};
    EMSCRIPTEN_WEBGL_CONTEXT_HANDLE context;
    (void)device;
    (void)window;
    wanted.majorVersion = 1;
    wanted.enableExtensionsByDefault = EM_FALSE; /* each would be asked for and waited for */
    context = emscripten_webgl_create_context("#canvas", &wanted);
    if (context <= 0) {
        SDL_SetError("no WebGL");
        return NULL;
    }
    emscripten_webgl_make_context_current(context);
    emscripten_webgl_enable_OES_vertex_array_object(context); /* the one that the drawing uses */
    return (SDL_GLContext)context;
}

int Emscripten_GLES_MakeCurrent(SDL_VideoDevice* device, SDL_Window* window, SDL_GLContext context) {
    (void)device;
    (void)window;
    (void)context; /* it stays current */
    return 0;
}

void SDL_EGL_DeleteContext(SDL_VideoDevice* device, SDL_GLContext context) {
    (void)device;
    (void)context; /* it goes with the page */
}

/* The browser shows what was drawn when the frame has ended, and calls when the next is due. */
int Emscripten_GLES_SwapWindow(SDL_VideoDevice* device, SDL_Window* window) {
    (void)device;
    (void)window;
    return 0;
}

int SDL_EGL_SetSwapInterval(SDL_VideoDevice* device, int interval) {
    (void)device;
    (void)interval;
    return 0;
}

int SDL_EGL_GetSwapInterval(SDL_VideoDevice* device) {
    (void)device;
    return 1;
}
