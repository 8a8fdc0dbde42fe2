// Everything that a person can read or operate, declared in one place as it is drawn: identity, role, label,
// value, and where it is on screen. Tests and assistive technology find a control here by its label, and may
// operate it by name, with the same effect as a press.
#pragma once

#include <imgui.h>

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace counterpull {

enum class Role { button, checkbox, combobox, spinbutton, textbox, option, heading, status };

// What goes into a field that is typed into, so that a phone brings up the right keys.
enum class Typed { number, signed_number, text };

struct Control {
    std::string id; // a path of the set-up document where it edits one, else a name
    Role role = Role::button;
    std::string label;
    std::string value;
    std::string problem; // why its value is refused; "" where it is not
    bool enabled = true;
    ImVec2 low{}, high{};           // screen rectangle, CSS pixels; may lie outside the visible part
    ImVec2 seen_low{}, seen_high{}; // what of it is visible, where a finger finds it; empty where nothing is
    Typed typed = Typed::number;
    std::vector<std::string> options{}; // of a combobox
};

// A control as it is declared: texts that live as long as its frame's drawing of it.
struct Declared {
    std::string_view id;
    Role role = Role::button;
    std::string_view label, value, problem{};
    bool enabled = true;
    ImVec2 low{}, high{};
    Typed typed = Typed::number;
    std::span<const std::string> options{};
};

class ControlList {
  public:
    void begin_frame();
    void declare(const Declared& control);
    // Something lies over all that was declared so far: nothing there can be touched.
    void cover() { covered_ = count_; }
    void end_frame();
    // Those of this frame, or of the last while none is being drawn.
    std::span<const Control> all() const { return {kept_.data(), count_}; }
    // Grows with every frame whose controls are not those of the frame before.
    long revision() const { return revision_; }
    // Told of every text that has a place of its own; those wider than it are kept, for a test to find.
    void check_fit(std::string_view text, float needed, float there_is) {
        if (needed > there_is)
            overflowing_.emplace_back(text);
    }
    const std::vector<std::string>& overflowing() const { return overflowing_; }
    // Whether a number field is seen there.
    bool field_at(float x, float y) const;
    // All of it as a JSON list, in reading order.
    std::string json() const;

    // A wish to operate a control, from outside: carried out in the next frame that draws it.
    // Buttons, options and headings are pressed; others are given the value as if typed.
    void request(std::string id, std::string value);
    std::optional<std::string> take_request(std::string_view id);
    bool has_requests() const { return !requests_.empty(); }

  private:
    struct Request {
        std::string id;
        std::string value;
        int frames_left; // a control that is not drawn does not keep the page awake
    };
    std::vector<Control> kept_; // its first `count_` are in use; a frame writes over the one before
    std::size_t count_ = 0, last_count_ = 0;
    std::size_t covered_ = 0, last_covered_ = 0; // the first so many
    long revision_ = 0;
    bool changed_ = false;
    std::vector<std::string> overflowing_;
    std::vector<Request> requests_;
};

std::string_view name_of(Role role);

} // namespace counterpull
