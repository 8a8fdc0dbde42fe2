#include "engine/hearing/decimate.h"
#include "engine/hearing/envelope_solver.h"
#include "engine/hearing/spectrum.h"
#include "engine/hearing/transform.h"
#include "tests/hearing/sounds.h"

#include <catch2/catch.hpp>
#include <fftw3.h>

#include <cmath>
#include <numbers>

using namespace counterpull;
using namespace counterpull::test;

TEST_CASE("the transform gives what FFTW gives") {
    Dice dice(1);
    for (const std::size_t size : {std::size_t{2}, std::size_t{64}, std::size_t{4096}, std::size_t{65536}}) {
        std::vector<Complex> values(size);
        fftw_complex* theirs = fftw_alloc_complex(size);
        for (std::size_t i = 0; i < size; ++i) {
            values[i] = {dice.normal(), dice.normal()};
            theirs[i][0] = values[i].re;
            theirs[i][1] = values[i].im;
        }
        fftw_plan plan =
            fftw_plan_dft_1d(static_cast<int>(size), theirs, theirs, FFTW_FORWARD, FFTW_ESTIMATE);
        fftw_execute(plan);
        Transform(size).forward(values);
        double worst = 0.0;
        for (std::size_t i = 0; i < size; ++i)
            worst = std::max(worst, std::hypot(values[i].re - theirs[i][0], values[i].im - theirs[i][1]));
        CHECK(worst < 1e-12 * std::sqrt(static_cast<double>(size)) * 20.0);
        fftw_destroy_plan(plan);
        fftw_free(theirs);
    }
}

TEST_CASE("the window's moments in closed form are those of summing") {
    for (const double turn : {0.0, 0.01, 0.04, 0.06, 1.0, 3.1, std::numbers::pi, 3.2, 10.0, 60.0}) {
        constexpr int steps = 200000;
        double h0 = 0.0, h1 = 0.0, h2 = 0.0;
        for (int i = 0; i < steps; ++i) {
            const double tau = -1.0 + (2.0 * i + 1.0) / steps;
            const double weight = (1.0 + std::cos(std::numbers::pi * tau)) / steps;
            h0 += weight * std::cos(turn * tau);
            h1 += weight * tau * std::sin(turn * tau);
            h2 += weight * tau * tau * std::cos(turn * tau);
        }
        INFO(turn);
        const WindowMoments moments = window_moments(turn);
        CHECK(std::abs(moments.h0 - h0) < 1e-8);
        CHECK(std::abs(moments.h1 - h1) < 1e-8);
        CHECK(std::abs(moments.h2 - h2) < 1e-8);
    }
}

TEST_CASE("a spectrum between its steps is that of summing") {
    Dice dice(2);
    std::vector<float> sound(2001);
    for (float& sample : sound)
        sample = static_cast<float>(dice.normal());
    const Spectrum spectrum(sound, 8000.0);
    for (const double hz : {0.0, 50.3, 440.7, 3100.1}) {
        Complex plain, sloped;
        for (std::size_t i = 0; i < sound.size(); ++i) {
            const double tau = 2.0 * (static_cast<double>(i) - 1000.0) / 2001.0;
            const double value =
                (1.0 + std::cos(std::numbers::pi * tau)) / 2001.0 * static_cast<double>(sound[i]);
            const Complex turned{std::cos(spectrum.turn(hz) * tau), -std::sin(spectrum.turn(hz) * tau)};
            plain = plain + value * turned;
            sloped = sloped + value * tau * turned;
        }
        INFO(hz);
        CHECK(std::sqrt(squared(spectrum.plain(hz) - plain)) < 1e-5);
        CHECK(std::sqrt(squared(spectrum.sloped(hz) - sloped)) < 1e-5);
    }
}

TEST_CASE("fewer samples a second keep what is below and lose what is above") {
    const auto level_of = [](double hz) {
        Decimator decimator(44100.0);
        std::vector<float> in, out;
        for (int i = 0; i < 44100; ++i)
            in.push_back(static_cast<float>(std::sin(2.0 * std::numbers::pi * hz * i / 44100.0)));
        for (std::size_t at = 0; at < in.size(); at += 700) // in chunks that fit nothing
            decimator.pass(std::span<const float>(in).subspan(at, std::min<std::size_t>(700, in.size() - at)),
                           out);
        REQUIRE(out.size() > 10000);
        double sum = 0.0;
        for (const float sample : std::span<const float>(out).subspan(1000, 9000))
            sum += static_cast<double>(sample) * static_cast<double>(sample);
        return 10.0 * std::log10(sum / 4500.0);
    };
    CHECK(std::abs(level_of(440.0)) < 0.01);
    CHECK(std::abs(level_of(4400.0)) < 0.1);
    CHECK(level_of(6700.0) < -80.0);
    CHECK(level_of(15000.0) < -80.0);
    for (const double rate : {8000.0, 16000.0, 44100.0, 48000.0, 96000.0, 192000.0}) {
        CHECK(Decimator(rate).rate_hz() >= 8000.0);
        CHECK(Decimator(rate).rate_hz() < 20000.0);
    }
}

TEST_CASE("a system solved within its envelope is solved, and its inverse is known") {
    Dice dice(3);
    constexpr std::size_t size = 12;
    EnvelopeSystem system({0, 0, 0, 1, 2, 2, 4, 5, 5, 5, 8, 9});
    Complex full[size][size];
    for (std::size_t row = 0; row < size; ++row)
        for (std::size_t column = system.first(row); column <= row; ++column) {
            const Complex value = row == column ? Complex{8.0, 0.0} : Complex{dice.normal(), dice.normal()};
            system.at(row, column) = value;
            full[row][column] = value;
            full[column][row] = conjugate(value);
        }
    REQUIRE(system.factorize());
    for (std::size_t unit = 0; unit < size; ++unit) {
        std::vector<Complex> solution(size);
        solution[unit] = {1.0, 0.0};
        system.solve(solution);
        for (std::size_t row = 0; row < size; ++row) {
            Complex sum;
            for (std::size_t column = 0; column < size; ++column)
                sum = sum + full[row][column] * solution[column];
            CHECK(std::sqrt(squared(sum - Complex{row == unit ? 1.0 : 0.0, 0.0})) < 1e-12);
        }
        CHECK(system.inverse_diagonal(unit, size) == Approx(solution[unit].re).epsilon(1e-12));
    }
    EnvelopeSystem hopeless({0});
    hopeless.at(0, 0) = {-1.0, 0.0};
    CHECK(!hopeless.factorize());
}
