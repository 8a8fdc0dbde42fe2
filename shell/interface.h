// The page as a whole: one frame function, called by the desktop loop and by the browser's.
#pragma once

#include "shell/desk.h"

#include <array>
#include <optional>
#include <string>
#include <utility>

namespace counterpull {

// What the platform knows of the screen. CSS pixels.
struct Screen {
    float width = 0.0f;
    float height = 0.0f;
    float density = 1.0f; // device pixels per CSS pixel
    bool touch = false;   // the pointer is a finger
    bool prefers_dark = false;
    bool in_a_page = false; // a browser's, which can print, share and keep
    float inset_top = 0.0f, inset_bottom = 0.0f, inset_left = 0.0f, inset_right = 0.0f; // of notches and bars
    // What the reader's system demands: paper, ink and accent of its own, and that nothing moves by itself.
    std::optional<std::array<ImU32, 3>> colours{};
    bool calm = false;
};

class Interface {
  public:
    explicit Interface(Setup setup);

    // Draws one frame. To be called between ImGui::NewFrame and ImGui::Render.
    void frame(const Screen& screen);
    // The fonts for a pixel density; before every frame. True where they were made anew.
    bool load_fonts(float density);
    // The bench fills the page, and has a large face of its own.
    bool at_bench() const { return view_.at_bench.open; }

    // Whether the next frame will differ though nothing happens meanwhile.
    bool unfinished() const {
        return view_.edit_begins || view_.at_bench.moves || view_.sheet.begins || view_.sheet.chosen ||
               controls_.has_requests();
    }

    ControlList& controls() { return controls_; }
    Workbench& bench() { return bench_; }
    Preferences& preferences() { return view_.preferences; }
    const Words& words() const { return words_; }
    std::string_view text(std::string_view key) const { return words_.text(key); }
    // The device's language by its code; where it is none of ours, English is spoken.
    void set_device_language(std::string_view code);
    // The language to be spoken: chosen, or the device's. Words that are part of the program are taken by
    // itself, others are to be given.
    std::string_view language() const;
    void speak(Words words);
    // The letters of those words that the program's own faces lack.
    void take_faces(LanguageFaces faces) {
        faces_ = std::move(faces);
        ++faces_taken_;
    }
    // Words that the platform is to draw, by the wish "draw", and a picture of one.
    std::string words_to_draw() { return view_.drawn_words.take_wanted(); }
    void take_picture(std::size_t place, std::size_t style, DrawnWords::Picture picture) {
        view_.drawn_words.take(place, style, std::move(picture));
    }
    // Whose guitar is on the page; and a guitar of the reader's own, of which nothing has been said yet.
    void set_whose(Whose whose) { view_.whose = whose; }
    void begin_own();
    // A field is being typed into beside the canvas; "" no longer. All that is typed is one step to undo.
    void set_typing(std::string id) { view_.typing = std::move(id); }
    // Frames a control as the one that has the focus, and brings it into view; "" none.
    void show(std::string id) {
        view_.shown = std::move(id);
        view_.show_begins = !view_.shown.empty();
    }
    // What the platform hears while it listens (hearing.h), with a note on the sound in words; and why it no
    // longer does, "" where it was asked to stop.
    void hear(std::string_view numbers, std::string note) { view_.hearing.take(numbers, std::move(note)); }
    void stop_hearing(std::string why) { view_.hearing.end(std::move(why)); }
    std::string listened_for() const { return view_.hearing.targets_as_text(); }
    // What the platform is asked to do, once; "" nothing.
    bool has_wish() const { return !view_.wish.empty(); }
    std::string take_wish() { return std::exchange(view_.wish, {}); }
    // The drawing asked for last, as SVG; there when the wish is "picture".
    const std::string& picture() const { return view_.picture_svg; }
    // The work sheet as it is shown, as JSON for the printer; "{}" where there is none.
    std::string sheet_json() const;
    // The answer as text for a forum (report_text.h); "" where there is none.
    std::string plain_text() const;
    // The answer as it is shown, in words.
    const std::string& answer();
    // What is to be heard when it changes: the answer, or the step at the bench.
    std::string spoken();

  private:
    void follow_screen(const Screen& screen);
    void draw_wide(const Desk& desk);
    void draw_columns(const Desk& desk);
    void draw_narrow(const Desk& desk);

    // What the fonts were made for.
    struct MadeFor {
        float density = 0.0f;
        bool at_bench = false;
        int faces = 0, drawn = 0;
        bool operator==(const MadeFor&) const = default;
    };

    Words words_{"en"};
    LanguageFaces faces_;
    int faces_taken_ = 0;
    MadeFor made_for_;
    std::string device_language_ = "en";
    Preferences said_with_; // of which the words were told
    Workbench bench_;
    Theme theme_;
    ControlList controls_;
    ViewState view_;
    bool started_ = false;
    bool themed_ = false;
    std::optional<std::array<ImU32, 3>> demanded_; // colours that the theme was made of
};

} // namespace counterpull
