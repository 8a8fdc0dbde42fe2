// What the fuzzers found, each once mended and here for good.
#include "engine/belief/spread_history.h"
#include "engine/say/report_json.h"
#include "engine/say/whatif_json.h"
#include "engine/whatif/whatif.h"
#include "tests/support.h"

#include <cmath>
#include <filesystem>

using namespace counterpull;
using namespace counterpull::test;

TEST_CASE("set-ups that fuzzing found are answered in finite numbers, or refused with a place") {
    int found = 0;
    for (const auto& entry :
         std::filesystem::directory_iterator(std::string(PROJECT_ROOT) + "/tests/fuzz/found")) {
        INFO(entry.path().filename().string());
        ++found;
        const SetupRead read = read_setup(read_file("tests/fuzz/found/" + entry.path().filename().string()));
        REQUIRE(read.setup);
        ReportResult result = report(*read.setup);
        if (!result.report) {
            CHECK_FALSE(result.problems.told.front().path.empty());
            continue;
        }
        ask_test_reading(*read.setup, *result.report);
        const Report& answer = *result.report;
        if (answer.test_reading)
            CHECK(std::isfinite(answer.test_reading->sigma_after));
        for (const double sigma : spread_history(calibrate(*read.setup), answer.advice.front().turns_per))
            CHECK(std::isfinite(sigma));
        for (const Advice& advice : answer.advice) {
            CHECK(std::isfinite(advice.turns.value_or(0.0)));
            CHECK(std::isfinite(advice.turns_sigma));
            CHECK(std::isfinite(advice.tail_sigma_m));
        }
        for (const FittedValue& value : answer.fitted)
            CHECK(std::isfinite(value.sigma));
        // What goes into JSON is asserted to be finite where assertions are on (tests/watched/run).
        CHECK(report_json(answer, english()).size() > 1000);
        CHECK(whatif_json(whatif(*read.setup, answer)).size() > 1000);
    }
    CHECK(found > 0);
}
