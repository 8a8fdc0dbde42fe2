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

void Problems::add(const Path& path, Phrase why) {
    ++count;
    if (told.size() < most_problems_told)
        told.push_back({path.text(), std::move(why)});
}

bool Problems::covers(std::string_view path) const {
    return std::any_of(told.begin(), told.end(),
                       [&](const Problem& problem) { return lies_in(path, problem.path); });
}

bool Problems::touch(std::string_view path) const {
    return std::any_of(told.begin(), told.end(),
                       [&](const Problem& problem) { return lies_in(problem.path, path); });
}

void Problems::add_new(const Path& path, Phrase why) {
    if (none() || !covers(path.text()))
        add(path, std::move(why));
}

} // namespace counterpull
