#include "engine/document/answer.h"

#include "engine/document/document_reader.h"
#include "engine/document/document_rules.h"

namespace counterpull {

AnswerRead read_answer(std::string_view text) {
    AnswerRead result;
    const Json document = parse_strictly(text, result.problems);
    if (!result.problems.none())
        return result;
    if (!document.is_object()) {
        result.problems.add("", Phrase("refused.not_object").with("found", shown(document)));
        return result;
    }
    Answer answer;
    read_object(document, group_of<Answer>(), &answer, "", {}, result.problems);
    check_ranges(group_of<Answer>(), &answer, result.problems);
    if (result.problems.none())
        result.answer = std::move(answer);
    return result;
}

} // namespace counterpull
