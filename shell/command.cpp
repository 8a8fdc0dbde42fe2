// The command line (usage.text in engine/words/en.json).
//
// Exit 0: answered, also where the answer is "it cannot float"; 1: the input could not be read or was
// refused, or memory ended; 2: usage.
#include "engine/advice/report.h"
#include "engine/advice/string_search.h"
#include "engine/base/embedded.h"
#include "engine/document/document.h"
#include "engine/document/link.h"
#include "engine/hearing/listener.h"
#include "engine/hearing/wav.h"
#include "engine/say/bench_json.h"
#include "engine/say/hearing_text.h"
#include "engine/say/refusal.h"
#include "engine/say/report_json.h"
#include "engine/say/report_text.h"
#include "engine/say/string_search_text.h"
#include "engine/say/whatif_json.h"
#include "engine/say/whatif_topics.h"
#include "engine/say/words.h"
#include "engine/whatif/whatif.h"

#include <charconv>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <iostream>
#include <iterator>
#include <new>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace {

using namespace counterpull;

enum Exit { told = 0, refused = 1, usage = 2 };
constexpr double farthest_cents = 2400.0; // that a string may be expected from its pitch

// Up to one byte more than a document may have: enough to see that it is too long.
std::string read_some(std::istream& stream) {
    std::string text(longest_document + 1, '\0');
    stream.read(text.data(), static_cast<std::streamsize>(text.size()));
    text.resize(static_cast<std::size_t>(stream.gcount()));
    return text;
}

std::string read_all(std::istream& stream) {
    return {std::istreambuf_iterator<char>(stream), {}};
}

std::optional<std::string> read_input(const std::string& name,
                                      std::string (*read)(std::istream&) = read_some) {
    if (name == "-")
        return read(std::cin);
    std::ifstream file(name, std::ios::binary);
    if (!file)
        return std::nullopt;
    std::string text = read(file);
    return file.bad() ? std::nullopt : std::optional(std::move(text));
}

// Where memory ends, anywhere (a new_handler): said without taking any, and over. Nothing is half written,
// since whatever is written was put together before.
std::string_view no_memory; // in the language asked for
void end_without_memory() {
    std::fprintf(stderr, "counterpull: %.*s\n", static_cast<int>(no_memory.size()), no_memory.data());
    std::_Exit(refused);
}

int fail_usage(const Words& words, const Phrase& why) {
    std::string message = "counterpull: " + words.say(why) + "\n";
    message += words.text("usage.text");
    std::cerr << message;
    return usage;
}

std::string known_languages() {
    std::string known;
    for (const Language& language : languages())
        known += (known.empty() ? "" : ", ") + std::string(language.code);
    return known;
}

// The language of a code, or of that without its last subtags ("de-AT"), as RFC 4647, 3.4 "Lookup". "" none.
std::string_view language_of(std::string_view code) {
    for (const Language& language : languages())
        if (language.code == code)
            return language.code;
    const std::size_t shorter = code.find_last_of('-');
    return shorter == std::string_view::npos ? "" : language_of(code.substr(0, shorter));
}

int refuse(const std::string& name, const std::string& message) {
    std::cerr << "counterpull: " + (name == "-" ? "standard input" : name) + ": " + message + "\n";
    return refused;
}

struct Options {
    std::string file;
    bool as_json = false;
    Feel feel = Feel::present;
    std::optional<std::string> answer; // of a step at the bench
    std::string clip;                  // the recording to hear
    Which tuning = Which::next;        // what it is heard against
    std::vector<double> expect_cents;  // where to look: one, or one per string
    Words words{"en"};
};

// What a verb prints, or what it was refused for.
struct Printed {
    std::string text;
    Problems problems;
    bool of_answer = false; // the problems: not the document's
};

Printed print_report(const Setup& setup, const Options& options) {
    ReportResult result = report(setup);
    if (!result.report)
        return {"", std::move(result.problems)};
    return {options.as_json ? report_json(*result.report, english())
                            : report_text(*result.report, options.words),
            {}};
}

Printed print_strings(const Setup& setup, const Options& options) {
    Solved solved = solve(setup);
    if (!solved.solution)
        return {"", std::move(solved.problems)};
    SearchOptions search;
    search.feel = options.feel;
    const std::vector<FoundSet> sets = strings_to_buy(*solved.solution, search);
    return {options.as_json ? strings_json(sets, search.feel) : strings_text(sets, options.words), {}};
}

Printed print_whatif(const Setup& setup, const Options& options) {
    ReportResult result = report(setup);
    if (!result.report)
        return {"", std::move(result.problems)};
    const WhatIf answer = whatif(result.report->solution);
    return {options.as_json ? whatif_json(answer) : whatif_text(*result.report, answer, options.words), {}};
}

// The step that is due; or, with an answer, the set-up after it.
Printed print_bench(const Setup& setup, const Options& options) {
    ReportResult result = report(setup);
    if (!result.report)
        return {"", std::move(result.problems)};
    if (!options.answer) {
        const Bench step = bench(*result.report);
        return {options.as_json ? bench_json(*result.report, step, english())
                                : bench_text(*result.report, step, options.words),
                {}};
    }
    AnswerRead read = read_answer(*options.answer);
    if (!read.answer)
        return {"", std::move(read.problems), true};
    Answered after = answered(*result.report, *read.answer);
    return {after.setup ? write_setup(*after.setup) : "", std::move(after.problems), true};
}

Printed print_link(const Setup& setup, const Options&) {
    Printed printed;
    check_setup(setup, printed.problems);
    if (printed.problems.none())
        printed.text = link_of(setup) + "\n";
    return printed;
}

Printed print_document(const Setup& setup, const Options&) {
    return {write_setup(setup), {}};
}

struct Verb {
    std::string_view name;
    Printed (*print)(const Setup&, const Options&);
    SetupRead (*read)(std::string_view);
    bool from_file = true; // else what is named is the input itself
};
constexpr Verb verbs[] = {{"report", print_report, read_setup}, {"strings", print_strings, read_setup},
                          {"whatif", print_whatif, read_setup}, {"bench", print_bench, read_setup},
                          {"link", print_link, read_setup},     {"open", print_document, open_link, false}};

// Without white space at its end: what was piped ends in a new line.
std::string trimmed_end(std::string text) {
    text.erase(text.find_last_not_of(" \t\r\n") + 1);
    return text;
}

int run(const Verb& verb, const Options& options) {
    const bool given = !verb.from_file && options.file != "-";
    std::optional<std::string> text = given ? std::optional(options.file) : read_input(options.file);
    if (!text)
        return refuse(options.file, std::string(options.words.text("refused.unreadable")));
    if (!verb.from_file)
        text = trimmed_end(std::move(*text));
    const SetupRead read = verb.read(*text);
    if (!read.setup)
        return refuse(given ? "link" : options.file, first_message(read.problems, options.words));
    const Printed printed = verb.print(*read.setup, options);
    if (!printed.problems.none())
        return refuse(printed.of_answer ? "--done" : options.file,
                      first_message(printed.problems, options.words));
    std::cout << printed.text;
    std::cout.flush();
    return std::cout ? told : refused;
}

// Numbers with commas between; nothing where it is something else.
std::vector<double> cents_of(std::string_view text) {
    std::vector<double> cents;
    const char* const end = text.data() + text.size();
    for (const char* at = text.data();; ++at) {
        double value = 0.0;
        const auto [next, error] = std::from_chars(at + (at != end && *at == '+'), end, value);
        if (error != std::errc() || !(std::abs(value) <= farthest_cents) || (next != end && *next != ','))
            return {};
        cents.push_back(value);
        if (next == end)
            return cents;
        at = next;
    }
}

// What the strings in a recording are at.
int hear(const Options& options) {
    const std::optional<std::string> bytes = read_input(options.clip, read_all);
    const std::optional<std::string> text = read_input(options.file);
    if (!bytes || !text)
        return refuse(bytes ? options.file : options.clip,
                      std::string(options.words.text("refused.unreadable")));
    const SetupRead read = read_setup(*text);
    if (!read.setup)
        return refuse(options.file, first_message(read.problems, options.words));
    const std::vector<Pitch>& tuning =
        options.tuning == Which::now ? read.setup->now.tuning : read.setup->next.tuning;
    std::vector<double> expected = options.expect_cents;
    if (expected.size() == 1)
        expected.resize(tuning.size(), expected[0]);
    if (!expected.empty() && expected.size() != tuning.size())
        return fail_usage(options.words, Phrase("usage.expect_count")
                                             .with("found", number(static_cast<double>(expected.size()), 0))
                                             .with("count", number(static_cast<double>(tuning.size()), 0)));
    Problems problems;
    const std::vector<StringTarget> targets = targets_of(*read.setup, options.tuning, expected, problems);
    if (!problems.none())
        return refuse(options.file, first_message(problems, options.words));
    const WavRead wav = read_wav({reinterpret_cast<const unsigned char*>(bytes->data()), bytes->size()});
    if (wav.trouble != WavTrouble::none)
        return refuse(options.clip, options.words.say(refusal_of(wav)));
    const std::vector<HeardString> heard = hear_clip(wav.samples, wav.rate_hz, targets);
    const double seconds = static_cast<double>(wav.samples.size()) / wav.rate_hz;
    std::cout << (options.as_json ? hearing_json(heard, seconds)
                                  : hearing_text(heard, tuning, options.words));
    std::cout.flush();
    return std::cout ? told : refused;
}

} // namespace

int main(int argc, char** argv) {
    no_memory = text_in_file(embedded_words("en"), "usage.no_memory");
    std::set_new_handler(end_without_memory);
    Options options;
    std::vector<std::string> words;
    for (int i = 1; i < argc; ++i) {
        const std::string word = argv[i];
        if (word == "--json") {
            options.as_json = true;
        } else if (word == "--feel") {
            const auto feel = parse_feel(i + 1 < argc ? argv[++i] : "");
            if (!feel)
                return fail_usage(options.words, {"usage.unknown_feel"});
            options.feel = *feel;
        } else if (word == "--done") {
            if (i + 1 >= argc)
                return fail_usage(options.words, {"usage.no_answer"});
            options.answer = argv[++i];
        } else if (word == "--tuning") {
            const std::string which = i + 1 < argc ? argv[++i] : "";
            if (which != "now" && which != "next")
                return fail_usage(options.words, {"usage.unknown_tuning"});
            options.tuning = which == "now" ? Which::now : Which::next;
        } else if (word == "--expect") {
            options.expect_cents = cents_of(i + 1 < argc ? argv[++i] : "");
            if (options.expect_cents.empty())
                return fail_usage(options.words, {"usage.expect_numbers"});
        } else if (word == "--language") {
            const std::string_view code = language_of(i + 1 < argc ? argv[++i] : "");
            if (code.empty())
                return fail_usage(options.words,
                                  Phrase("usage.unknown_language").with("known", known_languages()));
            no_memory = text_in_file(embedded_words(code), "usage.no_memory");
            options.words = Words(code);
        } else if (word == "--help" || word == "-h") {
            std::cout << options.words.text("usage.text");
            return told;
        } else if (word == "--version") {
            std::cout << "counterpull " COUNTERPULL_VERSION "\n";
            return told;
        } else if (word.size() > 1 && word[0] == '-') {
            return fail_usage(options.words, Phrase("usage.unknown_option").with("option", word));
        } else {
            words.push_back(word);
        }
    }
    if (words.empty())
        return fail_usage(options.words, {"usage.no_verb"});
    if (words[0] == "hear") {
        if (words.size() != 3)
            return fail_usage(options.words, {"usage.clip_and_setup"});
        options.clip = words[1];
        options.file = words[2];
        return hear(options);
    }
    for (const Verb& verb : verbs) {
        if (verb.name != words[0])
            continue;
        if (words.size() != 2)
            return fail_usage(options.words, {"usage.one_file"});
        options.file = words[1];
        return run(verb, options);
    }
    return fail_usage(options.words, Phrase("usage.unknown_verb").with("verb", words[0]));
}
