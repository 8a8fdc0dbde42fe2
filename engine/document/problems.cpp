#include "engine/document/problems.h"

#include <algorithm>

namespace counterpull {

namespace {

// Whether `path` is `whole` itself or lies inside it: "a.b" covers "a.b", "a.b.c" and "a.b[0]", not "a.bc".
bool lies_in(std::string_view path, std::string_view whole) {
    if (!path.starts_with(whole))
        return false;
    if (path.size() == whole.size() || whole.empty())
        return true;
    return path[whole.size()] == '.' || path[whole.size()] == '[';
}

} // namespace

void Problems::add(std::string path, Phrase why) {
    ++count;
    if (told.size() < most_problems_told)
        told.push_back({std::move(path), std::move(why)});
}

bool Problems::covers(std::string_view path) const {
    return std::any_of(told.begin(), told.end(),
                       [&](const Problem& problem) { return lies_in(path, problem.path); });
}

bool Problems::touch(std::string_view path) const {
    return std::any_of(told.begin(), told.end(),
                       [&](const Problem& problem) { return lies_in(problem.path, path); });
}

void Problems::add_new(std::string path, Phrase why) {
    if (!covers(path))
        add(std::move(path), std::move(why));
}

std::string path_to(std::string_view parent, std::string_view key) {
    std::string path(parent);
    if (!path.empty())
        path += '.';
    // A hostile key is told by its beginning only.
    path += key.size() <= 60 ? std::string(key) : std::string(key.substr(0, 60)) + "...";
    return path;
}

std::string path_to(std::string_view parent, std::size_t index) {
    return std::string(parent) + "[" + std::to_string(index) + "]";
}

} // namespace counterpull
