// What the fuzzers found, each once mended and here for good.
#include "engine/json_text.h"
#include "engine/whatif.h"
#include "tests/support.h"

#include <cmath>
#include <filesystem>

using namespace counterpull;
using namespace counterpull::test;

namespace {

bool all_finite(const Json& at) {
    if (at.is_number())
        return std::isfinite(at.get<double>());
    for (const Json& part : at)
        if (part.is_structured() ? !all_finite(part) : part.is_number() && !std::isfinite(part.get<double>()))
            return false;
    return true;
}

} // namespace

TEST_CASE("set-ups that fuzzing found are answered in finite numbers, or refused with a place") {
    int found = 0;
    for (const auto& entry :
         std::filesystem::directory_iterator(std::string(PROJECT_ROOT) + "/tests/fuzz/found")) {
        INFO(entry.path().filename().string());
        ++found;
        const SetupRead read = read_setup(read_file("tests/fuzz/found/" + entry.path().filename().string()));
        REQUIRE(read.setup);
        const ReportResult result = report(*read.setup);
        if (!result.report) {
            CHECK_FALSE(result.problems.told.front().path.empty());
            continue;
        }
        const Report& answer = *result.report;
        for (const Advice& advice : answer.advice) {
            CHECK(std::isfinite(advice.turns.value_or(0.0)));
            CHECK(std::isfinite(advice.turns_sigma));
            CHECK(std::isfinite(advice.tail_sigma_m));
        }
        for (const FittedValue& value : answer.fitted)
            CHECK(std::isfinite(value.sigma));
        CHECK(all_finite(Json::parse(report_json(answer, english()))));
        CHECK(all_finite(Json::parse(whatif_json(whatif(*read.setup, answer)))));
    }
    CHECK(found > 0);
}
