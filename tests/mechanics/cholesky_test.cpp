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

TEST_CASE("a chain with a border is solved as any other system, and in part") {
    // 2 and −1 along a chain of four, and one unknown that all have in common.
    const std::vector<std::vector<double>> rows{
        {2, -1, 0, 0, 1}, {-1, 2, -1, 0, 0.5}, {0, -1, 2, -1, 0}, {0, 0, -1, 2, -1}, {1, 0.5, 0, -1, 9}};
    SymmetricMatrix matrix(5);
    for (std::size_t i = 0; i < 5; ++i)
        for (std::size_t j = 0; j < 5; ++j)
            matrix.at(i, j) = rows[i][j];
    const std::vector<double> wanted{1.0, -2.0, 0.5, 3.0, -0.25};
    std::vector<double> right(5);
    for (std::size_t i = 0; i < 5; ++i)
        for (std::size_t j = 0; j < 5; ++j)
            right[i] += rows[i][j] * wanted[j];
    Cholesky factor(SymmetricMatrix(5));
    CHECK_FALSE(factor.positive_definite());
    factor.factor(matrix);
    REQUIRE(factor.positive_definite());
    const std::vector<double> x = factor.solve(right);
    for (std::size_t i = 0; i < 5; ++i)
        CHECK(x[i] == Approx(wanted[i]));
    // The whole inverse by its definition, a part of it as cut from the whole.
    const SymmetricMatrix inverse = factor.inverse(), part = factor.inverse(3);
    for (std::size_t i = 0; i < 5; ++i)
        for (std::size_t j = 0; j < 5; ++j) {
            double sum = 0.0;
            for (std::size_t k = 0; k < 5; ++k)
                sum += rows[i][k] * inverse.at(k, j);
            CHECK(sum == Approx(i == j ? 1.0 : 0.0).margin(1e-12));
        }
    for (std::size_t i = 0; i < 2; ++i)
        for (std::size_t j = 0; j < 2; ++j)
            CHECK(part.at(i, j) == Approx(inverse.at(3 + i, 3 + j)));
    // |L⁻¹ r|² = rᵀ A⁻¹ r.
    std::vector<double> half{0.0, 0.0, 1.0, 0.0, 2.0};
    factor.solve_lower(half);
    double squared = 0.0;
    for (const double value : half)
        squared += value * value;
    CHECK(squared == Approx(inverse.at(2, 2) + 4.0 * inverse.at(4, 2) + 4.0 * inverse.at(4, 4)));
}
