#include "engine/mechanics/cholesky.h"

#include <catch2/catch.hpp>

using namespace counterpull;

TEST_CASE("a small system worked by hand is solved and inverted") {
    // [4 2; 2 3] x = [2; 5] has x = [−1/2; 2]; its inverse is [3 −2; −2 4]/8.
    SymmetricMatrix matrix(2);
    matrix.at(0, 0) = 4.0;
    matrix.at(0, 1) = matrix.at(1, 0) = 2.0;
    matrix.at(1, 1) = 3.0;
    const Cholesky factor(matrix);
    REQUIRE(factor.positive_definite());
    const std::vector<double> x = factor.solve({2.0, 5.0});
    CHECK(x[0] == Approx(-0.5));
    CHECK(x[1] == Approx(2.0));
    const SymmetricMatrix inverse = factor.inverse();
    CHECK(inverse.at(0, 0) == Approx(0.375));
    CHECK(inverse.at(0, 1) == Approx(-0.25));
    CHECK(inverse.at(1, 1) == Approx(0.5));
}

TEST_CASE("a matrix that is not positive definite is told") {
    SymmetricMatrix matrix(2);
    matrix.at(0, 0) = 1.0;
    matrix.at(0, 1) = matrix.at(1, 0) = 2.0;
    matrix.at(1, 1) = 1.0;
    CHECK_FALSE(Cholesky(matrix).positive_definite());
}
