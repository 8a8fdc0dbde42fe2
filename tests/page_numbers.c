/* What page_numbers_test compares: the page's own printf and strtod (web/libraries/libc_lean.c) under Emscripten, the
 * system's otherwise, which reads its cases from the standard input. */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

static double double_of(uint64_t bits) {
    double value;
    memcpy(&value, &bits, sizeof value);
    return value;
}
static uint64_t bits_of(double value) {
    uint64_t bits;
    memcpy(&bits, &value, sizeof bits);
    return bits;
}

/* The number as text, and what that text is read as. */
const char* number_said(uint32_t high, uint32_t low, int digits, int shortest) {
    static char said[512];
    const double value = double_of((uint64_t)high << 32 | low);
    snprintf(said, 256, shortest ? "%.*g" : "%.*f", digits, value);
    char* end;
    const uint64_t again = bits_of(strtod(said, &end));
    const size_t length = strlen(said);
    snprintf(said + length, 256, " %llx %d", (unsigned long long)again, *end == '\0');
    return said;
}

static int lower_first(const void* a, const void* b) {
    return *(const int*)a < *(const int*)b ? -1 : *(const int*)a > *(const int*)b;
}

/* How many of some numbers stand right after putting in order: all of them. */
static int put_in_order(void) {
    int numbers[999], in_place = 0;
    for (int i = 0; i < 999; ++i)
        numbers[i] = i * 350 % 999;
    qsort(numbers, 999, sizeof *numbers, lower_first);
    for (int i = 0; i < 999; ++i)
        in_place += numbers[i] == i;
    return in_place;
}

/* Everything else that is asked of printf here, and of qsort. */
const char* others_said(void) {
    static char said[512];
    char narrow[8];
    const int wanted = snprintf(narrow, sizeof narrow, "%s", "0123456789");
    const int alone = snprintf(NULL, 0, "%d%s", 12345, "abc");
    snprintf(said, sizeof said, "%s/%08X|%-5d|%5d|%05d|%02d|%c|%%|%.*s|%llue-%d|%4s|%-4s|\\u%04x|%.2X|%i|%u|%lld|%s %d %d|%d",
             "ab", 0xBEEFu, 42, -42, -42, 7, 'x', 3, "abcdef", 9007199254740993ull, 3, "q", "q", 0xd8, 5, -2147483647 - 1,
             4294967295u, (long long)INT64_MIN, narrow, wanted, alone, put_in_order());
    return said;
}

int main(void) {
#ifndef __EMSCRIPTEN__
    unsigned high, low;
    int digits, shortest;
    puts(others_said());
    while (scanf("%x %x %d %d", &high, &low, &digits, &shortest) == 4)
        puts(number_said(high, low, digits, shortest));
#endif
    return 0;
}
