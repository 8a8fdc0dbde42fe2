#include "engine/document/json_text.h"

#include "engine/base/format.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <set>

namespace counterpull {

namespace {

// Listens to the parser without building anything, and remembers what a value tree would forget.
class StrictListener : public nlohmann::json_sax<Json> {
  public:
    StrictListener(std::string_view text, Problems& problems) : text_(text), problems_(problems) {}

    bool null() override { return value(); }
    bool boolean(bool) override { return value(); }
    bool number_integer(Json::number_integer_t) override { return value(); }
    bool number_unsigned(Json::number_unsigned_t) override { return value(); }
    bool number_float(Json::number_float_t, const std::string&) override { return value(); }
    bool string(std::string&) override { return value(); }
    bool binary(Json::binary_t&) override { return value(); }
    bool start_object(std::size_t) override { return open(false); }
    bool start_array(std::size_t) override { return open(true); }
    bool end_object() override { return close(); }
    bool end_array() override { return close(); }

    bool key(std::string& name) override {
        Level& level = levels_.back();
        level.key = name;
        if (!level.keys.insert(name).second)
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
        bool array = false;
        std::size_t index = 0;
        std::string key{};
        std::set<std::string> keys{};
    };

    bool value() {
        if (!levels_.empty())
            ++levels_.back().index;
        return true;
    }

    bool open(bool array) {
        if (static_cast<int>(levels_.size()) >= deepest_nesting) {
            problems_.add(path(), Phrase("refused.too_deep").with("most", deepest_nesting));
            return false;
        }
        levels_.push_back({array});
        return true;
    }

    bool close() {
        levels_.pop_back();
        return value();
    }

    std::string path() const {
        std::string path;
        for (const Level& level : levels_)
            path = level.array ? path_to(path, level.index) : path_to(path, level.key);
        return path;
    }

    std::string_view text_;
    Problems& problems_;
    std::vector<Level> levels_;
};

} // namespace

Json parse_strictly(std::string_view text, Problems& problems) {
    Json nothing(Json::value_t::discarded);
    if (text.size() > longest_document) {
        problems.add("", Phrase("refused.too_long").with("most", longest_document));
        return nothing;
    }
    StrictListener listener(text, problems);
    if (!Json::sax_parse(text, &listener) || !problems.none())
        return nothing;
    return Json::parse(text, nullptr, false);
}

Json number(double value) {
    assert(std::isfinite(value));
    return std::abs(value) < nothing_left ? 0.0 : nine_digits(value);
}

Json number(const std::optional<double>& value) {
    return value ? number(*value) : Json(nullptr);
}

} // namespace counterpull
