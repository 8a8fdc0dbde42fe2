// The command line: counterpull report SETUP.json [--json]
//
// Exit 0: answered, also where the answer is "it cannot float"; 1: the input could not be read or was
// refused; 2: usage.
#include "engine/document.h"
#include "engine/report.h"
#include "engine/report_text.h"
#include "engine/words.h"

#include <cstdio>
#include <fstream>
#include <iostream>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace {

using namespace counterpull;

enum Exit { answered = 0, refused = 1, usage = 2 };

// Up to one byte more than a document may have: enough to see that it is too long.
std::string read_some(std::istream& stream) {
    std::string text(longest_document + 1, '\0');
    stream.read(text.data(), static_cast<std::streamsize>(text.size()));
    text.resize(static_cast<std::size_t>(stream.gcount()));
    return text;
}

std::optional<std::string> read_input(const std::string& name) {
    if (name == "-")
        return read_some(std::cin);
    std::ifstream file(name, std::ios::binary);
    if (!file)
        return std::nullopt;
    std::string text = read_some(file);
    return file.bad() ? std::nullopt : std::optional(std::move(text));
}

int fail_usage(const Phrase& why) {
    std::cerr << "counterpull: " << english().say(why) << "\n" << english().text("usage.text");
    return usage;
}

int refuse(const std::string& name, const std::string& message) {
    std::cerr << "counterpull: " << (name == "-" ? "standard input" : name) << ": " << message << "\n";
    return refused;
}

int run_report(const std::string& name, bool as_json) {
    const std::optional<std::string> text = read_input(name);
    if (!text)
        return refuse(name, std::string(english().text("refused.unreadable")));
    const SetupRead read = read_setup(*text);
    if (!read.setup)
        return refuse(name, first_message(read.problems, english()));
    const ReportResult result = report(*read.setup);
    if (!result.report)
        return refuse(name, first_message(result.problems, english()));
    std::cout << (as_json ? report_json(*result.report, english())
                          : report_text(*read.setup, *result.report, english()));
    std::cout.flush();
    return std::cout ? answered : refused;
}

} // namespace

int main(int argc, char** argv) {
    bool as_json = false;
    std::vector<std::string> words;
    for (int i = 1; i < argc; ++i) {
        const std::string word = argv[i];
        if (word == "--json")
            as_json = true;
        else if (word == "--help" || word == "-h") {
            std::cout << english().text("usage.text");
            return answered;
        } else if (word.size() > 1 && word[0] == '-')
            return fail_usage({"usage.unknown_option", {{"option", word}}});
        else
            words.push_back(word);
    }
    if (words.empty())
        return fail_usage({"usage.no_verb"});
    if (words[0] != "report")
        return fail_usage({"usage.unknown_verb", {{"verb", words[0]}}});
    if (words.size() != 2)
        return fail_usage({"usage.one_file"});
    return run_report(words[1], as_json);
}
