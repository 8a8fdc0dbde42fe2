// The browser's side of the window: the canvas, the animation frame, and what the page's scripts may call.
#include "engine/document/link.h"
#include "engine/document/presets.h"
#include "engine/say/refusal.h"
#include "shell/platform.h"

#include <SDL.h>
#include <emscripten.h>
#include <emscripten/html5.h>

#include <algorithm>
#include <string>

// clang-format off
EM_JS(double, screen_value, (int what), {
    const page = Module['screen'];
    return page[what];
});
EM_JS(void, report_frame, (int changed, int controls_changed, int wish), {
    Module['onFrame'](changed, controls_changed, wish);
});
EM_JS(void, ask_for_frame, (), {
    requestAnimationFrame(Module['_counterpull_frame']);
});
// clang-format on

namespace counterpull {

namespace {

// Places in Module.screen, filled by web/page/screen.js.
enum ScreenValue {
    width,
    height,
    density,
    touch,
    dark,
    inset_top,
    inset_right,
    inset_bottom,
    inset_left,
    calm,
    demands,
    paper,
    ink,
    accent
};

float screen_size(ScreenValue what) {
    return static_cast<float>(screen_value(what));
}
ImU32 screen_colour(ScreenValue what) {
    return static_cast<ImU32>(screen_value(what));
}

struct Page {
    Interface interface { example_setup() };
    Window window{interface};
    bool started = false;    // before that there is nothing to draw with
    bool running = false;    // a frame is asked for
    long told_revision = -1; // of what the page was told of last
    long told_controls = -1;
    Preferences told_preferences;
    std::string told_language;
};

Page& page() {
    static Page only; // the browser calls back by name, so there must be one place to find it
    return only;
}

void frame() {
    Page& p = page();
    p.window.take_events();
    p.window.draw(screen_of(p.window));
    const long revision = p.interface.bench().revision();
    const bool changed = revision != p.told_revision || p.interface.preferences() != p.told_preferences ||
                         p.interface.words().language() != p.told_language;
    p.told_revision = revision;
    p.told_preferences = p.interface.preferences();
    p.told_language = p.interface.words().language();
    const long controls = p.interface.controls().revision();
    report_frame(changed, controls != p.told_controls, p.interface.has_wish());
    p.told_controls = controls;
    p.running = !p.window.quiet();
    if (p.running)
        ask_for_frame();
}

void wake_up() {
    Page& p = page();
    p.window.wake();
    if (p.running || !p.started)
        return;
    p.running = true;
    ask_for_frame();
}

int on_event(void*, SDL_Event* event) {
    if (event->type != SDL_POLLSENTINEL) // sent by polling itself: would never let it sleep
        wake_up();
    return 1;
}

EM_BOOL on_lost(int, const void*, void*) {
    page().window.lose_context();
    return EM_TRUE; // we mean to restore it
}

EM_BOOL on_restored(int, const void*, void*) {
    // The backend keeps its vertex array object where the context has the extension.
    emscripten_webgl_enable_extension(emscripten_webgl_get_current_context(), "OES_vertex_array_object");
    page().window.restore_context();
    wake_up();
    return EM_TRUE;
}

const char* kept(std::string text) {
    static std::string last; // read by the caller before the next call
    last = std::move(text);
    return last.c_str();
}

// Puts what was read on the page; the first message where it was refused.
const char* opened(SetupRead read, void (Workbench::*put)(Setup)) {
    if (!read.setup)
        return kept(first_message(read.problems, page().interface.words()));
    (page().interface.bench().*put)(std::move(*read.setup));
    wake_up();
    return kept("");
}

} // namespace

Screen screen_of(const Window&) {
    Screen screen;
    screen.density = screen_size(density);
    screen.width = screen_size(width);
    screen.height = screen_size(height);
    screen.touch = screen_value(touch) != 0.0;
    screen.prefers_dark = screen_value(dark) != 0.0;
    screen.calm = screen_value(calm) != 0.0;
    if (screen_value(demands) != 0.0)
        screen.colours = {screen_colour(paper), screen_colour(ink), screen_colour(accent)};
    screen.in_a_page = true;
    screen.inset_top = screen_size(inset_top);
    screen.inset_right = screen_size(inset_right);
    screen.inset_bottom = screen_size(inset_bottom);
    screen.inset_left = screen_size(inset_left);
    return screen;
}

int run_page() {
    Page& p = page();
    if (!p.window.open("Counterpull", static_cast<int>(screen_value(width)),
                       static_cast<int>(screen_value(height))))
        return 1;
    SDL_AddEventWatch(on_event, nullptr);
    emscripten_set_webglcontextlost_callback("#canvas", nullptr, EM_TRUE, on_lost);
    emscripten_set_webglcontextrestored_callback("#canvas", nullptr, EM_TRUE, on_restored);
    p.started = true;
    wake_up();
    return 0;
}

} // namespace counterpull

// What the page may call. Texts returned stay valid until the next call.
extern "C" {

EMSCRIPTEN_KEEPALIVE void counterpull_wake() {
    counterpull::wake_up();
}

// The browser's own call (ask_for_frame).
EMSCRIPTEN_KEEPALIVE void counterpull_frame() {
    counterpull::frame();
}

// The controls of the last frame as JSON (controls.h).
EMSCRIPTEN_KEEPALIVE const char* counterpull_controls() {
    return counterpull::kept(counterpull::page().interface.controls().json());
}

// Operates a control by its id.
EMSCRIPTEN_KEEPALIVE void counterpull_request(const char* id, const char* value) {
    counterpull::page().interface.controls().request(id, value);
    counterpull::wake_up();
}

// Frames a control as having the focus and brings it into view; "" none.
EMSCRIPTEN_KEEPALIVE void counterpull_show(const char* id) {
    counterpull::page().interface.show(id);
    counterpull::wake_up();
}

// A field is typed into beside the canvas; "" no longer.
EMSCRIPTEN_KEEPALIVE void counterpull_typing(const char* id) {
    counterpull::page().interface.set_typing(id);
    counterpull::wake_up();
}

EMSCRIPTEN_KEEPALIVE const char* counterpull_answer() {
    return counterpull::kept(counterpull::page().interface.answer());
}

// What is to be heard when it changes.
EMSCRIPTEN_KEEPALIVE const char* counterpull_spoken() {
    return counterpull::kept(counterpull::page().interface.spoken());
}

EMSCRIPTEN_KEEPALIVE const char* counterpull_document() {
    return counterpull::kept(counterpull::write_setup(counterpull::page().interface.bench().setup()));
}

// A phrase in the page's language.
EMSCRIPTEN_KEEPALIVE const char* counterpull_text(const char* key) {
    return counterpull::kept(std::string(counterpull::page().interface.text(key)));
}

// The device's language; the one to be spoken; and its words and letters, where they are no part of the
// program.
EMSCRIPTEN_KEEPALIVE void counterpull_device_language(const char* code) {
    counterpull::page().interface.set_device_language(code);
}
EMSCRIPTEN_KEEPALIVE const char* counterpull_language() {
    return counterpull::kept(std::string(counterpull::page().interface.language()));
}
EMSCRIPTEN_KEEPALIVE void counterpull_speak(const char* code, const char* file) {
    counterpull::page().interface.speak(counterpull::Words(code, file));
    counterpull::wake_up();
}

EMSCRIPTEN_KEEPALIVE void counterpull_faces(int size, const unsigned char* file) {
    counterpull::page().interface.take_faces(counterpull::LanguageFaces({file, file + size}));
    counterpull::wake_up();
}

// The words that are to be drawn (DrawnWords::take_wanted), and the picture of one in a style: how much of
// each dot is ink.
EMSCRIPTEN_KEEPALIVE const char* counterpull_words_to_draw() {
    return counterpull::kept(counterpull::page().interface.words_to_draw());
}
EMSCRIPTEN_KEEPALIVE void counterpull_picture_of_word(int place, int style, int width, int height,
                                                      const unsigned char* ink) {
    counterpull::page().interface.take_picture(static_cast<std::size_t>(place),
                                               static_cast<std::size_t>(style),
                                               {width, height, {ink, ink + width * height}});
    counterpull::wake_up();
}

// What the reader chose for this device, as text to be kept; and given back.
EMSCRIPTEN_KEEPALIVE const char* counterpull_preferences() {
    return counterpull::kept(counterpull::text_of(counterpull::page().interface.preferences()));
}
EMSCRIPTEN_KEEPALIVE void counterpull_prefer(const char* text) {
    counterpull::page().interface.preferences() = counterpull::preferences_of(text);
    counterpull::wake_up();
}

// The address's fragment that carries the set-up (link.h); "" while it is refused.
EMSCRIPTEN_KEEPALIVE const char* counterpull_link() {
    const counterpull::Workbench& bench = counterpull::page().interface.bench();
    return counterpull::kept(bench.outdated() || !bench.has_answer() ? ""
                                                                     : counterpull::link_of(bench.setup()));
}

// Begins with the set-up of such a fragment; the first message where it is refused, "" where it is on the
// page.
EMSCRIPTEN_KEEPALIVE const char* counterpull_open_link(const char* text) {
    return counterpull::opened(counterpull::open_link(text), &counterpull::Workbench::begin);
}

// The same for a set-up document: as a beginning, as an edit that can be undone, or only to know.
EMSCRIPTEN_KEEPALIVE const char* counterpull_begin(const char* text) {
    return counterpull::opened(counterpull::read_setup(text), &counterpull::Workbench::begin);
}
EMSCRIPTEN_KEEPALIVE const char* counterpull_open(const char* text) {
    return counterpull::opened(counterpull::read_setup(text), &counterpull::Workbench::open);
}
EMSCRIPTEN_KEEPALIVE const char* counterpull_check(const char* text) {
    const counterpull::SetupRead read = counterpull::read_setup(text);
    return counterpull::kept(
        read.setup ? "" : counterpull::first_message(read.problems, counterpull::page().interface.words()));
}

// Whose guitar is on the page: "linked" came by a link, else it is the reader's "own". And an own one is
// begun.
EMSCRIPTEN_KEEPALIVE void counterpull_whose(const char* whose) {
    using counterpull::Whose;
    counterpull::page().interface.set_whose(std::string_view(whose) == "linked" ? Whose::linked : Whose::own);
    counterpull::wake_up();
}
EMSCRIPTEN_KEEPALIVE void counterpull_begin_own() {
    counterpull::page().interface.begin_own();
    counterpull::wake_up();
}

// What is listened for, what is heard of it, and that it is no longer (Interface::hear).
EMSCRIPTEN_KEEPALIVE const char* counterpull_targets() {
    return counterpull::kept(counterpull::page().interface.listened_for());
}
EMSCRIPTEN_KEEPALIVE void counterpull_heard(const char* numbers, const char* note) {
    counterpull::page().interface.hear(numbers, note);
    counterpull::wake_up();
}
EMSCRIPTEN_KEEPALIVE void counterpull_deaf(const char* why) {
    counterpull::page().interface.stop_hearing(why);
    counterpull::wake_up();
}

// The answer as text for a forum.
EMSCRIPTEN_KEEPALIVE const char* counterpull_plain() {
    return counterpull::kept(counterpull::page().interface.plain_text());
}

// The drawing to be saved, as SVG.
EMSCRIPTEN_KEEPALIVE const char* counterpull_picture() {
    return counterpull::kept(counterpull::page().interface.picture());
}

// What the interface asks of the page, once (desk.h), or "".
EMSCRIPTEN_KEEPALIVE const char* counterpull_wish() {
    return counterpull::kept(counterpull::page().interface.take_wish());
}

// The work sheet for the printer, as JSON (work_sheet.h).
EMSCRIPTEN_KEEPALIVE const char* counterpull_sheet() {
    return counterpull::kept(counterpull::page().interface.sheet_json());
}

EMSCRIPTEN_KEEPALIVE int counterpull_frames() {
    return static_cast<int>(counterpull::page().window.frames_drawn());
}

} // extern "C"

int main() {
    return counterpull::run_page();
}
