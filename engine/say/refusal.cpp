#include "engine/say/refusal.h"

#include <cassert>

namespace counterpull {

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

} // namespace counterpull
