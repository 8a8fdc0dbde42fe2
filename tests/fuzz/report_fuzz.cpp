// Set-ups that are accepted: an example of the project with some of its numbers put elsewhere, as the bytes
// say. Every report must end in an answer or a refusal with a path, and no number in it may be other than
// finite: what goes into JSON is asserted to be (engine/json_text.cpp), what goes into text is looked for
// here.
#include "engine/document/json_text.h"
#include "engine/document/link.h"
#include "engine/document/presets.h"
#include "engine/say/report_json.h"
#include "engine/say/report_text.h"
#include "engine/say/whatif_json.h"
#include "engine/say/whatif_topics.h"
#include "engine/whatif/whatif.h"
#include "tests/reference/altered_setup.h"

#include <nlohmann/json.hpp>

#include <cstdlib>
#include <fstream>

namespace {

using Json = nlohmann::ordered_json;

const std::vector<Json>& examples() {
    static const std::vector<Json> all = [] {
        std::vector<Json> read;
        for (const char* name : {"lower-and-heavier", "cannot-float", "small-sag", "six-screw-plate",
                                 "strings-are-off", "three-readings-in", "seven-strings-two-scales"}) {
            std::ifstream file(std::string(PROJECT_ROOT "/tests/examples/") + name + ".json");
            read.push_back(Json::parse(file));
        }
        return read;
    }();
    return all;
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
    using namespace counterpull;
    if (size == 0)
        return 0;
    const Json document = reference::altered(examples()[data[0] % examples().size()], {data + 1, size - 1});
    const SetupRead read = read_setup(document.dump());
    if (!read.setup)
        return 0;
    ReportResult result = report(*read.setup);
    if (!result.report) {
        if (result.problems.none() || result.problems.told.front().path.empty())
            std::abort(); // refused without a reason or a place
        return 0;
    }
    ask_test_reading(*read.setup, *result.report);
    const WhatIf effects = whatif(*read.setup, *result.report);
    report_json(*result.report, english());
    whatif_json(effects);
    const std::string text = report_text(*read.setup, *result.report, english()) +
                             whatif_text(*read.setup, *result.report, effects, english());
    for (const char* odd : {" nan", "−nan", " inf", "−inf", "+inf"})
        if (text.find(odd) != std::string::npos)
            std::abort();
    const SetupRead again = open_link(link_of(*read.setup));
    if (!again.setup || *again.setup != *read.setup)
        std::abort();
    return 0;
}
