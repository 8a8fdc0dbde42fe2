// The range check: walks the fields of a set-up and holds every number to the table.
#include "engine/document/document.h"
#include "engine/document/document_fields.h"
#include "engine/document/document_rules.h"
#include "engine/document/problems.h"
#include "engine/document/ranges.h"

namespace counterpull {

namespace {

class RangeCheck {
  public:
    RangeCheck(std::string path, std::string_view group, Problems& problems)
        : path_(std::move(path)), group_(group), problems_(problems) {}

    void number(const char* key, double value) { check(key, path_to(path_, key), value); }
    void number(const char* key, double value, double) { number(key, value); }
    void maybe(const char* key, const std::optional<double>& value) {
        if (value)
            number(key, *value);
    }
    void index(const char* key, int value) { number(key, value); }
    void maybe_index(const char* key, const std::optional<int>& value) {
        if (value)
            number(key, *value);
    }
    void numbers(const char* key, const std::vector<double>& values) {
        for (std::size_t i = 0; i < values.size(); ++i)
            check(key, path_to(path_to(path_, key), i), values[i]);
    }
    void maybe_numbers(const char* key, const std::optional<std::vector<double>>& values) {
        if (values)
            numbers(key, *values);
    }
    void pair(const char* key, const std::array<double, 2>& values) { numbers(key, {values[0], values[1]}); }
    void maybe_pair(const char* key, const std::optional<std::array<double, 2>>& values) {
        if (values)
            pair(key, *values);
    }
    void maybe_readings(const char* key, const std::optional<std::vector<std::optional<double>>>& values) {
        for (std::size_t i = 0; values && i < values->size(); ++i)
            if ((*values)[i])
                check(key, path_to(path_to(path_, key), i), *(*values)[i]);
    }
    void per_string(const char* key, const PerString& value) {
        if (value.common())
            number(key, value.values[0]);
        else
            numbers(key, value.values);
    }
    void per_string(const char* key, const PerString& value, double) { per_string(key, value); }
    template <class T>
    void object(const char* key, const T& value) {
        walk(value, path_to(path_, key));
    }
    template <class T>
    void maybe_object(const char* key, const std::optional<T>& value) {
        if (value)
            object(key, *value);
    }
    template <class T>
    void objects(const char* key, const std::vector<T>& values, bool) {
        for (std::size_t i = 0; i < values.size(); ++i)
            walk(values[i], path_to(path_to(path_, key), i));
    }
    // What carries no number.
    void flag(const char*, bool) {}
    void flag(const char*, bool, bool) {}
    void text(const char*, const std::string&) {}
    void pitches(const char*, const std::vector<Pitch>&, bool) {}
    template <class... Any>
    void choice(const char*, const Any&...) {}
    template <class... Any>
    void choices(const char*, const Any&...) {}

  private:
    void check(std::string_view key, const std::string& path, double value) {
        const Range& range = range_of(std::string(group_) + "." + std::string(key));
        if (value >= range.low && value <= range.high) // false for NaN too
            return;
        problems_.add_new(path, Phrase("refused.range")
                                    .with("found", document_value(value, key))
                                    .with("low", document_value(range.low, key, range.digits))
                                    .with("high", document_value(range.high, key, range.digits)));
    }
    template <class T>
    void walk(const T& value, const std::string& path) {
        RangeCheck inner(path, fields::group_of(value), problems_);
        fields::visit(inner, value);
    }

    std::string path_;
    std::string_view group_;
    Problems& problems_;
};

} // namespace

void check_ranges(const Setup& setup, Problems& problems) {
    RangeCheck check("", fields::group_of(setup), problems);
    fields::visit(check, setup);
}

} // namespace counterpull
