#include "engine/base/format.h"

#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>

namespace counterpull {

std::string fixed(double value, int digits) {
    std::array<char, 64> text{};
    std::snprintf(text.data(), text.size(), std::abs(value) < 1e15 ? "%.*f" : "%.*g", digits, value);
    std::string result = text.data();
    if (result[0] == '-' && result.find_first_not_of("-0.") == std::string::npos)
        result.erase(0, 1);
    return result;
}

std::string trimmed(double value, int digits) {
    std::string text = fixed(value, digits);
    if (text.find('.') == std::string::npos || text.find('e') != std::string::npos)
        return text;
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.')
        text.pop_back();
    return text;
}

std::string gauge_in_words(double gauge_in) {
    return trimmed(gauge_in * 1000.0, 2);
}

std::string shortest(double value) {
    std::array<char, 32> text{};
    std::snprintf(text.data(), text.size(), "%.9g", value);
    return text.data();
}

std::string turns_in_eighths(double turns) {
    static constexpr std::array parts = {"", "⅛", "¼", "⅜", "½", "⅝", "¾", "⅞"};
    const long eighths = std::lround(8.0 * std::abs(turns));
    const std::string part = parts[static_cast<std::size_t>(eighths % 8)];
    if (eighths < 8)
        return part.empty() ? "0" : part;
    return std::to_string(eighths / 8) + part;
}

double nine_digits(double value) {
    return std::strtod(shortest(value).c_str(), nullptr) + 0.0;
}

} // namespace counterpull
