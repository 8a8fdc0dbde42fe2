// What lies over the page while something is picked there.
#pragma once

#include <imgui.h>

#include <optional>
#include <string>
#include <vector>

namespace counterpull {

struct OpenSheet {
    enum class Holds { nothing, list, springs };

    Holds holds = Holds::nothing;
    std::string label;
    ImVec2 low{}, high{}; // of what it was opened from: on a desk it hangs there
    bool begins = false;  // it has just been opened
    // Of a list:
    std::string id; // its combobox
    std::string current;
    std::vector<std::string> options;
    std::string sought;                // typed, to narrow it
    std::size_t at = 0;                // the keyboard is on this one of those left
    std::optional<std::size_t> chosen; // for the combobox to take in the next frame
};

} // namespace counterpull
