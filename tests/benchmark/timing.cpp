#include "tests/benchmark/timing.h"

#include <cstdio>
#include <cstdlib>
#include <new>

namespace {
long asked = 0;
}

void* operator new(std::size_t size) {
    ++asked;
    if (void* memory = std::malloc(size))
        return memory;
    std::abort();
}
void operator delete(void* memory) noexcept {
    std::free(memory);
}
void operator delete(void* memory, std::size_t) noexcept {
    std::free(memory);
}

namespace benchmark {

long allocations() {
    return asked;
}

void print_row(const std::string& name, double microseconds, double allocations) {
    std::printf("%s\t%.3f\t%.0f\n", name.c_str(), microseconds, allocations);
}

} // namespace benchmark
