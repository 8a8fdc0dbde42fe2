// Reads JSON objects into the structs of a set-up, field by field (document_fields.h), and refuses what is
// not expected. For documents and presets alike.
#pragma once

#include "engine/document/document.h"
#include "engine/document/document_fields.h"
#include "engine/document/json_text.h"

#include <cmath>
#include <set>

namespace counterpull {

// What stands there, short enough for a message.
inline std::string shown(const Json& value) {
    if (value.is_object())
        return "{...}";
    if (value.is_array())
        return "[...]";
    std::string text = value.dump(-1, ' ', true, Json::error_handler_t::replace);
    return text.size() <= 24 ? text : text.substr(0, 24) + "...";
}

// Characters of a UTF-8 text (the parser has let only valid UTF-8 through).
inline std::size_t characters(const std::string& text) {
    std::size_t count = 0;
    for (const char c : text)
        count += (static_cast<unsigned char>(c) & 0xC0) != 0x80;
    return count;
}

// Reads one object, field by field, and refuses the keys nobody asked for.
class Reader {
  public:
    Reader(const Json& object, std::string path, Problems& problems)
        : object_(object), path_(std::move(path)), problems_(problems) {}

    void number(const char* key, double& into) {
        read(key, true, [&](const auto& v, const auto& p) { to_number(v, p, into); });
    }
    void number(const char* key, double& into, double) {
        read(key, false, [&](const auto& v, const auto& p) { to_number(v, p, into); });
    }
    void maybe(const char* key, std::optional<double>& into) {
        read_unless_null(key, [&](const auto& v, const auto& p) { to_number(v, p, into.emplace()); });
    }
    void index(const char* key, int& into) {
        read(key, true, [&](const auto& v, const auto& p) { to_index(v, p, into); });
    }
    void maybe_index(const char* key, std::optional<int>& into) {
        read(key, false, [&](const auto& v, const auto& p) { to_index(v, p, into.emplace()); });
    }
    void flag(const char* key, bool& into) {
        read(key, true, [&](const auto& v, const auto& p) { to_flag(v, p, into); });
    }
    void flag(const char* key, bool& into, bool) {
        read(key, false, [&](const auto& v, const auto& p) { to_flag(v, p, into); });
    }
    void text(const char* key, std::string& into) {
        read(key, false, [&](const Json& value, const std::string& path) {
            const auto* text = value.get_ptr<const std::string*>();
            if (!text)
                refuse(path, "refused.not_text", value);
            else if (characters(*text) > 80)
                problems_.add(path, {"refused.title_too_long"});
            else
                into = *text;
        });
    }
    void per_string(const char* key, PerString& into) {
        read(key, true, [&](const auto& v, const auto& p) { to_per_string(v, p, into); });
    }
    void per_string(const char* key, PerString& into, double) {
        read(key, false, [&](const auto& v, const auto& p) { to_per_string(v, p, into); });
    }
    void numbers(const char* key, std::vector<double>& into) {
        read(key, true, [&](const auto& v, const auto& p) { to_numbers(v, p, into); });
    }
    void maybe_numbers(const char* key, std::optional<std::vector<double>>& into) {
        read_unless_null(key, [&](const auto& v, const auto& p) { to_numbers(v, p, into.emplace()); });
    }
    void pair(const char* key, std::array<double, 2>& into) {
        read(key, true, [&](const auto& v, const auto& p) { to_pair(v, p, into); });
    }
    void maybe_pair(const char* key, std::optional<std::array<double, 2>>& into) {
        read_unless_null(key, [&](const auto& v, const auto& p) { to_pair(v, p, into.emplace()); });
    }
    void maybe_readings(const char* key, std::optional<std::vector<std::optional<double>>>& into) {
        read_unless_null(key, [&](const Json& value, const std::string& path) {
            into.emplace();
            each(value, path, [&](const Json& item, const std::string& place) {
                std::optional<double>& reading = into->emplace_back();
                if (!item.is_null())
                    to_number(item, place, reading.emplace());
            });
        });
    }
    template <class E, std::size_t N>
    void choice(const char* key, E& into, const std::array<fields::Choice<E>, N>& names) {
        read(key, true, [&](const auto& v, const auto& p) { to_choice(v, p, into, names); });
    }
    template <class E, std::size_t N>
    void choice(const char* key, E& into, const std::array<fields::Choice<E>, N>& names, E) {
        read(key, false, [&](const auto& v, const auto& p) { to_choice(v, p, into, names); });
    }
    template <class E, std::size_t N>
    void choices(const char* key, std::vector<std::pair<std::string, E>>& into,
                 const std::array<fields::Choice<E>, N>& names) {
        read(key, false, [&](const Json& value, const std::string& path) {
            if (!value.is_object())
                return refuse(path, "refused.not_object", value);
            for (const auto& [name, item] : value.items()) {
                into.emplace_back(name, E{});
                to_choice(item, path_to(path, name), into.back().second, names);
            }
        });
    }
    void pitches(const char* key, std::vector<Pitch>& into, bool may_be_left_out) {
        read(key, !may_be_left_out, [&](const Json& value, const std::string& path) {
            each(value, path, [&](const Json& item, const std::string& place) {
                const auto* text = item.get_ptr<const std::string*>();
                const std::optional<Pitch> pitch = text ? parse_pitch(*text) : std::nullopt;
                if (!pitch)
                    refuse(place, "refused.not_pitch", item);
                into.push_back(pitch.value_or(Pitch{}));
            });
        });
    }
    template <class T>
    void object(const char* key, T& into) {
        read(key, true, [&](const auto& v, const auto& p) { to_object(v, p, into); });
    }
    template <class T>
    void maybe_object(const char* key, std::optional<T>& into) {
        read_unless_null(key, [&](const auto& v, const auto& p) { to_object(v, p, into.emplace()); });
    }
    template <class T>
    void objects(const char* key, std::vector<T>& into, bool may_be_left_out) {
        read(key, !may_be_left_out, [&](const Json& value, const std::string& path) {
            each(value, path, [&](const Json& item, const std::string& place) {
                to_object(item, place, into.emplace_back());
            });
        });
    }

    void known(const char* key) { asked_.insert(key); }
    void refuse_unknown_keys() {
        for (const auto& [key, value] : object_.items())
            if (!asked_.contains(key))
                problems_.add(path_to(path_, key),
                              Phrase("refused.unknown_key").with("known", joined(asked_)));
    }

  private:
    static std::string joined(const std::set<std::string>& names) {
        std::string all;
        for (const std::string& name : names)
            all += (all.empty() ? "" : ", ") + name;
        return all;
    }

    template <class Use>
    void read(const char* key, bool required, Use&& use) {
        known(key);
        const auto found = object_.find(key);
        if (found != object_.end())
            use(*found, path_to(path_, key));
        else if (required)
            problems_.add(path_to(path_, key), {"refused.missing"});
    }
    template <class Use>
    void read_unless_null(const char* key, Use&& use) {
        read(key, false, [&](const Json& value, const std::string& path) {
            if (!value.is_null())
                use(value, path);
        });
    }

    void refuse(const std::string& path, const char* reason, const Json& value) {
        problems_.add(path, Phrase(reason).with("found", shown(value)));
    }
    void to_number(const Json& value, const std::string& path, double& into) {
        if (value.is_number())
            into = value.get<double>();
        else
            refuse(path, "refused.not_number", value);
    }
    void to_index(const Json& value, const std::string& path, int& into) {
        const double number = value.is_number() ? value.get<double>() : 0.5;
        if (number == std::floor(number) && std::abs(number) < 1e6)
            into = static_cast<int>(number);
        else
            refuse(path, "refused.not_whole", value);
    }
    void to_flag(const Json& value, const std::string& path, bool& into) {
        if (value.is_boolean())
            into = value.get<bool>();
        else
            refuse(path, "refused.not_flag", value);
    }
    template <class Use>
    void each(const Json& value, const std::string& path, Use&& use) {
        if (!value.is_array())
            return refuse(path, "refused.not_list", value);
        for (std::size_t i = 0; i < value.size(); ++i)
            use(value[i], path_to(path, i));
    }
    void to_numbers(const Json& value, const std::string& path, std::vector<double>& into) {
        into.clear();
        each(value, path,
             [&](const auto& item, const auto& place) { to_number(item, place, into.emplace_back()); });
    }
    void to_pair(const Json& value, const std::string& path, std::array<double, 2>& into) {
        if (!value.is_array() || value.size() != 2)
            return refuse(path, "refused.not_pair", value);
        to_number(value[0], path_to(path, std::size_t{0}), into[0]);
        to_number(value[1], path_to(path, std::size_t{1}), into[1]);
    }
    void to_per_string(const Json& value, const std::string& path, PerString& into) {
        if (value.is_number())
            into.values = {value.get<double>()};
        else if (!value.is_array())
            refuse(path, "refused.not_per_string", value);
        else if (value.size() < 2) // one number in a list would pass for a number common to all
            problems_.add(path, Phrase("refused.per_string_count").with("found", value.size()));
        else
            to_numbers(value, path, into.values);
    }
    template <class E, std::size_t N>
    void to_choice(const Json& value, const std::string& path, E& into,
                   const std::array<fields::Choice<E>, N>& names) {
        std::string allowed;
        for (const auto& [name, choice] : names) {
            if (value == name) {
                into = choice;
                return;
            }
            allowed += (allowed.empty() ? "\"" : ", \"") + std::string(name) + "\"";
        }
        problems_.add(path,
                      Phrase("refused.not_choice").with("found", shown(value)).with("allowed", allowed));
    }
    template <class T>
    void to_object(const Json& value, const std::string& path, T& into) {
        if (!value.is_object())
            return refuse(path, "refused.not_object", value);
        Reader reader(value, path, problems_);
        fields::visit(reader, into);
        reader.refuse_unknown_keys();
    }

    const Json& object_;
    std::string path_;
    Problems& problems_;
    std::set<std::string> asked_;
};

} // namespace counterpull
