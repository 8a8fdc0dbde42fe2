/* What SDL and its user name but the page never needs: game controllers and shared objects. */
#include <SDL.h>

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
