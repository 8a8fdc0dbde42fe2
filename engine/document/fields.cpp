#include "engine/document/fields.h"

#include <cstring>

namespace counterpull {

namespace {

// What stands at a path through single objects.
struct At {
    const Field* field = nullptr;
    const void* object = nullptr; // that holds it
};

At find_in(const Group& group, const void* object, std::string_view path) {
    const std::size_t point = path.find('.');
    const std::string_view key = path.substr(0, point);
    for (const Field& field : group.fields) {
        if (field.key != key)
            continue;
        if (point == std::string_view::npos)
            return {&field, object};
        if (field.member.kind != Kind::object || field.member.optional)
            return {};
        return find_in(field.member.group(), field.value_in(object), path.substr(point + 1));
    }
    return {};
}

bool same_object(const Group& group, const void* a, const void* b) {
    for (const Field& field : group.fields)
        if (!same_value(field, field.value_in(a), field.value_in(b)))
            return false;
    return true;
}

bool same_list(const Group& group, const void* a, const void* b) {
    if (group.size(a) != group.size(b))
        return false;
    for (std::size_t i = 0; i < group.size(a); ++i)
        if (!same_object(group, group.at(const_cast<void*>(a), i), group.at(const_cast<void*>(b), i)))
            return false;
    return true;
}

template <class T>
bool same(const void* a, const void* b) {
    return *static_cast<const T*>(a) == *static_cast<const T*>(b);
}

void collect_uncertain(const Group& group, const std::string& path, std::vector<UncertainField>& into) {
    for (const Field& field : group.fields) {
        const std::string here = path.empty() ? std::string(field.key) : path + "." + std::string(field.key);
        if (field.prior.usual.share + field.prior.usual.absolute > 0.0)
            into.push_back({here, &field});
        if (field.member.kind == Kind::object)
            collect_uncertain(field.member.group(), here, into);
    }
}

} // namespace

const Field* find_field(const Group& group, std::string_view path) {
    return find_in(group, group.usual(), path).field;
}

const double* number_at(const GuitarSetup& guitar, std::string_view path) {
    const At at = find_in(group_of<GuitarSetup>(), &guitar, path);
    if (!at.field || at.field->member.kind != Kind::number)
        return nullptr;
    return static_cast<const double*>(at.field->value_in(at.object));
}
double* number_at(GuitarSetup& guitar, std::string_view path) {
    return const_cast<double*>(number_at(std::as_const(guitar), path));
}

bool takes_basis(const Field& field) {
    return is_numeric(field.member.kind) && field.member.kind != Kind::whole;
}

std::string_view unit_of(const Field& field) {
    for (const auto& [suffix, unit] : {std::pair<std::string_view, std::string_view>{"_n_mm", "N/mm"},
                                       {"_mm", "mm"},
                                       {"_n", "N"},
                                       {"_g", "g"}})
        if (field.key.ends_with(suffix))
            return unit;
    return "";
}

const std::vector<UncertainField>& uncertain_fields() {
    static const std::vector<UncertainField> all = [] {
        std::vector<UncertainField> fields;
        collect_uncertain(group_of<GuitarSetup>(), "", fields);
        return fields;
    }();
    return all;
}

bool same_value(const Field& field, const void* a, const void* b) {
    if (!a || !b)
        return a == b;
    switch (field.member.kind) {
    case Kind::number:
        return same<double>(a, b);
    case Kind::whole:
        return same<int>(a, b);
    case Kind::flag:
        return same<bool>(a, b);
    case Kind::text:
        return same<std::string>(a, b);
    case Kind::per_string:
        return same<PerString>(a, b);
    case Kind::numbers:
        return same<std::vector<double>>(a, b);
    case Kind::pair:
        return same<std::array<double, 2>>(a, b);
    case Kind::readings:
        return same<std::vector<std::optional<double>>>(a, b);
    case Kind::pitches:
        return same<std::vector<Pitch>>(a, b);
    case Kind::choice:
        return choice_in(a) == choice_in(b);
    case Kind::bases:
        return same<std::vector<std::pair<std::string, Basis>>>(a, b);
    case Kind::object:
        return same_object(field.member.group(), a, b);
    case Kind::objects:
        return same_list(field.member.group(), a, b);
    }
    return false;
}

int choice_in(const void* value) {
    int choice = 0;
    std::memcpy(&choice, value, sizeof choice);
    return choice;
}

void set_choice(void* value, int choice) {
    std::memcpy(value, &choice, sizeof choice);
}

} // namespace counterpull
