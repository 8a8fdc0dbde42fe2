// What every view is given: the set-up and its answer, the words, the look, and the controls of this frame.
#pragma once

#include "engine/advice/string_search.h"
#include "engine/say/words.h"
#include "engine/say/work_sheet.h"
#include "shell/bench_screen.h"
#include "shell/controls.h"
#include "shell/hearing.h"
#include "shell/kept.h"
#include "shell/open_sheet.h"
#include "shell/picture.h"
#include "shell/preferences.h"
#include "shell/theme.h"
#include "shell/workbench.h"

#include <array>
#include <initializer_list>
#include <optional>
#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace counterpull {

// A reading that was begun on the page: nothing was read yet, and the set-up knows nothing of it.
struct BegunReading {
    ReadingKind kind = ReadingKind::in_tune;
    bool by_sheet = false;                        // each string tuned once by the tuning sheet
    std::optional<std::array<double, 2>> turns{}; // nothing: as the answer asked for
    long opening = 0;                             // of the set-up that it was begun for (Workbench::opening)
    int frames_to_show = 0;                       // in which it is still to be brought into view
};

// State of the interface that is no part of the set-up.
// Whose guitar is on the page, as far as the page knows.
enum class Whose { example, linked, own };

struct ViewState {
    Whose whose = Whose::example;
    std::set<std::string, std::less<>> open_sections; // by id
    std::string editing;                              // id of the field being typed into, "" none
    std::string edit_text;
    bool edit_begins = false;  // its keyboard focus is still to be taken
    std::string shown;         // id of the control that has the focus of the page beside the canvas, "" none
    bool show_begins = false;  // it is still to be brought into view
    std::string typing;        // id of the field that is typed into beside the canvas, "" none
    std::string dragged;       // id of the field whose number is being dragged, "" none
    double dragged_from = 0.0; // its number when that began
    OpenSheet sheet;           // over the page
    bool exaggerate = false;   // tilt in the side view
    int tuning_step = 0;       // string by string, pass by pass
    std::optional<bool> wedge; // with or without, chosen by hand
    Feel feel = Feel::present; // of the strings searched for
    std::optional<BegunReading> begun_reading;
    BenchScreen at_bench;
    Hearing hearing;
    DrawnWords drawn_words;
    unsigned terms_met = 0;       // words of the trade in this frame (terms.cpp)
    int term = -1;                // the one that is explained
    ImVec2 term_at{};             // where it stands
    bool term_pointed_at = false; // in this frame
    // What the platform is asked to do, "" nothing: "print", "share", "notebook", "picture", "awake" (the
    // screen is to stay on), "asleep" (it need not), "own" (a guitar of one's own is to be begun), "mine"
    // (what is on the page is to be kept as one's own), "listen" (for the strings of `hearing`, or elsewhere
    // than before), "deaf" (no longer), "type ID" (into that field, by the page's own line), "draw" (the
    // words of `drawn_words`).
    std::string wish;
    std::string picture_of; // id of the drawing that is to be recorded, "" none
    Picture picture;
    std::string picture_svg; // the last one recorded
    Preferences preferences;
    Kept kept;
};

using Lines = std::vector<std::string>;

struct Desk {
    Workbench& bench;
    const Words& words;
    const Theme& theme;
    ControlList& controls;
    ViewState& view;
    bool narrow = false;    // one column
    bool in_a_page = false; // a browser's, which can print, share and keep
    bool calm = false;      // nothing moves by itself

    // The text of a key lives as long as the words.
    std::string_view say(std::string_view key) const { return words.text(key); }
    std::string_view say(const char* key) const { return words.text(key); }
    std::string say(const Phrase& phrase) const { return words.say(phrase); }
    std::string say(const Amount& amount) const { return words.say(amount); }
    std::string say(const Pitch& pitch) const { return words.say(pitch); }
    std::string say(const Parts& parts) const { return words.say(parts); }
    // What `make` returns, kept under a name until the set-up, what is refused, or the words change.
    template <class Make>
    const auto& kept(std::string_view name, Make&& make) const {
        return view.kept.of(name, bench.revision(), make);
    }
    // How the job is done: as it takes the least work, or with or without the wedge as chosen.
    Way way() const { return usual_way(bench.report(), view.wedge); }
    // The texts of several keys, to choose among.
    const Lines& texts(std::string_view name, std::initializer_list<const char*> keys) const {
        return kept(name, [&] {
            Lines all;
            for (const char* key : keys)
                all.emplace_back(say(key));
            return all;
        });
    }
    // The names of presets, to choose among.
    template <class Presets>
    const Lines& names(std::string_view kept_as, const Presets& presets) const {
        return kept(kept_as, [&] {
            Lines all;
            for (const auto& preset : presets)
                all.push_back(this->name(preset.name));
            return all;
        });
    }
    std::string name(const std::string& of_preset) const { return words.say(PresetName{of_preset}); }
};

} // namespace counterpull
