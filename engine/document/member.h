// Makes the rows of a table (fields.h) from the members of a struct: `member<&StringSetup::gauge_in>` is all
// that a row needs to say about where its value is and of what kind.
#pragma once

#include "engine/document/fields.h"

namespace counterpull {

namespace members {

template <class T>
struct Plain { // what is in it where it can be absent
    using Type = T;
};
template <class T>
struct Plain<std::optional<T>> {
    using Type = T;
};

template <class T>
inline constexpr bool is_list = false;
template <class T>
inline constexpr bool is_list<std::vector<T>> = true;

template <class T>
constexpr Kind kind_of() {
    if constexpr (std::is_same_v<T, double>)
        return Kind::number;
    else if constexpr (std::is_same_v<T, int>)
        return Kind::whole;
    else if constexpr (std::is_same_v<T, bool>)
        return Kind::flag;
    else if constexpr (std::is_same_v<T, std::string>)
        return Kind::text;
    else if constexpr (std::is_same_v<T, PerString>)
        return Kind::per_string;
    else if constexpr (std::is_same_v<T, std::vector<double>>)
        return Kind::numbers;
    else if constexpr (std::is_same_v<T, std::array<double, 2>>)
        return Kind::pair;
    else if constexpr (std::is_same_v<T, std::vector<std::optional<double>>>)
        return Kind::readings;
    else if constexpr (std::is_same_v<T, std::vector<Pitch>>)
        return Kind::pitches;
    else if constexpr (std::is_same_v<T, std::vector<std::pair<std::string, Basis>>>)
        return Kind::bases;
    else if constexpr (is_list<T>)
        return Kind::objects;
    else if constexpr (std::is_enum_v<T>)
        return Kind::choice;
    else
        return Kind::object;
}

template <class T>
constexpr auto group_getter() -> const Group& (*)() {
    if constexpr (kind_of<T>() == Kind::object)
        return &group_of<T>;
    else if constexpr (kind_of<T>() == Kind::objects)
        return &group_of<typename T::value_type>;
    else
        return nullptr;
}

template <auto pointer>
struct At;
template <class S, class T, T S::*pointer>
struct At<pointer> {
    using Value = typename Plain<T>::Type;
    static constexpr bool optional = !std::is_same_v<T, Value>;
    static_assert(!std::is_enum_v<Value> || sizeof(Value) == sizeof(int), "choices are copied as int");

    static void* find(void* object) {
        T& value = static_cast<S*>(object)->*pointer;
        if constexpr (optional)
            return value ? &*value : nullptr;
        else
            return &value;
    }
    static void* make(void* object) {
        if constexpr (optional)
            return &(static_cast<S*>(object)->*pointer).emplace();
        else
            return find(object);
    }
    static constexpr Member member{kind_of<Value>(), optional, &find, &make, group_getter<Value>()};
};

template <class S>
const void* usual() {
    static const S object{};
    return &object;
}
template <class S>
std::size_t size(const void* list) {
    return static_cast<const std::vector<S>*>(list)->size();
}
template <class S>
void resize(void* list, std::size_t size) {
    static_cast<std::vector<S>*>(list)->resize(size);
}
template <class S>
void* at(void* list, std::size_t index) {
    return &(*static_cast<std::vector<S>*>(list))[index];
}

} // namespace members

template <auto pointer>
inline constexpr Member member = members::At<pointer>::member;

// The table of struct S with these rows; and of one that stands in lists.
template <class S>
constexpr Group group_with(std::span<const Field> fields) {
    return {fields, &members::usual<S>};
}
template <class S>
constexpr Group listed_group_with(std::span<const Field> fields) {
    return {fields, &members::usual<S>, &members::size<S>, &members::resize<S>, &members::at<S>};
}

} // namespace counterpull
