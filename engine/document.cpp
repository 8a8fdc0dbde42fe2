#include "engine/document.h"

#include "engine/document_rules.h"

#include <algorithm>
#include <cassert>

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

std::string sentence_of(const Problem& problem, const Words& words) {
    const std::string why = words.say(problem.why);
    return problem.path.empty() ? why : problem.path + ": " + why;
}

std::string first_message(const Problems& problems, const Words& words) {
    assert(!problems.none());
    std::string message = sentence_of(problems.told.front(), words);
    if (problems.count > 1)
        message += " " + words.say(Phrase("refused.more").with("n", problems.count - 1));
    return message;
}

void check_setup(const Setup& setup, Problems& already) {
    check_ranges(setup, already);
    check_rules(setup, already);
}

} // namespace counterpull
