#include "shell/controls.h"

#include "engine/document/json_text.h"

#include <algorithm>
#include <utility>

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
    case Role::textbox:
        return "textbox";
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
    last_count_ = std::exchange(count_, 0);
    last_covered_ = std::exchange(covered_, 0);
    changed_ = false;
    std::erase_if(requests_, [](Request& request) { return --request.frames_left < 0; });
}

void ControlList::declare(const Declared& control) {
    if (count_ == kept_.size())
        kept_.emplace_back();
    Control& kept = kept_[count_++];
    auto put = [&](auto& place, const auto& value) {
        if (place == value)
            return;
        place = value;
        changed_ = true;
    };
    auto put_place = [&](ImVec2& place, ImVec2 value) {
        put(place.x, value.x);
        put(place.y, value.y);
    };
    put(kept.id, control.id);
    put(kept.role, control.role);
    put(kept.label, control.label);
    put(kept.value, control.value);
    put(kept.problem, control.problem);
    put(kept.enabled, control.enabled);
    put_place(kept.low, control.low);
    put_place(kept.high, control.high);
    const ImDrawList& sheet = *ImGui::GetWindowDrawList();
    const ImVec2 low = sheet.GetClipRectMin(), high = sheet.GetClipRectMax();
    put_place(kept.seen_low, {std::max(control.low.x, low.x), std::max(control.low.y, low.y)});
    put_place(kept.seen_high, {std::min(control.high.x, high.x), std::min(control.high.y, high.y)});
    put(kept.typed, control.typed);
    if (!std::equal(kept.options.begin(), kept.options.end(), control.options.begin(),
                    control.options.end())) {
        kept.options.assign(control.options.begin(), control.options.end());
        changed_ = true;
    }
}

void ControlList::end_frame() {
    if (changed_ || count_ != last_count_ || covered_ != last_covered_)
        ++revision_;
}

void ControlList::request(std::string id, std::string value) {
    // What is typed faster than it is drawn: the last counts. Presses, which have no value, count each.
    std::erase_if(requests_, [&](const Request& before) {
        return before.id == id && !(before.value.empty() && value.empty());
    });
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
    const auto list = all().subspan(covered_);
    return std::any_of(list.begin(), list.end(), [&](const Control& c) {
        return c.role == Role::spinbutton && x >= c.seen_low.x && x <= c.seen_high.x && y >= c.seen_low.y &&
               y <= c.seen_high.y;
    });
}

std::string ControlList::json() const {
    const auto rectangle = [](ImVec2 low, ImVec2 high) {
        return std::vector<float>{low.x, low.y, high.x, high.y};
    };
    auto list = Json::array();
    for (std::size_t i = 0; i < count_; ++i) {
        const Control& control = kept_[i];
        list.push_back(object_of({{"id", control.id},
                                  {"role", name_of(control.role)},
                                  {"label", control.label},
                                  {"value", control.value},
                                  {"problem", control.problem},
                                  {"enabled", control.enabled},
                                  {"covered", i < covered_},
                                  {"options", control.options},
                                  {"typed", control.typed == Typed::text            ? "text"
                                            : control.typed == Typed::signed_number ? "signed"
                                                                                    : "number"},
                                  {"rect", rectangle(control.low, control.high)},
                                  {"seen", rectangle(control.seen_low, control.seen_high)}}));
    }
    return list.dump(-1, ' ', false, Json::error_handler_t::replace);
}

} // namespace counterpull
