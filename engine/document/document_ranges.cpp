// The range check: walks the fields of a document and holds every number to its row.
#include "engine/document/document_rules.h"

namespace counterpull {

namespace {

struct RangeCheck {
    Problems& problems;

    void number(const Field& field, const Path& path, double value) {
        const Range& range = field.range;
        if (value >= range.low && value <= range.high) // false for NaN too
            return;
        problems.add_new(path, Phrase("refused.range")
                                   .with("found", document_value(value, field.key))
                                   .with("low", document_value(range.low, field.key, range.digits))
                                   .with("high", document_value(range.high, field.key, range.digits)));
    }
    void numbers(const Field& field, const Path& path, std::span<const double> values) {
        for (std::size_t i = 0; i < values.size(); ++i)
            number(field, Path(path, i), values[i]);
    }
    void readings(const Field& field, const Path& path, const std::vector<std::optional<double>>& values) {
        for (std::size_t i = 0; i < values.size(); ++i)
            if (values[i])
                number(field, Path(path, i), *values[i]);
    }
    void per_string(const Field& field, const Path& path, const PerString& value) {
        if (value.common())
            number(field, path, value.values[0]);
        else
            numbers(field, path, value.values);
    }
    void objects(const Group& group, const Path& path, const void* list) {
        for (std::size_t i = 0; i < group.size(list); ++i)
            object(group, Path(path, i), group.at(const_cast<void*>(list), i));
    }
    void object(const Group& group, const Path& path, const void* object) {
        for (const Field& field : group.fields)
            if (field.is_there(object))
                if (const void* value = field.value_in(object))
                    check(field, Path(path, field.key), value);
    }

    void check(const Field& field, const Path& path, const void* value) {
        switch (field.member.kind) {
        case Kind::number:
            return number(field, path, *static_cast<const double*>(value));
        case Kind::whole:
            return number(field, path, *static_cast<const int*>(value));
        case Kind::per_string:
            return per_string(field, path, *static_cast<const PerString*>(value));
        case Kind::numbers:
            return numbers(field, path, *static_cast<const std::vector<double>*>(value));
        case Kind::pair:
            return numbers(field, path, *static_cast<const std::array<double, 2>*>(value));
        case Kind::readings:
            return readings(field, path, *static_cast<const std::vector<std::optional<double>>*>(value));
        case Kind::object:
            return object(field.member.group(), path, value);
        case Kind::objects:
            return objects(field.member.group(), path, value);
        case Kind::flag:
        case Kind::text:
        case Kind::pitches:
        case Kind::choice:
        case Kind::bases:
            break;
        }
    }
};

} // namespace

void check_ranges(const Group& group, const void* object, Problems& problems) {
    RangeCheck{problems}.object(group, "", object);
}

} // namespace counterpull
