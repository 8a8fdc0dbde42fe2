#include "tests/reference/altered_setup.h"
#include "engine/document/json_text.h"

#include <algorithm>
#include <cmath>
#include <fstream>
#include <string>
#include <vector>

namespace reference {

namespace {

using Json = nlohmann::ordered_json;

constexpr int most_altered = 12;

class Bytes {
  public:
    explicit Bytes(std::span<const unsigned char> bytes) : left_(bytes) {}
    bool empty() const { return left_.empty(); }
    unsigned next() {
        if (left_.empty())
            return 0;
        const unsigned byte = left_.front();
        left_ = left_.subspan(1);
        return byte;
    }

  private:
    std::span<const unsigned char> left_;
};

void numbers_of(Json& at, std::vector<Json*>& found) {
    if (at.is_number())
        found.push_back(&at);
    else if (at.is_structured())
        for (Json& part : at)
            numbers_of(part, found);
}

double elsewhere(double value, Bytes& bytes) {
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

} // namespace

Json altered(Json document, std::span<const unsigned char> span) {
    Bytes bytes(span);
    std::vector<Json*> numbers;
    numbers_of(document, numbers);
    for (int i = 0; i < most_altered && !bytes.empty(); ++i) {
        Json& number = *numbers[(bytes.next() * 256u + bytes.next()) % numbers.size()];
        const double value = elsewhere(number.get<double>(), bytes);
        number = number.is_number_integer() && std::abs(value) < 1e6 ? Json(std::lround(value)) : Json(value);
    }
    return document;
}

nlohmann::ordered_json altered_example(std::span<const unsigned char> bytes) {
    static const std::vector<Json> examples = [] {
        std::vector<Json> read;
        for (const char* name : {"lower-and-heavier", "cannot-float", "small-sag", "six-screw-plate",
                                 "strings-are-off", "three-readings-in", "seven-strings-two-scales"}) {
            std::ifstream file(std::string(PROJECT_ROOT "/tests/examples/") + name + ".json");
            read.push_back(Json::parse(file));
        }
        return read;
    }();
    const std::size_t which = bytes.empty() ? 0 : bytes.front() % examples.size();
    return altered(examples[which], bytes.subspan(std::min<std::size_t>(1, bytes.size())));
}

} // namespace reference
