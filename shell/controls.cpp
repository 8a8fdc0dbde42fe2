#include "shell/controls.h"

#include "engine/document/json_text.h"

#include <algorithm>

namespace counterpull {

std::string_view name_of(Role role) {
    switch (role) {
    case Role::button:
        return "button";
    case Role::checkbox:
        return "checkbox";
    case Role::combobox:
        return "combobox";
    case Role::spinbutton:
        return "spinbutton";
    case Role::option:
        return "option";
    case Role::heading:
        return "heading";
    case Role::status:
        break;
    }
    return "status";
}

void ControlList::begin_frame() {
    overflowing_.clear();
    now_.clear();
    std::erase_if(requests_, [](Request& request) { return --request.frames_left < 0; });
}

void ControlList::request(std::string id, std::string value) {
    requests_.push_back({std::move(id), std::move(value), 3});
}

std::optional<std::string> ControlList::take_request(std::string_view id) {
    const auto found =
        std::find_if(requests_.begin(), requests_.end(), [&](const Request& r) { return r.id == id; });
    if (found == requests_.end())
        return std::nullopt;
    std::string value = std::move(found->value);
    requests_.erase(found);
    return value;
}

bool ControlList::field_at(float x, float y) const {
    return std::any_of(now_.begin(), now_.end(), [&](const Control& c) {
        return c.role == Role::spinbutton && x >= c.low.x && x <= c.high.x && y >= c.low.y && y <= c.high.y;
    });
}

std::string ControlList::json() const {
    auto list = Json::array();
    for (const Control& control : now_)
        list.push_back({{"id", control.id},
                        {"role", name_of(control.role)},
                        {"label", control.label},
                        {"value", control.value},
                        {"problem", control.problem},
                        {"enabled", control.enabled},
                        {"options", control.options},
                        {"typed", control.typed == Typed::text            ? "text"
                                  : control.typed == Typed::signed_number ? "signed"
                                                                          : "number"},
                        {"rect", {control.low.x, control.low.y, control.high.x, control.high.y}}});
    return list.dump(-1, ' ', false, Json::error_handler_t::replace);
}

} // namespace counterpull
