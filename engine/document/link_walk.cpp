#include "engine/document/link_walk.h"

#include <algorithm>

namespace counterpull {

namespace {

constexpr std::size_t most_items = 200; // of any list
constexpr double largest_whole = 1e6;
constexpr double most_choices = 31.0; // checked again as a document
constexpr double most_pitches = 35.0 * 10.0;

double code_of(const Pitch& pitch) {
    return (pitch.octave * 7 + (pitch.letter - 'A')) * 5 + (pitch.accidental + 2);
}
Pitch pitch_of(int code) {
    return {static_cast<char>('A' + code / 5 % 7), code % 5 - 2, code / 35};
}

// One value of each, the reference's null where it has none.
struct Walk {
    char version;
    Carrier& carrier;

    void number(double& value, const double* usual) { value = carrier.number(value, usual ? *usual : 0.0); }
    // A whole number from 0 to `most`, or what was given is no link.
    int whole(double value, double usual, double most) {
        const double given = carrier.number(value, usual);
        if (given >= 0.0 && given <= most)
            return static_cast<int>(given);
        carrier.fail();
        return 0;
    }

    // A list of anything: its length, then each item beside that of the reference.
    template <class List, class Item>
    void list(List& values, const List* usual, Item&& item) {
        values.resize(length(values.size(), usual ? usual->size() : 0));
        for (std::size_t i = 0; i < values.size() && !carrier.failed(); ++i)
            item(values[i], usual && i < usual->size() ? &(*usual)[i] : nullptr);
    }
    std::size_t length(std::size_t value, std::size_t usual) {
        return static_cast<std::size_t>(
            whole(static_cast<double>(value), static_cast<double>(usual), static_cast<double>(most_items)));
    }
    void numbers(std::vector<double>& values, const std::vector<double>* usual) {
        list(values, usual, [&](double& value, const double* same) { number(value, same); });
    }
    void reading(std::optional<double>& value, const std::optional<double>* usual) {
        const bool there = usual && *usual;
        if (whole(value.has_value(), there, 1.0) == 0)
            value.reset();
        else
            number(value ? *value : value.emplace(), there ? &**usual : nullptr);
    }
    void pitch(Pitch& value, const Pitch* usual) {
        value = pitch_of(whole(code_of(value), usual ? code_of(*usual) : 0.0, most_pitches));
    }
    void basis(std::pair<std::string, Basis>& value, const std::pair<std::string, Basis>* usual) {
        carrier.path(value.first);
        choice(&value.second, usual ? &usual->second : nullptr);
    }
    void choice(void* value, const void* usual) {
        set_choice(value, whole(choice_in(value), usual ? choice_in(usual) : 0, most_choices));
    }
    void pair(std::array<double, 2>& values, const std::array<double, 2>* usual) {
        for (std::size_t i = 0; i < values.size(); ++i)
            number(values[i], usual ? &(*usual)[i] : nullptr);
    }
    void objects(const Group& group, void* values, const void* usual) {
        const std::size_t usual_size = usual ? group.size(usual) : 0;
        group.resize(values, length(group.size(values), usual_size));
        for (std::size_t i = 0; i < group.size(values) && !carrier.failed(); ++i)
            object(group, group.at(values, i),
                   i < usual_size ? group.at(const_cast<void*>(usual), i) : nullptr);
    }
    void object(const Group& group, void* object, const void* reference) {
        for (const Field& field : group.fields) {
            if (field.since > version || !field.is_there(object))
                continue;
            const void* usual = reference && field.is_there(reference) ? field.value_in(reference) : nullptr;
            void* value = field.value_in(object);
            if (!field.member.optional || present(field, object, value, usual))
                carry(field, value, usual);
        }
    }
    // Whether a value that can be absent is there; then `value` is where.
    bool present(const Field& field, void* object, void*& value, const void* usual) {
        if (whole(value != nullptr, usual != nullptr, 1.0) == 0)
            return false;
        if (!value)
            value = field.member.make(object);
        return true;
    }

    template <class T, class Carry>
    static void with(void* value, const void* usual, Carry&& carry) {
        carry(*static_cast<T*>(value), static_cast<const T*>(usual));
    }
    void carry(const Field& field, void* value, const void* usual);
};

void Walk::carry(const Field& field, void* value, const void* usual) {
    switch (field.member.kind) {
    case Kind::number:
        return number(*static_cast<double*>(value), static_cast<const double*>(usual));
    case Kind::whole:
        return with<int>(value, usual,
                         [&](int& v, const int* u) { v = whole(v, u ? *u : 0, largest_whole); });
    case Kind::flag:
        return with<bool>(value, usual,
                          [&](bool& v, const bool* u) { v = whole(v, u && *u, most_choices) != 0; });
    case Kind::text:
        return carrier.text(*static_cast<std::string*>(value));
    case Kind::per_string:
        return with<PerString>(value, usual, [&](PerString& v, const PerString* u) {
            numbers(v.values, u ? &u->values : nullptr);
        });
    case Kind::numbers:
        return with<std::vector<double>>(value, usual, [&](auto& v, const auto* u) { numbers(v, u); });
    case Kind::pair:
        return with<std::array<double, 2>>(value, usual, [&](auto& v, const auto* u) { pair(v, u); });
    case Kind::readings:
        return with<std::vector<std::optional<double>>>(value, usual, [&](auto& v, const auto* u) {
            list(v, u, [&](auto& item, const auto* same) { reading(item, same); });
        });
    case Kind::pitches:
        return with<std::vector<Pitch>>(value, usual, [&](auto& v, const auto* u) {
            list(v, u, [&](Pitch& item, const Pitch* same) { pitch(item, same); });
        });
    case Kind::choice:
        return choice(value, usual);
    case Kind::bases:
        return with<std::vector<std::pair<std::string, Basis>>>(value, usual, [&](auto& v, const auto* u) {
            list(v, u, [&](auto& item, const auto* same) { basis(item, same); });
        });
    case Kind::object:
        return object(field.member.group(), value, usual);
    case Kind::objects:
        return objects(field.member.group(), value, usual);
    }
}

char needed_by(const Field& field, const void* value) {
    const Group* group = field.member.group ? &field.member.group() : nullptr;
    if (!group)
        return first_version;
    if (field.member.kind == Kind::object)
        return version_needed(*group, value);
    char needed = first_version;
    for (std::size_t i = 0; i < group->size(value); ++i)
        needed = std::max(needed, version_needed(*group, group->at(const_cast<void*>(value), i)));
    return needed;
}

} // namespace

void walk_link(const Group& group, void* object, const void* reference, char version, Carrier& carrier) {
    Walk{version, carrier}.object(group, object, reference);
}

char newest_version(const Group& group) {
    char newest = first_version;
    for (const Field& field : group.fields) {
        newest = std::max(newest, field.since);
        if (field.member.group)
            newest = std::max(newest, newest_version(field.member.group()));
    }
    return newest;
}

char version_needed(const Group& group, const void* object) {
    char needed = first_version;
    for (const Field& field : group.fields) {
        const void* value = field.is_there(object) ? field.value_in(object) : nullptr;
        if (field.since > needed && field.is_there(object) &&
            !same_value(field, value, field.value_in(group.usual())))
            needed = field.since;
        if (value)
            needed = std::max(needed, needed_by(field, value));
    }
    return needed;
}

} // namespace counterpull
