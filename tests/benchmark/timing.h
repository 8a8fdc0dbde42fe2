// How long something takes and how often it asks for memory: the median of several rounds, printed as one
// row,
//   name <tab> microseconds <tab> allocations
#pragma once

#include <algorithm>
#include <array>
#include <chrono>
#include <string>

namespace benchmark {

inline constexpr int rounds = 9;

volatile inline double sink; // what is computed is used

// Calls of operator new since the program began.
long allocations();
void print_row(const std::string& name, double microseconds, double allocations);

template <class Work>
double microseconds_each(int times, Work&& work) {
    const auto start = std::chrono::steady_clock::now();
    for (int i = 0; i < times; ++i)
        work();
    const std::chrono::duration<double, std::micro> took = std::chrono::steady_clock::now() - start;
    return took.count() / times;
}

template <class Work>
void measure(const std::string& name, int times, Work&& work) {
    work(); // what is read once and kept (words, presets) is not counted
    const long before = allocations();
    work();
    const auto asked = static_cast<double>(allocations() - before);
    std::array<double, rounds> took;
    for (double& round : took)
        round = microseconds_each(times, work);
    std::nth_element(took.begin(), took.begin() + rounds / 2, took.end());
    print_row(name, took[rounds / 2], asked);
}

} // namespace benchmark
