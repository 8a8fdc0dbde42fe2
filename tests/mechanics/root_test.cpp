#include "engine/mechanics/root.h"

#include <catch2/catch.hpp>

#include <cmath>

using namespace counterpull;

namespace {

template <class F>
Root solve(F&& f, double low, double high, int most = 200) {
    return bracketed_root(f, low, f(low), high, f(high), {1e-13, 1e-14, most});
}

} // namespace

TEST_CASE("the solver finds roots that Newton alone would miss") {
    const Root cube = solve([](double x) { return Sample{x * x * x - 2.0, 3 * x * x}; }, 0.0, 10.0);
    CHECK(cube.found());
    CHECK(cube.at == Approx(std::cbrt(2.0)).epsilon(1e-13));
    // Newton from either end of the arctangent diverges.
    const Root arc = solve(
        [](double x) {
            return Sample{std::atan(x - 3), 1 / (1 + (x - 3) * (x - 3))};
        },
        -40, 100);
    CHECK(arc.found());
    CHECK(arc.at == Approx(3.0).epsilon(1e-12));
    CHECK(std::abs(arc.residual) <= 1e-13);
    CHECK(arc.iterations < 20);
}

TEST_CASE("a jump across zero is called a jump, at its place") {
    const Root root = solve([](double x) { return Sample{x < 0.3 ? 1.0 - x : -2.0 - x, -1.0}; }, -1, 1);
    CHECK(root.status == RootStatus::jump);
    CHECK(root.at == Approx(0.3).margin(1e-13));
}

TEST_CASE("without a change of sign there is no root, and a wrong slope still ends") {
    CHECK(solve(
              [](double x) {
                  return Sample{x * x + 1, 2 * x};
              },
              -1, 2)
              .status == RootStatus::no_sign_change);
    CHECK(solve([](double x) { return Sample{x - 0.7, 1e-300}; }, 0, 1).found());
    CHECK(solve([](double x) { return Sample{x - 0.7, -5.0}; }, 0, 1).found());
}

TEST_CASE("reaching the iteration limit is told") {
    CHECK(solve(
              [](double x) {
                  return Sample{std::atan(x - 3), 0.0};
              },
              -40, 100, 3)
              .status == RootStatus::iteration_limit);
}
