// Set-ups that are accepted: an example of the project with some of its numbers put elsewhere, as the bytes
// say. Every report must end in an answer or a refusal with a path, and no number in it may be other than
// finite.
#include "engine/link.h"
#include "engine/presets.h"
#include "engine/report_text.h"
#include "engine/whatif.h"

#include <nlohmann/json.hpp>

#include <cmath>
#include <cstdlib>
#include <cstring>
#include <fstream>
#include <iterator>

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

void numbers_of(Json& at, std::vector<Json*>& found) {
    if (at.is_number())
        found.push_back(&at);
    else if (at.is_structured())
        for (Json& part : at)
            numbers_of(part, found);
}

class Bytes {
  public:
    Bytes(const unsigned char* at, std::size_t size) : at_(at), left_(size) {}
    bool empty() const { return left_ == 0; }
    unsigned next() {
        if (left_ == 0)
            return 0;
        --left_;
        return *at_++;
    }

  private:
    const unsigned char* at_;
    std::size_t left_;
};

double changed(double value, Bytes& bytes) {
    const unsigned how = bytes.next();
    const double fine = (static_cast<double>(bytes.next()) - 128.0) / 128.0;
    switch (how % 5) {
    case 0:
        return value * std::exp2(2.0 * fine);
    case 1:
        return value + 20.0 * fine;
    case 2:
        return value * (1.0 + 0.05 * fine);
    case 3:
        return std::round(8.0 * fine);
    default:
        return std::ldexp(fine, static_cast<int>(bytes.next()) - 128);
    }
}

bool all_finite(const Json& at) {
    if (at.is_number())
        return std::isfinite(at.get<double>());
    if (at.is_structured())
        for (const Json& part : at)
            if (!all_finite(part))
                return false;
    return true;
}

} // namespace

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* data, std::size_t size) {
    using namespace counterpull;
    Bytes bytes(data, size);
    Json document = examples()[bytes.next() % examples().size()];
    std::vector<Json*> numbers;
    numbers_of(document, numbers);
    for (int i = 0; i < 12 && !bytes.empty(); ++i) {
        Json& number = *numbers[(bytes.next() * 256u + bytes.next()) % numbers.size()];
        const double value = changed(number.get<double>(), bytes);
        number = number.is_number_integer() && std::abs(value) < 1e6 ? Json(std::lround(value)) : Json(value);
    }
    const SetupRead read = read_setup(document.dump());
    if (!read.setup)
        return 0;
    const ReportResult result = report(*read.setup);
    if (!result.report) {
        if (result.problems.none() || result.problems.told.front().path.empty())
            std::abort(); // refused without a reason or a place
        return 0;
    }
    const WhatIf effects = whatif(*read.setup, *result.report);
    // What JSON cannot hold it writes as null, so the text is looked at too.
    if (!all_finite(Json::parse(report_json(*result.report, english()))) ||
        !all_finite(Json::parse(whatif_json(effects))))
        std::abort();
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
