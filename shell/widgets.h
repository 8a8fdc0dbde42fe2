// The controls that views are made of. Each draws itself in the project's own look, declares itself to the
// ControlList with role, label and value, and can be operated by mouse, touch, keyboard or by name.
#pragma once

#include "shell/desk.h"
#include "shell/text.h"

#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace counterpull {

void space(float height);
void rule(const Desk& desk);

// A button; `primary` fills it with the accent. True when pressed.
bool button(const Desk& desk, const std::string& id, const std::string& label, bool primary = false);

// A switch with its label. True when it changed.
bool toggle(const Desk& desk, const std::string& id, const std::string& label, bool& on);

// A heading that folds what follows. `summary` is shown beside it while folded. True while open.
bool section(const Desk& desk, const std::string& id, const std::string& title, const std::string& summary);

// One of several, in a list that opens; by name from outside without opening. Returns the index chosen.
std::optional<std::size_t> choice(const Desk& desk, const std::string& id, const std::string& label,
                                  const std::string& current, const std::vector<std::string>& options);

// How a number field looks and counts, in the document's units: the field itself shows and reads the
// reader's. `path` is the set-up document's, so that a refused value is shown here.
struct NumberLook {
    std::string unit;
    double step = 1.0;
    int digits = 1;
    bool sign = false;             // show + and −
    std::optional<double> usual{}; // told where the value differs from it
    std::string note{};            // faint, under the label
};
// Returns the number entered, by stepper, keyboard or name. What is no number stays as a draft.
std::optional<double> number_field(const Desk& desk, const std::string& path, const std::string& label,
                                   double value, const NumberLook& look);

// A field with its own way to read and show text, under the same rules.
struct TextLook {
    std::function<std::string(double)> show;
    std::function<std::optional<double>(std::string_view)> read;
    double step = 1.0;
    std::string refusal; // key of the phrase for what cannot be read
    std::string note{};
    std::optional<std::string> usual{};
    Typed typed = Typed::number;
};
// A number's look as such a field.
TextLook number_look(const Desk& desk, const NumberLook& look, double value);
std::optional<double> stepper_field(const Desk& desk, const std::string& path, const std::string& label,
                                    double value, const TextLook& look);

// A sheet as high as what lies on it, laid out even where it is out of sight, so that its controls have their
// places.
inline constexpr int fitted_sheet = ImGuiChildFlags_AutoResizeY | ImGuiChildFlags_AlwaysAutoResize;

// A table of texts. The first column begins at the left, the others end at the right of theirs; heads are
// faint. It takes what it needs, spread over at most a line's comfortable width. `title` names it to those
// who hear it.
void table(const Desk& desk, const std::string& id, const std::string& title,
           const std::vector<std::string>& heads, const std::vector<std::vector<std::string>>& rows);

// A card: a sheet on the page around what `contents` draws.
void card(const Desk& desk, const char* id, const std::function<void()>& contents);

} // namespace counterpull
