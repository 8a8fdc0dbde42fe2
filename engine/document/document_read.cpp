#include "engine/document/document.h"
#include "engine/document/document_reader.h"

namespace counterpull {

namespace {

void read_format(const Json& document, Problems& problems) {
    const Json* format = value_at(document, "format");
    if (!format)
        problems.add("format", Phrase("refused.missing_format").with("format", std::string(setup_format)));
    else if (*format != setup_format)
        problems.add(
            "format",
            Phrase("refused.format").with("found", shown(*format)).with("format", std::string(setup_format)));
}

} // namespace

SetupRead read_setup(std::string_view text) {
    SetupRead result;
    const Json document = parse_strictly(text, result.problems);
    if (!result.problems.none())
        return result;
    if (!document.is_object()) {
        result.problems.add("", Phrase("refused.not_object").with("found", shown(document)));
        return result;
    }
    read_format(document, result.problems);
    // Another document altogether deserves one message, not twenty.
    if (!result.problems.none())
        return result;
    Setup setup;
    read_object(document, group_of<Setup>(), &setup, "", {true, "format"}, result.problems);
    check_setup(setup, result.problems);
    if (result.problems.none())
        result.setup = std::move(setup);
    return result;
}

} // namespace counterpull
