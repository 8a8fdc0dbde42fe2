#include "engine/base/format.h"
#include "shell/entry.h"

#include <catch2/catch.hpp>

using namespace counterpull;

TEST_CASE("numbers are understood as players write them") {
    for (const auto& [text, value] : std::vector<std::pair<const char*, double>>{{"8.5", 8.5},
                                                                                 {"8,5", 8.5},
                                                                                 {" -1 ", -1.0},
                                                                                 {"−1", -1.0},
                                                                                 {"+0.5", 0.5},
                                                                                 {"1/8", 0.125},
                                                                                 {"2 1/4", 2.25},
                                                                                 {"2¼", 2.25},
                                                                                 {"-2½", -2.5},
                                                                                 {"⅞", 0.875},
                                                                                 {"8.5 mm", 8.5},
                                                                                 {"2.4 N/mm", 2.4},
                                                                                 {".5", 0.5}}) {
        INFO(text);
        REQUIRE(parse_number(text));
        CHECK(*parse_number(text) == Approx(value));
    }
    for (const char* text : {"", "mm", "1..2", "1/0", "1 2", "--1", "1e5", "nan", "inf", "0x10", "8.5.1",
                             "1/8/2", "99999999999999999999999999999999999999999"})
        CHECK_FALSE(parse_number(text));
}

TEST_CASE("amounts are typed in the reader's units, or with their own") {
    constexpr Units inches{LengthUnit::inch, ForceUnit::lbf};
    CHECK(*parse_amount("1/8", Measure::length, inches) == Approx(3.175));
    CHECK(*parse_amount("2 mm", Measure::length, inches) == Approx(2.0));
    CHECK(*parse_amount("1/16\"", Measure::length, Units{}) == Approx(1.5875));
    CHECK(*parse_amount("0,5 in", Measure::length, Units{}) == Approx(12.7));
    CHECK(*parse_amount("10", Measure::force, inches) == Approx(44.482216));
    CHECK(*parse_amount("5 kg", Measure::force, inches) == Approx(49.03325));
    CHECK(*parse_amount("13.7 lb/in", Measure::rate, Units{}) == Approx(2.4).epsilon(1e-3));
    CHECK(*parse_amount("7", Measure::number, inches) == 7.0);
    CHECK(*parse_amount("2 cm", Measure::length, inches) == Approx(20.0));
    CHECK(*parse_amount("2 MM", Measure::length, inches) == Approx(2.0));
    CHECK(*parse_amount("12 lbs", Measure::force, Units{}) == Approx(53.378659));
    for (const char* text : {"much", "2 m", "2 N", "2 of them"})
        CHECK_FALSE(parse_amount(text, Measure::length, Units{}));
    CHECK_FALSE(parse_amount("5 g", Measure::force, Units{}));
    CHECK_FALSE(parse_amount("2 N", Measure::rate, Units{}));
    CHECK(step_in_units(0.5, Measure::length, inches) == Approx(0.508)); // 0.02 in
    CHECK(step_in_units(0.5, Measure::length, Units{}) == 0.5);
}

TEST_CASE("gauges are understood as players write them") {
    for (const char* text : {"46", ".046", "0.046", "0,046"})
        CHECK(*parse_gauge_in(text) == Approx(0.046));
    CHECK(*parse_gauge_in("10.5") == Approx(0.0105));
    CHECK(gauge_in_words(0.046) == "46");
    CHECK(gauge_in_words(0.0105) == "10.5");
    CHECK_FALSE(parse_gauge_in("light"));
}
