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

// A field stands no further from its label than this leaves; a line of fields is no wider.
inline constexpr float widest_row = 460.0f;

void space(float height);
void rule(const Desk& desk);

// A button; `primary` fills it with the accent. True when pressed. `spoken` is its label to those who hear
// it, where that says more; it begins with what is seen.
bool button(const Desk& desk, std::string_view id, std::string_view label, bool primary = false,
            std::string_view spoken = {});

// A switch with its label. True when it changed.
bool toggle(const Desk& desk, std::string_view id, std::string_view label, bool& on);

// A heading that folds what follows. `summary` is shown beside it while folded. True while open.
bool section(const Desk& desk, std::string_view id, std::string_view title, std::string_view summary);

// A line of text, as wide as there is room where no width is given; while it is empty its label stands in it.
// Returns the text as it is typed.
std::optional<std::string> text_field(const Desk& desk, std::string_view id, std::string_view label,
                                      std::string_view text, float width = 0.0f);

// One of several, in a list over the page; by name from outside without opening. Returns the index chosen.
std::optional<std::size_t> choice(const Desk& desk, std::string_view id, std::string_view label,
                                  std::string_view current, const Lines& options);

// The same for what is drawn otherwise: `pressed` is the item drawn last.
std::optional<std::size_t> picked(const Desk& desk, std::string_view id, std::string_view label,
                                  std::string_view current, const Lines& options, bool pressed);

// How a number field looks and counts, in the document's units: the field itself shows and reads the
// reader's. `path` is the set-up document's, so that a refused value is shown here.
struct NumberLook {
    std::string_view unit;
    double step = 1.0;
    int digits = 1;
    bool sign = false;             // show + and −
    std::optional<double> usual{}; // told where the value differs from it
    std::string_view note{};       // faint, under the label
};
// Returns the number entered, by stepper, keyboard or name. What is no number stays as a draft.
std::optional<double> number_field(const Desk& desk, std::string_view path, std::string_view label,
                                   double value, const NumberLook& look);

// A number that may not have been read: shown as a dash until it is entered, and again when it is emptied.
// Returns what was entered, a number or that there is none.
using MaybeEntered = std::optional<std::optional<double>>;
MaybeEntered maybe_field(const Desk& desk, std::string_view path, std::string_view label,
                         const std::optional<double>& value, const NumberLook& look);

// A field with its own way to show and read a value, under the same rules.
struct TextLook {
    std::string_view shown;
    double step = 1.0;
    const char* refusal = ""; // key of the phrase for what cannot be read
    std::string_view note{};
    Typed typed = Typed::number;
};
// What reads a typed text: anything that can be called with it, for as long as the call of the field lasts.
class ReadText {
  public:
    template <class Read>
    ReadText(const Read& read)
        : read_(&read), call_([](const void* it, std::string_view typed) {
              return (*static_cast<const Read*>(it))(typed);
          }) {}
    ReadText(std::optional<double> (*read)(std::string_view)) : function_(read), call_(nullptr) {}
    std::optional<double> operator()(std::string_view typed) const {
        return call_ ? call_(read_, typed) : function_(typed);
    }

  private:
    const void* read_ = nullptr;
    std::optional<double> (*function_)(std::string_view) = nullptr;
    std::optional<double> (*call_)(const void*, std::string_view);
};
std::optional<double> stepper_field(const Desk& desk, std::string_view path, std::string_view label,
                                    double value, const TextLook& look, const ReadText& read);

// A sheet as high as what lies on it, laid out even where it is out of sight, so that its controls have their
// places.
inline constexpr int fitted_sheet = ImGuiChildFlags_AutoResizeY | ImGuiChildFlags_AlwaysAutoResize;

// A table of texts. The first column begins at the left, the others end at the right of theirs; heads are
// faint. It takes what it needs, spread over at most a line's comfortable width. `title` names it to those
// who hear it.
void table(const Desk& desk, std::string_view id, std::string_view title, const Lines& heads,
           const std::vector<Lines>& rows);

// A card: a sheet on the page around what `contents` draws.
void card(const Desk& desk, const char* id, const std::function<void()>& contents);

} // namespace counterpull
