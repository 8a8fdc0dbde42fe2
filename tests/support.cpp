#include "tests/support.h"
#include "engine/say/refusal.h"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <sstream>
#include <sys/wait.h>
#include <unistd.h>

namespace counterpull::test {

namespace fs = std::filesystem;

std::string read_file(const std::string& path) {
    const fs::path whole = fs::path(PROJECT_ROOT) / path;
    std::ifstream file(whole, std::ios::binary);
    INFO(whole);
    REQUIRE(file);
    std::ostringstream text;
    text << file.rdbuf();
    return text.str();
}

std::vector<std::string> example_names() {
    std::vector<std::string> names;
    for (const auto& entry : fs::directory_iterator(fs::path(PROJECT_ROOT) / "tests/examples"))
        names.push_back(entry.path().stem().string());
    std::sort(names.begin(), names.end());
    REQUIRE(names.size() >= 7);
    return names;
}

std::string example_text(const std::string& name) {
    return read_file("tests/examples/" + name + ".json");
}

Setup example(const std::string& name) {
    SetupRead read = read_setup(example_text(name));
    REQUIRE(read.setup);
    return *read.setup;
}

Setup light_set_level() {
    Setup setup = example("cannot-float");
    setup.title.clear();
    setup.guitar.springs_owned = 5;
    setup.now.springs = {{0, 0, {}}, {2, 2, {}}, {4, 4, {}}};
    setup.now.tail_mm = 0.0;
    setup.next.strings = setup.now.strings;
    setup.next.tuning = setup.now.tuning;
    return setup;
}

Stand standing_now(const Setup& setup) {
    const Assembly assembly = assembly_of(setup, fitting_now(setup));
    Problems problems;
    const auto claw = claw_now(setup, assembly, problems);
    REQUIRE(claw);
    return standing(assembly, *claw, angle_of_tail_rad(setup, setup.now.tail_mm));
}

Report answered(const Setup& setup) {
    const ReportResult result = report(setup);
    if (!result.report)
        FAIL(first_message(result.problems, english()));
    return *result.report;
}

Solution solved(const Setup& setup) {
    Solved solved = solve(setup);
    if (!solved.solution)
        FAIL(first_message(solved.problems, english()));
    return *solved.solution;
}

const Advice& advice_on(const Report& report, const Arrangement& springs) {
    const auto& all = report.solution.advice;
    const auto found =
        std::find_if(all.begin(), all.end(), [&](const Advice& advice) { return advice.springs == springs; });
    REQUIRE(found != all.end());
    return *found;
}

bool warns(const Report& report, WarningKind kind) {
    return std::any_of(report.warnings.begin(), report.warnings.end(),
                       [&](const Warning& warning) { return warning.kind == kind; });
}

std::vector<std::string> refusals(const std::string& text) {
    const SetupRead read = read_setup(text);
    CHECK_FALSE(read.setup);
    std::vector<std::string> messages;
    for (const Problem& problem : read.problems.told)
        messages.push_back(sentence_of(problem, english()));
    return messages;
}

Run run_program(const std::string& program, const std::string& arguments, const std::string& input) {
    const fs::path folder = fs::temp_directory_path() / ("counterpull-test-" + std::to_string(getpid()));
    fs::create_directories(folder);
    const std::string in = folder / "in", out = folder / "out", err = folder / "err";
    std::ofstream(in, std::ios::binary) << input;
    const std::string command = program + " " + arguments + " <" + in + " >" + out + " 2>" + err;
    const int status = std::system(command.c_str());
    auto slurp = [](const std::string& path) {
        std::ifstream file(path, std::ios::binary);
        return std::string(std::istreambuf_iterator<char>(file), {});
    };
    Run run{WIFEXITED(status) ? WEXITSTATUS(status) : -1, slurp(out), slurp(err)};
    fs::remove_all(folder);
    return run;
}

Run run_command(const std::string& arguments, const std::string& input) {
    return run_program(COUNTERPULL_BINARY, arguments, input);
}

std::vector<StringSetup> set_of(const std::string& gauges) {
    std::vector<StringSetup> strings;
    std::istringstream words(gauges);
    for (std::string word; words >> word;) {
        StringSetup string;
        string.wound = word.back() == 'w';
        string.gauge_in = std::stod(word) / 1000.0;
        strings.push_back(string);
    }
    return strings;
}

std::vector<Pitch> notes_of(const std::string& names) {
    std::vector<Pitch> notes;
    std::istringstream words(names);
    for (std::string word; words >> word;) {
        REQUIRE(parse_pitch(word));
        notes.push_back(*parse_pitch(word));
    }
    return notes;
}

} // namespace counterpull::test
