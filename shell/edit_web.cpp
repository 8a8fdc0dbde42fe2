// Typing in the browser: into the page's own line, which it lays over the field (web/page/typing.js). What is
// typed comes as requests.
#include "shell/widget_parts.h"

namespace counterpull {

void begin_edit(const Desk& desk, std::string_view path, std::string_view) {
    (desk.view.wish = "type ") += path;
}

bool edit_line(const Desk&, std::string_view, ImVec2) {
    return false;
}

} // namespace counterpull
