#include "engine/base/bit_stream.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <random>

using namespace counterpull;

TEST_CASE("what is written is read again, to the last bit of a number") {
    std::mt19937_64 random(5);
    std::vector<double> numbers = {0.0,       -0.0, 1.0,  0.1,    0.046, 647.7, -1.5,  1e308,        5e-324,
                                   1.0 / 3.0, 1e15, 1e16, 0.0105, 25.4,  1e-12, 3e-13, 123456789.123};
    std::uniform_real_distribution<double> any(-100.0, 100.0);
    for (int i = 0; i < 2000; ++i)
        numbers.push_back(i % 2 ? any(random) : std::round(any(random) * 1000.0) / 1000.0);
    BitWriter writer;
    for (const double number : numbers)
        writer.number(number);
    writer.count(0);
    writer.count(15);
    writer.count(16);
    writer.count(~0ull);
    writer.text("Zürich");
    BitReader reader(writer.letters());
    for (const double number : numbers) {
        const double read = reader.number();
        CHECK(read == number);
        CHECK(std::signbit(read) == std::signbit(number));
    }
    CHECK(reader.count() == 0);
    CHECK(reader.count() == 15);
    CHECK(reader.count() == 16);
    CHECK(reader.count() == ~0ull);
    CHECK(reader.text(80) == "Zürich");
    CHECK_FALSE(reader.failed());
    reader.bits(12);
    CHECK(reader.failed()); // past the end
}

TEST_CASE("letters that are none are refused, and a text too long") {
    BitReader wrong("AB CD");
    CHECK(wrong.failed());
    BitWriter writer;
    writer.text("twelve bytes");
    BitReader reader(writer.letters());
    CHECK(reader.text(11).empty());
    CHECK(reader.failed());
}
