#include "tests/support.h"

using namespace counterpull::test;

TEST_CASE("the README's first example prints what the README shows of it") {
    const std::string readme = read_file("README.md");
    const std::string prompt = "$ .build/counterpull/counterpull report ";
    const std::size_t at = readme.find(prompt);
    REQUIRE(at != std::string::npos);
    const std::size_t line_end = readme.find('\n', at);
    const std::string file = readme.substr(at + prompt.size(), line_end - at - prompt.size());
    const std::size_t end = readme.find("```", line_end);
    const Run run = run_command("report " + std::string(PROJECT_ROOT) + "/" + file);
    CHECK(run.exit == 0);
    std::string shown = readme.substr(line_end + 1, end - line_end - 1);
    const std::string and_so_on = "…\n"; // the README may leave out the rest
    REQUIRE(shown.ends_with(and_so_on));
    shown.erase(shown.size() - and_so_on.size());
    CHECK(shown.size() > 500);
    CHECK(run.out.starts_with(shown));
}
