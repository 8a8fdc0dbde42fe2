#include "engine/document/json_text.h"

#include "engine/base/format.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <set>

namespace counterpull {

namespace {

// Builds the value tree as the parser goes, and remembers what such a tree would forget: keys given twice.
class StrictBuilder : public nlohmann::json_sax<Json> {
  public:
    StrictBuilder(std::string_view text, Json& root, Problems& problems)
        : text_(text), root_(root), problems_(problems) {
        levels_.reserve(deepest_nesting);
    }

    bool null() override { return value(nullptr); }
    bool boolean(bool flag) override { return value(flag); }
    bool number_integer(Json::number_integer_t number) override { return value(number); }
    bool number_unsigned(Json::number_unsigned_t number) override { return value(number); }
    bool number_float(Json::number_float_t number, const std::string&) override { return value(number); }
    bool string(std::string& text) override { return value(text); }
    bool binary(Json::binary_t&) override { return false; } // JSON has none
    bool start_object(std::size_t) override { return open(Json::value_t::object); }
    bool start_array(std::size_t) override { return open(Json::value_t::array); }
    bool end_object() override { return close(); }
    bool end_array() override { return close(); }

    bool key(std::string& name) override {
        Level& level = levels_.back();
        const bool doubled = has(level, name);
        level.object().emplace_back(name, nullptr);
        if (doubled)
            problems_.add(path(), {"refused.doubled"});
        return true;
    }

    bool parse_error(std::size_t position, const std::string&, const Json::exception&) override {
        const auto before = text_.substr(0, std::min(position > 0 ? position - 1 : 0, text_.size()));
        const auto line = 1 + std::count(before.begin(), before.end(), '\n');
        const auto line_start = before.rfind('\n');
        const auto column = before.size() - (line_start == std::string_view::npos ? 0 : line_start + 1) + 1;
        problems_.add("", Phrase("refused.not_json").with("line", line).with("column", column));
        return false;
    }

  private:
    struct Level {
        Json* container = nullptr;
        std::set<std::string> keys{}; // of an object with many
        bool is_array() const { return container->is_array(); }
        Json::object_t& object() const { return container->get_ref<Json::object_t&>(); }
    };
    static constexpr std::size_t many_keys = 40; // more than any object of the document has

    // Few keys are looked through, many are looked up.
    static bool has(Level& level, const std::string& name) {
        const Json::object_t& object = level.object();
        auto named = [&](const auto& entry) { return entry.first == name; };
        if (object.size() < many_keys)
            return std::any_of(object.begin(), object.end(), named);
        if (level.keys.empty())
            for (const auto& entry : object)
                level.keys.insert(entry.first);
        return !level.keys.insert(name).second;
    }

    // Where the next value belongs: the whole, the end of a list, or at the key just read.
    Json& next() {
        if (levels_.empty())
            return root_;
        const Level& level = levels_.back();
        return level.is_array() ? level.container->get_ref<Json::array_t&>().emplace_back()
                                : level.object().back().second;
    }
    template <class Value>
    bool value(Value&& value) {
        next() = std::forward<Value>(value);
        return true;
    }

    bool open(Json::value_t kind) {
        if (static_cast<int>(levels_.size()) >= deepest_nesting) {
            problems_.add(path(), Phrase("refused.too_deep").with("most", deepest_nesting));
            return false;
        }
        Json& container = next();
        container = Json(kind);
        levels_.push_back({&container});
        return true;
    }
    bool close() {
        levels_.pop_back();
        return true;
    }

    // Of the value at the key just read, or of the next one in a list.
    std::string path() const { return path_from(0, ""); }
    std::string path_from(std::size_t level, const Path& so_far) const {
        if (level == levels_.size())
            return so_far.text();
        const Level& here = levels_[level];
        const bool last = level + 1 == levels_.size();
        if (here.is_array()) // a container further in stands in its list already
            return path_from(level + 1, Path(so_far, here.container->size() - (last ? 0u : 1u)));
        return path_from(level + 1, Path(so_far, here.object().back().first));
    }

    std::string_view text_;
    Json& root_;
    Problems& problems_;
    std::vector<Level> levels_;
};

} // namespace

Json parse_strictly(std::string_view text, Problems& problems) {
    if (text.size() > longest_document) {
        problems.add("", Phrase("refused.too_long").with("most", longest_document));
        return Json(Json::value_t::discarded);
    }
    Json root;
    StrictBuilder builder(text, root, problems);
    if (!Json::sax_parse(text, &builder) || !problems.none())
        return Json(Json::value_t::discarded);
    return root;
}

Json parse_json(std::string_view text) {
    Problems untold;
    return parse_strictly(text, untold);
}

Json object_of(std::initializer_list<JsonMember> members) {
    Json object = Json::object();
    auto& into = object.get_ref<Json::object_t&>();
    into.reserve(members.size());
    for (const JsonMember& member : members)
        into.emplace_back(member.key, std::move(member.value));
    return object;
}

bool is_utf8(const std::string& text) {
    const Json value = text; // what is none is left out by one way of writing, and marked by the other
    return value.dump(-1, ' ', false, Json::error_handler_t::ignore) ==
           value.dump(-1, ' ', false, Json::error_handler_t::replace);
}

Json json_number(double value) {
    assert(std::isfinite(value));
    return std::abs(value) < nothing_left ? 0.0 : nine_digits(value);
}

Json json_number(const std::optional<double>& value) {
    return value ? json_number(*value) : Json(nullptr);
}

} // namespace counterpull
