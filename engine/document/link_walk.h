// Every leaf of the set-up document in its order, for links: writer, reader and collector walk the same way.
#pragma once

#include "engine/document/document_fields.h"
#include "engine/document/problems.h"

#include <cstddef>
#include <string>
#include <utility>

namespace counterpull {

inline constexpr std::size_t longest_title = 80 * 4; // bytes

// Walks every field in the document's order. `Stream` gives or takes each leaf: leaf(path, value) for
// numbers, and text(value).
template <class Stream>
class Walk {
  public:
    Walk(Stream& stream, std::string path) : stream_(stream), path_(std::move(path)) {}

    template <class T>
    void number(const char* key, T& value) {
        leaf(here(key), value);
    }
    template <class T>
    void number(const char* key, T& value, double) {
        leaf(here(key), value);
    }
    template <class T>
    void maybe(const char* key, T& value) {
        if (present(here(key), value))
            leaf(here(key), *value);
    }
    template <class T>
    void index(const char* key, T& value) {
        leaf(here(key), value);
    }
    template <class T>
    void maybe_index(const char* key, T& value) {
        maybe(key, value);
    }
    template <class T>
    void flag(const char* key, T& value) {
        leaf(here(key), value);
    }
    template <class T>
    void flag(const char* key, T& value, bool) {
        leaf(here(key), value);
    }
    template <class T>
    void text(const char*, T& value) {
        stream_.text(value, longest_title);
    }
    template <class T>
    void per_string(const char* key, T& value) {
        numbers(key, value.values);
    }
    template <class T>
    void per_string(const char* key, T& value, double) {
        numbers(key, value.values);
    }
    template <class T>
    void numbers(const char* key, T& values) {
        list(here(key), values, [&](const std::string& path, auto& item) { leaf(path, item); });
    }
    template <class T>
    void maybe_numbers(const char* key, T& values) {
        if (present(here(key), values))
            numbers(key, *values);
    }
    template <class T>
    void pair(const char* key, T& values) {
        leaf(here(key) + "[0]", values[0]);
        leaf(here(key) + "[1]", values[1]);
    }
    template <class T>
    void maybe_pair(const char* key, T& values) {
        if (present(here(key), values))
            pair(key, *values);
    }
    template <class T>
    void maybe_readings(const char* key, T& values) {
        if (present(here(key), values))
            list(here(key), *values, [&](const std::string& path, auto& item) {
                if (present(path, item))
                    leaf(path, *item);
            });
    }
    template <class T, class Names>
    void choice(const char* key, T& value, const Names&) {
        leaf(here(key), value);
    }
    template <class T, class Names, class Usual>
    void choice(const char* key, T& value, const Names&, Usual) {
        leaf(here(key), value);
    }
    template <class T, class Names>
    void choices(const char* key, T& values, const Names&) {
        list(here(key), values, [&](const std::string& path, auto& item) {
            stream_.name(item.first);
            leaf(path, item.second);
        });
    }
    template <class T>
    void pitches(const char* key, T& values, bool) {
        list(here(key), values, [&](const std::string& path, auto& item) { stream_.pitch(path, item); });
    }
    template <class T>
    void object(const char* key, T& value) {
        Walk inner(stream_, here(key));
        fields::visit(inner, value);
    }
    template <class T>
    void maybe_object(const char* key, T& value) {
        if (present(here(key), value))
            object(key, *value);
    }
    template <class T>
    void objects(const char* key, T& values, bool) {
        list(here(key), values, [&](const std::string& path, auto& item) {
            Walk inner(stream_, path);
            fields::visit(inner, item);
        });
    }

  private:
    std::string here(const char* key) const { return path_to(path_, key); }
    template <class T>
    void leaf(const std::string& path, T& value) {
        stream_.leaf(path, value);
    }
    template <class T>
    bool present(const std::string& path, T& value) {
        return stream_.present(path + "?", value);
    }
    template <class T, class Item>
    void list(const std::string& path, T& values, Item&& item) {
        stream_.length(path + "#", values);
        for (std::size_t i = 0; i < values.size() && !stream_.failed(); ++i)
            item(path_to(path, i), values[i]);
    }

    Stream& stream_;
    std::string path_;
};

} // namespace counterpull
