#include "engine/belief/information.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace counterpull;

TEST_CASE("what readings say is added up to 1 + sum of weight times jᵀj, worked by hand") {
    // Two unknowns of entries and one other; the readings (1, 0, 1), weighed 2, and (0, 2, 1): the matrix is
    // [3 0 2; 0 5 2; 2 2 4]. Its determinant is 3·(20 − 4) + 2·(0 − 10) = 28, so its inverse has
    // 16/28, 8/28 and 15/28 on the diagonal.
    RowOfUnknowns unknowns;
    unknowns.width = 3;
    unknowns.of_entries = 2;
    Information information(unknowns);
    information.reset();
    information.add(2.0, std::vector<double>{1.0, 0.0, 1.0});
    information.add(1.0, std::vector<double>{0.0, 2.0, 1.0});
    const double variances[] = {16.0 / 28.0, 8.0 / 28.0, 15.0 / 28.0};
    for (std::size_t i = 0; i < 3; ++i) {
        std::vector<double> gradient(3);
        gradient[i] = 1.0;
        CHECK(information.sigma_of(gradient) == Approx(std::sqrt(variances[i])));
    }
}
