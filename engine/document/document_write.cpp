#include "engine/document/document.h"

#include "engine/document/document_fields.h"
#include "engine/document/json_text.h"

namespace counterpull {

namespace {

// Writes one object, leaving out what has its default.
class Writer {
  public:
    Json object_ = Json::object();

    void number(const char* key, double value) { object_[key] = value; }
    void number(const char* key, double value, double usual) {
        if (value != usual)
            object_[key] = value;
    }
    void maybe(const char* key, const std::optional<double>& value) { put_if_given(key, value); }
    void index(const char* key, int value) { object_[key] = value; }
    void maybe_index(const char* key, const std::optional<int>& value) { put_if_given(key, value); }
    void flag(const char* key, bool value) { object_[key] = value; }
    void flag(const char* key, bool value, bool usual) {
        if (value != usual)
            object_[key] = value;
    }
    void text(const char* key, const std::string& value) {
        if (!value.empty())
            object_[key] = value;
    }
    void per_string(const char* key, const PerString& value) {
        if (value.common())
            object_[key] = value.values[0];
        else
            object_[key] = value.values;
    }
    void per_string(const char* key, const PerString& value, double usual) {
        if (!value.common() || value.values[0] != usual)
            per_string(key, value);
    }
    void numbers(const char* key, const std::vector<double>& value) { object_[key] = value; }
    void maybe_numbers(const char* key, const std::optional<std::vector<double>>& value) {
        put_if_given(key, value);
    }
    void pair(const char* key, const std::array<double, 2>& value) { object_[key] = value; }
    void maybe_pair(const char* key, const std::optional<std::array<double, 2>>& value) {
        put_if_given(key, value);
    }
    void maybe_readings(const char* key, const std::optional<std::vector<std::optional<double>>>& value) {
        if (!value)
            return;
        Json list = Json::array();
        for (const std::optional<double>& item : *value)
            list.push_back(item ? Json(*item) : Json(nullptr));
        object_[key] = std::move(list);
    }
    template <class E, std::size_t N>
    void choice(const char* key, E value, const std::array<fields::Choice<E>, N>& names) {
        object_[key] = name_of_choice(value, names);
    }
    template <class E, std::size_t N>
    void choice(const char* key, E value, const std::array<fields::Choice<E>, N>& names, E usual) {
        if (value != usual)
            choice(key, value, names);
    }
    template <class E, std::size_t N>
    void choices(const char* key, const std::vector<std::pair<std::string, E>>& value,
                 const std::array<fields::Choice<E>, N>& names) {
        for (const auto& [name, item] : value)
            object_[key][name] = name_of_choice(item, names);
    }
    void pitches(const char* key, const std::vector<Pitch>& value, bool may_be_left_out) {
        if (value.empty() && may_be_left_out)
            return;
        Json list = Json::array();
        for (const Pitch& pitch : value)
            list.push_back(name_of(pitch));
        object_[key] = std::move(list);
    }
    template <class T>
    void object(const char* key, const T& value) {
        Writer inner;
        fields::visit(inner, value);
        object_[key] = std::move(inner.object_);
    }
    template <class T>
    void maybe_object(const char* key, const std::optional<T>& value) {
        if (value)
            object(key, *value);
    }
    template <class T>
    void objects(const char* key, const std::vector<T>& value, bool may_be_left_out) {
        if (value.empty() && may_be_left_out)
            return;
        Json list = Json::array();
        for (const T& item : value) {
            Writer inner;
            fields::visit(inner, item);
            list.push_back(std::move(inner.object_));
        }
        object_[key] = std::move(list);
    }

  private:
    template <class T>
    void put_if_given(const char* key, const std::optional<T>& value) {
        if (value)
            object_[key] = *value;
    }
    template <class E, std::size_t N>
    static std::string name_of_choice(E value, const std::array<fields::Choice<E>, N>& names) {
        for (const auto& [name, choice] : names)
            if (choice == value)
                return std::string(name);
        return {};
    }
};

// Objects and lists that fit a line stand on one, as a person would write them.
void lay_out(const Json& value, std::size_t indent, std::string& out) {
    constexpr std::size_t line = 100;
    const std::string flat = value.dump();
    if (!value.is_structured() || (indent > 0 && indent + flat.size() <= line)) {
        out += flat;
        return;
    }
    const bool object = value.is_object();
    const std::string margin(indent + 1, ' ');
    out += object ? "{" : "[";
    bool first = true;
    for (const auto& [key, item] : value.items()) {
        out += first ? "\n" : ",\n";
        first = false;
        out += margin;
        if (object)
            out += Json(key).dump() + ": ";
        lay_out(item, indent + 1, out);
    }
    out += "\n" + std::string(indent, ' ') + (object ? "}" : "]");
}

} // namespace

std::string write_setup(const Setup& setup) {
    Writer writer;
    writer.object_["format"] = std::string(setup_format);
    fields::visit(writer, setup);
    std::string text;
    lay_out(writer.object_, 0, text);
    return text + "\n";
}

} // namespace counterpull
