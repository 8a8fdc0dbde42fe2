/* Parts of the C library in the place of the library's own, which is linked only where nothing else has the name.
 *
 * Numbers are read by the library's own code (musl) with a double wherever it has a long double (libraries.cmake puts it
 * so, and musl has it so on many a processor): as exactly, but without the arithmetic of 128 bits that WebAssembly has to
 * put together from whole numbers. */
#include "shgetc.h"

#include <math.h>
#include <stdlib.h>

#include "floatscan_of_doubles.c"

double strtod(const char* restrict text, char** restrict end) {
    FILE file;
    sh_fromstring(&file, text);
    shlim(&file, 0);
    const double value = floatscan(&file, 1, 1);
    if (end)
        *end = (char*)text + shcnt(&file);
    return value;
}

/* Of the same file in the library, which is left out whole: nobody calls these. */
float strtof(const char* restrict text, char** restrict end) {
    return (float)strtod(text, end);
}
long double strtold(const char* restrict text, char** restrict end) {
    return strtod(text, end);
}
float strtof_l(const char* restrict text, char** restrict end, struct __locale_struct* locale) {
    (void)locale;
    return strtof(text, end);
}
double strtod_l(const char* restrict text, char** restrict end, struct __locale_struct* locale) {
    (void)locale;
    return strtod(text, end);
}
long double strtold_l(const char* restrict text, char** restrict end, struct __locale_struct* locale) {
    (void)locale;
    return strtold(text, end);
}

double atof(const char* text) {
    return strtod(text, NULL);
}

/* Brings an angle of more than half a million turns into the first: no angle here is. */
int __rem_pio2_large(double* x, double* y, int e0, int nx, int precision) {
    (void)x;
    (void)e0;
    (void)nx;
    (void)precision;
    y[0] = y[1] = NAN;
    return 0;
}
