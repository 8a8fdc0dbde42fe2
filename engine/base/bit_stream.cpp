#include "engine/base/bit_stream.h"

#include <array>
#include <cmath>
#include <cstdio>
#include <cstdlib>
#include <cstring>

namespace counterpull {

namespace {

constexpr std::string_view alphabet = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
constexpr int group = 4; // bits of a count at a time
constexpr int place_bits = 4;
constexpr int most_places = 12; // digits after the point; 15 says: all 64 bits follow
constexpr std::uint64_t whole_number = 15;
// Integers up to here are exact in a double.
constexpr double most_mantissa = 9007199254740992.0;

// What std::bit_cast would do, which the browser's toolchain has not yet.
std::uint64_t bits_of(double value) {
    std::uint64_t bits = 0;
    std::memcpy(&bits, &value, sizeof bits);
    return bits;
}
double double_of(std::uint64_t bits) {
    double value = 0.0;
    std::memcpy(&value, &bits, sizeof value);
    return value;
}

// The fewest places after the point at which the value, times ten to them, is an integer and comes back the
// same; −1 where there is none.
int places_of(double value) {
    std::array<char, 64> text{};
    for (int places = 0; places <= most_places; ++places) {
        if (std::abs(value) * std::pow(10.0, places) >= most_mantissa)
            return -1;
        std::snprintf(text.data(), text.size(), "%.*f", places, value);
        if (std::strtod(text.data(), nullptr) == value)
            return places;
    }
    return -1;
}

// mantissa · 10^−places, as reading the decimal gives it: a quotient would differ in the last bit.
double decimal(std::uint64_t mantissa, int places) {
    std::array<char, 64> text{};
    std::snprintf(text.data(), text.size(), "%llue-%d", static_cast<unsigned long long>(mantissa), places);
    return std::strtod(text.data(), nullptr);
}

} // namespace

void BitWriter::bits(std::uint64_t value, int count) {
    while (count-- > 0)
        bits_.push_back((value >> count) & 1u);
}

void BitWriter::count(std::uint64_t value) {
    while (value >= (1u << group)) {
        flag(true);
        bits(value & ((1u << group) - 1), group);
        value >>= group;
    }
    flag(false);
    bits(value, group);
}

void BitWriter::number(double value) {
    const int places = std::signbit(value) && value == 0.0 ? -1 : places_of(value);
    if (places < 0) {
        bits(whole_number, place_bits);
        bits(bits_of(value), 64);
        return;
    }
    bits(static_cast<std::uint64_t>(places), place_bits);
    flag(value < 0.0);
    count(static_cast<std::uint64_t>(std::llround(std::abs(value) * std::pow(10.0, places))));
}

void BitWriter::text(std::string_view value) {
    count(value.size());
    for (const char c : value)
        bits(static_cast<unsigned char>(c), 8);
}

std::string BitWriter::letters() const {
    std::string text;
    for (std::size_t i = 0; i < bits_.size(); i += 6) {
        std::size_t letter = 0;
        for (std::size_t j = i; j < i + 6; ++j)
            letter = 2 * letter + (j < bits_.size() && bits_[j] ? 1 : 0);
        text += alphabet[letter];
    }
    return text;
}

BitReader::BitReader(std::string_view letters) {
    for (const char c : letters) {
        const std::size_t letter = alphabet.find(c);
        failed_ = failed_ || letter == std::string_view::npos;
        for (int bit = 5; bit >= 0; --bit)
            bits_.push_back(!failed_ && ((letter >> bit) & 1u));
    }
}

std::uint64_t BitReader::bits(int count) {
    std::uint64_t value = 0;
    for (; count > 0; --count) {
        failed_ = failed_ || at_ >= bits_.size();
        value = 2 * value + (!failed_ && bits_[at_] ? 1 : 0);
        ++at_;
    }
    return failed_ ? 0 : value;
}

std::uint64_t BitReader::count() {
    std::uint64_t value = 0;
    for (int shift = 0; shift < 64; shift += group) {
        const bool more = flag();
        value |= bits(group) << shift;
        if (!more)
            return value;
    }
    failed_ = true;
    return 0;
}

double BitReader::number() {
    const std::uint64_t places = bits(place_bits);
    if (places == whole_number)
        return double_of(bits(64));
    if (places > static_cast<std::uint64_t>(most_places))
        failed_ = true;
    const bool negative = flag();
    const double size = decimal(count(), static_cast<int>(places));
    return failed_ ? 0.0 : negative ? -size : size;
}

std::string BitReader::text(std::size_t longest) {
    const std::uint64_t size = count();
    failed_ = failed_ || size > longest;
    std::string value;
    for (std::uint64_t i = 0; i < size && !failed_; ++i)
        value += static_cast<char>(bits(8));
    return value;
}

} // namespace counterpull
