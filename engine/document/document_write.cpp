#include "engine/document/document.h"

#include "engine/document/fields.h"
#include "engine/document/json_text.h"

namespace counterpull {

namespace {

Json object_json(const Group& group, const void* object);

// `found` as T, whatever is at a member of that kind.
template <class T>
const T& as(const void* value) {
    return *static_cast<const T*>(value);
}

Json per_string_json(const PerString& value) {
    return value.common() ? Json(value.values[0]) : Json(value.values);
}

Json readings_json(const std::vector<std::optional<double>>& readings) {
    Json list = Json::array();
    for (const std::optional<double>& reading : readings)
        list.push_back(reading ? Json(*reading) : Json(nullptr));
    return list;
}

Json pitches_json(const std::vector<Pitch>& pitches) {
    Json list = Json::array();
    for (const Pitch& pitch : pitches)
        list.push_back(name_of(pitch));
    return list;
}

// No name where a link says a choice that there is not: refused when it is read.
Json choice_json(const void* value, std::span<const std::string_view> names) {
    const auto choice = static_cast<std::size_t>(choice_in(value));
    return choice < names.size() ? std::string(names[choice]) : std::string();
}

Json bases_json(const std::vector<std::pair<std::string, Basis>>& bases,
                std::span<const std::string_view> names) {
    Json object = Json::object();
    for (const auto& [path, basis] : bases)
        object[path] = choice_json(&basis, names);
    return object;
}

Json objects_json(const Group& group, const void* objects) {
    Json list = Json::array();
    for (std::size_t i = 0; i < group.size(objects); ++i)
        list.push_back(object_json(group, group.at(const_cast<void*>(objects), i)));
    return list;
}

Json value_json(const Field& field, const void* value) {
    switch (field.member.kind) {
    case Kind::number:
        return as<double>(value);
    case Kind::whole:
        return as<int>(value);
    case Kind::flag:
        return as<bool>(value);
    case Kind::text:
        return as<std::string>(value);
    case Kind::per_string:
        return per_string_json(as<PerString>(value));
    case Kind::numbers:
        return as<std::vector<double>>(value);
    case Kind::pair:
        return as<std::array<double, 2>>(value);
    case Kind::readings:
        return readings_json(as<std::vector<std::optional<double>>>(value));
    case Kind::pitches:
        return pitches_json(as<std::vector<Pitch>>(value));
    case Kind::choice:
        return choice_json(value, field.names);
    case Kind::bases:
        return bases_json(as<std::vector<std::pair<std::string, Basis>>>(value), field.names);
    case Kind::object:
        return object_json(field.member.group(), value);
    case Kind::objects:
        return objects_json(field.member.group(), value);
    }
    return nullptr;
}

// Writes one object, leaving out what has its default.
void put_fields(const Group& group, const void* object, Json::object_t& into) {
    into.reserve(into.size() + group.fields.size());
    for (const Field& field : group.fields) {
        const void* value = field.is_there(object) ? field.value_in(object) : nullptr;
        if (!value || (!field.member.optional && field.may_be_left_out(object) &&
                       same_value(field, value, field.value_in(group.usual()))))
            continue;
        into.emplace_back(std::string(field.key), value_json(field, value));
    }
}

Json object_json(const Group& group, const void* object) {
    Json json = Json::object();
    put_fields(group, object, json.get_ref<Json::object_t&>());
    return json;
}

// Puts compact JSON on lines: objects and lists that fit a line stand on one, as a person would write them.
class Lines {
  public:
    explicit Lines(std::string_view flat) : flat_(flat), last_(flat.size()) {
        std::vector<std::size_t> open;
        for (std::size_t at = 0; at < flat.size(); ++at) {
            const char c = flat[at];
            if (c == '"') {
                const std::size_t start = at++;
                for (; flat[at] != '"'; ++at)
                    at += flat[at] == '\\';
                last_[start] = at;
            } else if (c == '{' || c == '[') {
                open.push_back(at);
            } else if (c == '}' || c == ']') {
                last_[open.back()] = at;
                open.pop_back();
            }
        }
    }

    void lay_out(std::size_t from, std::size_t indent, std::string& out) const {
        constexpr std::size_t line = 100;
        const std::size_t end = end_of(from);
        const bool object = flat_[from] == '{', structured = object || flat_[from] == '[';
        if (!structured || (indent > 0 && indent + (end - from) <= line)) {
            out += flat_.substr(from, end - from);
            return;
        }
        out += flat_[from];
        for (std::size_t at = from + 1; at < end - 1; ++at) { // past the comma
            out += '\n';
            out.append(indent + 1, ' ');
            if (object) {
                const std::size_t colon = last_[at] + 1;
                out += flat_.substr(at, colon - at);
                out += ": ";
                at = colon + 1;
            }
            lay_out(at, indent + 1, out);
            at = end_of(at);
            if (at < end - 1)
                out += ',';
        }
        out += '\n';
        out.append(indent, ' ');
        out += flat_[end - 1];
    }

  private:
    std::size_t end_of(std::size_t value) const {
        if (last_[value] != 0)
            return last_[value] + 1;
        return flat_.find_first_of(",]}", value);
    }

    std::string_view flat_;
    std::vector<std::size_t> last_; // of every text, object and list by its first character
};

} // namespace

std::string write_setup(const Setup& setup) {
    Json document = Json::object();
    auto& fields = document.get_ref<Json::object_t&>();
    fields.emplace_back("format", std::string(setup_format));
    put_fields(group_of<Setup>(), &setup, fields);
    // A set-up made by hand may carry any bytes; what is no UTF-8 in it is marked as such.
    const std::string flat = document.dump(-1, ' ', false, Json::error_handler_t::replace);
    std::string text;
    text.reserve(2 * flat.size());
    Lines(flat).lay_out(0, 0, text);
    return text + "\n";
}

} // namespace counterpull
