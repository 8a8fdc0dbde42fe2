/* Parts of the C library in the place of the library's own, which is linked only where nothing else has the name.
 *
 * A browser reads and writes numbers itself, and exactly, so that is left to it. */
#include <emscripten.h>

#include <math.h>
#include <stdarg.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

// clang-format off
/* The number that a text begins with; 0 where it begins with none. */
EM_JS(double, number_in, (const char* text), {
    const number = parseFloat(UTF8ToString(text));
    return isNaN(number) ? 0 : number;
});
/* What printf says to %.*f and %.*g of a number that is finite. Halfway between two numbers the browser takes the upper,
 * printf the even one. What lies halfway shows in 25 digits more: no double lies that near to it without being it. */
EM_JS(void, say_number, (double value, int digits, int shortest, char* text, int room), {
    const more = 25;
    const size = Math.abs(value);
    const said = (way, places) => {
        const [all, power] = size[way](places + more).split("e");
        const kept = all.slice(0, -more);
        const even = /^50*$/.test(all.slice(-more)) && /[02468][.]?$/.test(kept);
        return even ? kept.replace(".", places ? "." : "") + (power ? "e" + power : "") : size[way](places);
    };
    const trimmed = (number) => number.includes(".") ? number.replace(/[.]?0+$/, "") : number;
    let number = "";
    if (!shortest)
        number = said("toFixed", digits);
    else {
        const places = Math.max(digits, 1) - 1;
        const [first, power] = said("toExponential", places).split("e");
        number = power < -4 || power > places
            ? trimmed(first) + "e" + power[0] + power.slice(1).padStart(2, "0")
            : trimmed(said("toFixed", places - power));
    }
    stringToUTF8((value < 0 || Object.is(value, -0) ? "-" : "") + number, text, room);
});
// clang-format on

double strtod(const char* restrict text, char** restrict end) {
    if (end) /* wanted by the reader of JSON, which has looked at every character before */
        *end = (char*)text + strspn(text, "+-.0123456789eE");
    return number_in(text);
}

double atof(const char* text) {
    return number_in(text);
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

/* What is written, as far as there is room, and how long all of it is. */
struct Written {
    char* text;
    size_t room;
    size_t length;
};

static void put(struct Written* written, char c) {
    if (written->length + 1 < written->room)
        written->text[written->length] = c;
    ++written->length;
}

static void put_padded(struct Written* written, const char* text, size_t length, int width, char filler, int left) {
    int padding = width - (int)length;
    if (filler == '0' && length > 0 && *text == '-') {
        put(written, *text++);
        --length;
    }
    for (; !left && padding > 0; --padding)
        put(written, filler);
    while (length-- > 0)
        put(written, *text++);
    for (; padding > 0; --padding)
        put(written, ' ');
}

/* Whole numbers (d, i, u, x, X, p), f and g, c, s; their width, precision, and the flags - and 0. Nobody here asks for
 * more. */
int vsnprintf(char* restrict text, size_t room, const char* restrict format, va_list values) {
    struct Written written = {text, room, 0};
    for (; *format; ++format) {
        if (*format != '%') {
            put(&written, *format);
            continue;
        }
        int left = 0, width = 0, precision = -1, longs = 0;
        char filler = ' ';
        for (++format; *format == '-' || *format == '0'; ++format)
            *format == '-' ? (left = 1) : (filler = '0');
        for (int* number = &width; *format == '*' || *format == '.' || (*format >= '0' && *format <= '9'); ++format)
            if (*format == '.')
                *(number = &precision) = 0;
            else
                *number = *format == '*' ? va_arg(values, int) : 10 * *number + *format - '0';
        for (; *format == 'l' || *format == 'z' || *format == 'h'; ++format)
            longs += *format == 'l';
        char said[192];
        char* at = said + sizeof said;
        size_t length = 0;
        switch (*format) {
        case 's':
            at = va_arg(values, char*);
            length = precision < 0 ? strlen(at) : strnlen(at, (size_t)precision);
            break;
        case 'f':
        case 'g': {
            const double value = va_arg(values, double);
            at = said;
            if (isfinite(value))
                say_number(value, precision < 0 ? 6 : precision, *format == 'g', said, sizeof said);
            else
                strcpy(said, isnan(value) ? "nan" : value < 0 ? "-inf" : "inf");
            length = strlen(said);
            break;
        }
        case 'd':
        case 'i':
        case 'u':
        case 'x':
        case 'X':
        case 'p': {
            const int is_signed = *format == 'd' || *format == 'i';
            uint64_t value = longs > 1 ? va_arg(values, uint64_t) : is_signed ? (uint64_t)va_arg(values, int) : va_arg(values, unsigned);
            const int below = is_signed && (int64_t)value < 0;
            const unsigned base = is_signed || *format == 'u' ? 10 : 16;
            const char* digits = *format == 'X' ? "0123456789ABCDEF" : "0123456789abcdef";
            for (value = below ? -value : value; value > 0 || (int)length < (precision < 0 ? 1 : precision); value /= base, ++length)
                *--at = digits[value % base];
            if (below)
                *--at = '-';
            length += (size_t)below;
            break;
        }
        case 'c':
            *--at = (char)va_arg(values, int);
            length = 1;
            break;
        default:
            *--at = *format;
            length = 1;
        }
        put_padded(&written, at, length, width, filler, left);
    }
    if (room > 0)
        text[written.length < room ? written.length : room - 1] = '\0';
    return (int)written.length;
}

int snprintf(char* restrict text, size_t room, const char* restrict format, ...) {
    va_list values;
    va_start(values, format);
    const int length = vsnprintf(text, room, format, values);
    va_end(values);
    return length;
}

/* Nobody reads what the libraries would report. */
int vfprintf(FILE* restrict file, const char* restrict format, va_list values) {
    (void)file;
    (void)format;
    (void)values;
    return 0;
}
int fprintf(FILE* restrict file, const char* restrict format, ...) {
    (void)file;
    (void)format;
    return 0;
}
int fiprintf(FILE* restrict file, const char* restrict format, ...) {
    (void)file;
    (void)format;
    return 0;
}

/* Types that know themselves at run time: nothing here asks them. What is left of them in the C++ library points here. */
const void* const _ZTVN10__cxxabiv117__class_type_infoE[8] = {0};
const void* const _ZTVN10__cxxabiv120__si_class_type_infoE[8] = {0};
const void* const _ZTVN10__cxxabiv121__vmi_class_type_infoE[8] = {0};

/* Windows, glyphs and the like are few: Shell's way, with Ciura's gaps. */
void qsort(void* items, size_t count, size_t size, int (*compare)(const void*, const void*)) {
    static const size_t gaps[] = {701, 301, 132, 57, 23, 10, 4, 1};
    char* first = items;
    for (size_t g = 0; g < sizeof gaps / sizeof *gaps; ++g)
        for (size_t i = gaps[g]; i < count; ++i)
            for (size_t j = i; j >= gaps[g]; j -= gaps[g]) {
                char* after = first + j * size;
                char* before = after - gaps[g] * size;
                if (compare(before, after) <= 0)
                    break;
                for (size_t k = 0; k < size; ++k) {
                    const char kept = before[k];
                    before[k] = after[k];
                    after[k] = kept;
                }
            }
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
