#include "engine/document/document_reader.h"

#include "engine/base/put_in_order.h"

#include <algorithm>
#include <cmath>
#include <functional>

namespace counterpull {

namespace {

constexpr std::size_t longest_title = 80; // characters

// Characters of a UTF-8 text (the parser has let only valid UTF-8 through).
std::size_t characters(const std::string& text) {
    std::size_t count = 0;
    for (const char c : text)
        count += (static_cast<unsigned char>(c) & 0xC0) != 0x80;
    return count;
}

// Reads values of one kind each. Where something else stands it is refused, and the value stays as it is.
struct ValueReader {
    Problems& problems;

    void refuse(const Path& path, const char* reason, const Json& value) {
        problems.add(path, Phrase(reason).with("found", shown(value)));
    }

    void to_number(const Json& value, const Path& path, double& into) {
        if (value.is_number())
            into = value.get<double>();
        else
            refuse(path, "refused.not_number", value);
    }
    void to_whole(const Json& value, const Path& path, int& into) {
        const double number = value.is_number() ? value.get<double>() : 0.5;
        if (number == std::floor(number) && std::abs(number) < 1e6)
            into = static_cast<int>(number);
        else
            refuse(path, "refused.not_whole", value);
    }
    void to_flag(const Json& value, const Path& path, bool& into) {
        if (value.is_boolean())
            into = value.get<bool>();
        else
            refuse(path, "refused.not_flag", value);
    }
    void to_text(const Json& value, const Path& path, std::string& into) {
        const auto* text = value.get_ptr<const std::string*>();
        if (!text)
            refuse(path, "refused.not_text", value);
        else if (characters(*text) > longest_title)
            problems.add(path, {"refused.title_too_long"});
        else
            into = *text;
    }
    void to_choice(const Json& value, const Path& path, std::span<const std::string_view> names, void* into) {
        const auto* text = value.get_ptr<const std::string*>();
        const auto found = text ? std::find(names.begin(), names.end(), *text) : names.end();
        if (found != names.end())
            return set_choice(into, static_cast<int>(found - names.begin()));
        std::string allowed;
        for (const std::string_view name : names)
            allowed += (allowed.empty() ? "\"" : ", \"") + std::string(name) + "\"";
        problems.add(path, Phrase("refused.not_choice").with("found", shown(value)).with("allowed", allowed));
    }

    template <class Use>
    void each(const Json& value, const Path& path, Use&& use) {
        if (!value.is_array())
            return refuse(path, "refused.not_list", value);
        for (std::size_t i = 0; i < value.size(); ++i)
            use(value[i], Path(path, i));
    }
    void to_numbers(const Json& value, const Path& path, std::vector<double>& into) {
        into.clear();
        if (value.is_array())
            into.reserve(value.size());
        each(value, path,
             [&](const Json& item, const Path& here) { to_number(item, here, into.emplace_back()); });
    }
    void to_pair(const Json& value, const Path& path, std::array<double, 2>& into) {
        if (!value.is_array() || value.size() != 2)
            return refuse(path, "refused.not_pair", value);
        for (std::size_t i = 0; i < 2; ++i)
            to_number(value[i], Path(path, i), into[i]);
    }
    void to_per_string(const Json& value, const Path& path, PerString& into) {
        if (value.is_number())
            into.values = {value.get<double>()};
        else if (!value.is_array())
            refuse(path, "refused.not_per_string", value);
        else if (value.size() < 2) // one number in a list would pass for a number common to all
            problems.add(path, Phrase("refused.per_string_count").with("found", value.size()));
        else
            to_numbers(value, path, into.values);
    }
    void to_readings(const Json& value, const Path& path, std::vector<std::optional<double>>& into) {
        each(value, path, [&](const Json& item, const Path& here) {
            std::optional<double> reading;
            if (!item.is_null())
                to_number(item, here, reading.emplace());
            into.push_back(reading);
        });
    }
    void to_pitches(const Json& value, const Path& path, std::vector<Pitch>& into) {
        each(value, path, [&](const Json& item, const Path& here) {
            const auto* text = item.get_ptr<const std::string*>();
            const std::optional<Pitch> pitch = text ? parse_pitch(*text) : std::nullopt;
            if (!pitch)
                refuse(here, "refused.not_pitch", item);
            into.push_back(pitch.value_or(Pitch{}));
        });
    }
    void to_bases(const Json& value, const Path& path, std::span<const std::string_view> names,
                  std::vector<std::pair<std::string, Basis>>& into) {
        if (!value.is_object())
            return refuse(path, "refused.not_object", value);
        for (const auto& [key, item] : value.get_ref<const Json::object_t&>())
            to_choice(item, Path(path, key), names, &into.emplace_back(key, Basis::usual).second);
    }
    void to_object(const Json& value, const Path& path, const Group& group, void* into) {
        if (value.is_object())
            read_object(value, group, into, path, {}, problems);
        else
            refuse(path, "refused.not_object", value);
    }
    void to_objects(const Json& value, const Path& path, const Group& group, void* into) {
        if (value.is_array())
            group.resize(into, value.size());
        std::size_t i = 0;
        each(value, path,
             [&](const Json& item, const Path& here) { to_object(item, here, group, group.at(into, i++)); });
    }

    void to_value(const Json& value, const Path& path, const Field& field, void* into) {
        switch (field.member.kind) {
        case Kind::number:
            return to_number(value, path, *static_cast<double*>(into));
        case Kind::whole:
            return to_whole(value, path, *static_cast<int*>(into));
        case Kind::flag:
            return to_flag(value, path, *static_cast<bool*>(into));
        case Kind::text:
            return to_text(value, path, *static_cast<std::string*>(into));
        case Kind::per_string:
            return to_per_string(value, path, *static_cast<PerString*>(into));
        case Kind::numbers:
            return to_numbers(value, path, *static_cast<std::vector<double>*>(into));
        case Kind::pair:
            return to_pair(value, path, *static_cast<std::array<double, 2>*>(into));
        case Kind::readings:
            return to_readings(value, path, *static_cast<std::vector<std::optional<double>>*>(into));
        case Kind::pitches:
            return to_pitches(value, path, *static_cast<std::vector<Pitch>*>(into));
        case Kind::choice:
            return to_choice(value, path, field.names, into);
        case Kind::bases:
            return to_bases(value, path, field.names,
                            *static_cast<std::vector<std::pair<std::string, Basis>>*>(into));
        case Kind::object:
            return to_object(value, path, field.member.group(), into);
        case Kind::objects:
            return to_objects(value, path, field.member.group(), into);
        }
    }
};

std::string known_keys(const Group& group, const void* object, std::optional<std::string_view> but) {
    std::vector<std::string_view> keys;
    for (const Field& field : group.fields)
        if (field.is_there(object))
            keys.push_back(field.key);
    if (but)
        keys.push_back(*but);
    put_in_order(keys, std::less<>());
    std::string all;
    for (const std::string_view key : keys)
        all += (all.empty() ? "" : ", ") + std::string(key);
    return all;
}

void refuse_unknown_keys(const Json& json, const Group& group, const void* object, const Path& path,
                         std::optional<std::string_view> but, Problems& problems) {
    for (const auto& [name, value] : json.get_ref<const Json::object_t&>()) {
        const std::string_view key = name;
        const bool known =
            key == but || std::any_of(group.fields.begin(), group.fields.end(), [&](const Field& field) {
                return field.key == key && field.is_there(object);
            });
        if (!known)
            problems.add(Path(path, key),
                         Phrase("refused.unknown_key").with("known", known_keys(group, object, but)));
    }
}

} // namespace

std::string shown(const Json& value) {
    if (value.is_object())
        return "{...}";
    if (value.is_array())
        return "[...]";
    std::string text = value.dump(-1, ' ', true, Json::error_handler_t::replace);
    return text.size() <= 24 ? text : text.substr(0, 24) + "...";
}

const Json* value_at(const Json& object, std::string_view key) {
    for (const auto& [name, value] : object.get_ref<const Json::object_t&>())
        if (name == key)
            return &value;
    return nullptr;
}

void read_object(const Json& object, const Group& group, void* into, const Path& path, Keys keys,
                 Problems& problems) {
    ValueReader reader{problems};
    for (const Field& field : group.fields) {
        if (!field.is_there(into))
            continue;
        const Path here(path, field.key);
        const Json* value = value_at(object, field.key);
        if (!value) {
            if (!field.may_be_left_out(into))
                problems.add(here, {"refused.missing"});
            continue;
        }
        // Null says that something is not known; of a count it says nothing.
        if (value->is_null() && field.member.optional && field.member.kind != Kind::whole)
            continue;
        reader.to_value(*value, here, field, field.member.make(into));
    }
    if (keys.strict)
        refuse_unknown_keys(object, group, into, path, keys.but, problems);
}

} // namespace counterpull
