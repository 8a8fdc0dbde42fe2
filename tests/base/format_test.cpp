#include "engine/base/format.h"

#include <catch2/catch.hpp>

#include <limits>

using namespace counterpull;

TEST_CASE("turns are told in the eighths that a screwdriver makes") {
    CHECK(turns_in_eighths(2.25) == "2¼");
    CHECK(turns_in_eighths(-2.30) == "2¼");
    CHECK(turns_in_eighths(0.12) == "⅛");
    CHECK(turns_in_eighths(0.05) == "0");
    CHECK(turns_in_eighths(0.96) == "1");
    CHECK(turns_in_eighths(1.99) == "2");
    CHECK(turns_in_eighths(3.87) == "3⅞");
}

TEST_CASE("numbers carry no minus zero, and nine digits where asked") {
    CHECK(fixed(-0.001, 1) == "0.0");
    CHECK(fixed(647.7, 0) == "648");
    CHECK(shortest(0.46) == "0.46");
    CHECK(shortest(1e308) == "1e+308");
    CHECK(nine_digits(1.0 / 3.0) == 0.333333333);
    CHECK(trimmed(1.50, 2) == "1.5");
    CHECK(trimmed(20.0, 2) == "20");
    CHECK(trimmed(1.5e20, 2) == "1.5e+20"); // an exponent keeps its zeros
    CHECK(fixed(std::numeric_limits<double>::max(), 1).size() < 60);
}
