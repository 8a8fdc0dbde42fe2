// Linked into a program, has its COUNTERPULL_FAILS_AT-th allocation fail, as the standard says of one that
// fails. With 0, or without that variable, none does, and their count is told at the end.
#include <cstdio>
#include <cstdlib>
#include <new>

namespace {

long fails_at() {
    static const char* const given = std::getenv("COUNTERPULL_FAILS_AT");
    return given ? std::atol(given) : 0;
}

long allocations = 0;

struct AtEnd {
    ~AtEnd() {
        if (fails_at() == 0)
            std::fprintf(stderr, "%ld allocations\n", allocations);
    }
} at_end;

} // namespace

void* operator new(std::size_t size) {
    ++allocations;
    for (;;) {
        void* const place = allocations == fails_at() ? nullptr : std::malloc(size > 0 ? size : 1);
        if (place)
            return place;
        const std::new_handler handler = std::get_new_handler();
        if (!handler)
            throw std::bad_alloc();
        handler();
    }
}

void operator delete(void* place) noexcept {
    std::free(place);
}

void operator delete(void* place, std::size_t) noexcept {
    std::free(place);
}
