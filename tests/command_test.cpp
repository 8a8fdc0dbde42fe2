#include "tests/support.h"

#include <nlohmann/json.hpp>

using namespace counterpull::test;

namespace {

std::string file(const std::string& name) {
    return std::string(PROJECT_ROOT) + "/tests/examples/" + name + ".json";
}

} // namespace

TEST_CASE("counterpull report answers a file, standard input, and options anywhere") {
    const Run people = run_command("report " + file("small-sag"));
    CHECK(people.exit == 0);
    CHECK(people.out.find("Loosen each claw screw") != std::string::npos);
    CHECK(people.err.empty());
    const Run piped = run_command("--json report -", example_text("small-sag"));
    CHECK(piped.exit == 0);
    const Run after = run_command("report " + file("small-sag") + " --json");
    CHECK(after.out == piped.out);
    CHECK(nlohmann::json::parse(piped.out).at("format") == "counterpull-report/1");
}

TEST_CASE("that it cannot float is an answer") {
    CHECK(run_command("report " + file("cannot-float")).exit == 0);
}

TEST_CASE("what cannot be read or is refused ends with 1 and says where") {
    const Run missing = run_command("report no-such-file.json");
    CHECK(missing.exit == 1);
    CHECK(missing.err.find("no-such-file.json: cannot be read") != std::string::npos);
    CHECK(run_command("report /").exit == 1);
    auto document = nlohmann::json::parse(example_text("small-sag"));
    document["next"]["strings"][2]["gauge_in"] = 0.46;
    document["extra"] = 1;
    const Run refused = run_command("report -", document.dump());
    CHECK(refused.exit == 1);
    CHECK(refused.out.empty());
    CHECK(refused.err.find("(and 1 more)") != std::string::npos);
    document.erase("extra");
    CHECK(run_command("report -", document.dump())
              .err.find("next.strings[2].gauge_in: 0.46 is outside 0.005 to 0.150") != std::string::npos);
}

TEST_CASE("a wrong call ends with 2 and shows how to call") {
    for (const char* call :
         {"", "report", "level guitar.json", "report a.json b.json", "report --jsno a.json"}) {
        INFO(call);
        const Run run = run_command(call);
        CHECK(run.exit == 2);
        CHECK(run.out.empty());
        CHECK(run.err.find("usage: counterpull report") != std::string::npos);
    }
    CHECK(run_command("--help").exit == 0);
}
