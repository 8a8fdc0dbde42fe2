// The engine for scripts: texts in, texts out. index.js makes functions of them.
#include "engine/advice/report.h"
#include "engine/base/embedded.h"
#include "engine/document/json_text.h"
#include "engine/document/link.h"
#include "engine/say/bench_json.h"
#include "engine/say/refusal.h"
#include "engine/say/report_json.h"
#include "engine/say/words.h"

#include <emscripten.h>

#include <new>
#include <string>

// clang-format off
EM_JS(void, throw_range_error, (const char* message, std::size_t length), {
    throw new RangeError(UTF8ToString(message, length));
});
// clang-format on

namespace {

using namespace counterpull;

// Where memory ends, anywhere. Nothing here is built with exceptions, so that no destructor runs: index.js,
// which is thrown to, gives back the memory that there was at the beginning.
void end_without_memory() {
    const std::string_view message = text_in_file(embedded_words("en"), "usage.no_memory");
    throw_range_error(message.data(), message.size());
}
[[maybe_unused]] const std::new_handler before = std::set_new_handler(end_without_memory);

// {"done": "…"}, or {"refused": [{"path", "expected"}, …], "message": "…"}. Stays valid until the next call.
const char* told(const Problems& problems, const std::string& done) {
    static std::string last;
    Json result = Json::object();
    if (problems.none()) {
        result["done"] = done;
    } else {
        for (const Problem& problem : problems.told)
            result["refused"].push_back({{"path", problem.path}, {"expected", english().say(problem.why)}});
        result["message"] = first_message(problems, english());
    }
    last = result.dump(-1, ' ', false, Json::error_handler_t::replace);
    return last.c_str();
}

} // namespace

extern "C" {

// Where there was no room for a text.
EMSCRIPTEN_KEEPALIVE void module_no_memory() {
    end_without_memory();
}

EMSCRIPTEN_KEEPALIVE const char* module_report(const char* document) {
    SetupRead read = read_setup(document);
    if (!read.setup)
        return told(read.problems, "");
    const ReportResult result = report(*read.setup);
    return told(result.problems, result.report ? report_json(*result.report, english()) : "");
}

EMSCRIPTEN_KEEPALIVE const char* module_bench(const char* document) {
    SetupRead read = read_setup(document);
    if (!read.setup)
        return told(read.problems, "");
    const ReportResult result = report(*read.setup);
    return told(result.problems,
                result.report ? bench_json(*result.report, bench(*result.report), english()) : "");
}

EMSCRIPTEN_KEEPALIVE const char* module_answered(const char* document, const char* answer) {
    SetupRead read = read_setup(document);
    if (!read.setup)
        return told(read.problems, "");
    const ReportResult result = report(*read.setup);
    if (!result.report)
        return told(result.problems, "");
    const AnswerRead said = read_answer(answer);
    if (!said.answer)
        return told(said.problems, "");
    const Answered after = answered(*result.report, *said.answer);
    return told(after.problems, after.setup ? write_setup(*after.setup) : "");
}

EMSCRIPTEN_KEEPALIVE const char* module_to_link(const char* document) {
    SetupRead read = read_setup(document);
    if (read.setup)
        check_setup(*read.setup, read.problems);
    return told(read.problems, read.problems.none() ? link_of(*read.setup) : "");
}

EMSCRIPTEN_KEEPALIVE const char* module_from_link(const char* link) {
    const SetupRead read = open_link(link);
    return told(read.problems, read.setup ? write_setup(*read.setup) : "");
}

} // extern "C"
