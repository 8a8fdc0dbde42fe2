#include "tests/support.h"

using namespace counterpull::test;

TEST_CASE("the README's first example prints what the README shows") {
    const std::string readme = read_file("README.md");
    const std::string prompt = "$ .build/counterpull/counterpull report ";
    const std::size_t at = readme.find(prompt);
    REQUIRE(at != std::string::npos);
    const std::size_t line_end = readme.find('\n', at);
    const std::string file = readme.substr(at + prompt.size(), line_end - at - prompt.size());
    const std::size_t end = readme.find("```", line_end);
    const Run run = run_command("report " + std::string(PROJECT_ROOT) + "/" + file);
    CHECK(run.exit == 0);
    CHECK(readme.substr(line_end + 1, end - line_end - 1) == run.out);
}
