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

#include <cstdlib>

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
    using namespace counterpull;
    if (size == 0)
        return 0;
    const SetupRead read = read_setup(reference::altered_example({data, size}).dump());
    if (!read.setup)
        return 0;
    const ReportResult result = report(*read.setup);
    if (!result.report) {
        if (result.problems.none() || result.problems.told.front().path.empty())
            std::abort(); // refused without a reason or a place
        return 0;
    }
    const WhatIf effects = whatif(result.report->solution);
    report_json(*result.report, english());
    whatif_json(effects);
    const std::string text =
        report_text(*result.report, english()) + whatif_text(*result.report, effects, english());
    for (const char* odd : {" nan", "−nan", " inf", "−inf", "+inf"})
        if (text.find(odd) != std::string::npos)
            std::abort();
    const SetupRead again = open_link(link_of(*read.setup));
    if (!again.setup || *again.setup != *read.setup)
        std::abort();
    return 0;
}
