#include "engine/say/plurals.h"

#include <algorithm>
#include <cstdint>

namespace counterpull {

namespace {

using Whole = std::uint64_t;

// Takes the digits off the front.
Whole leading_number(std::string_view& text) {
    Whole number = 0;
    for (; !text.empty() && text[0] >= '0' && text[0] <= '9'; text.remove_prefix(1))
        number = 10 * number + static_cast<Whole>(text[0] - '0');
    return number;
}

// Named as in the standard.
struct Operands {
    Whole i = 0; // before the decimal sign
    Whole f = 0; // after it, as one number
    Whole v = 0; // the digits that f has

    explicit Operands(std::string_view said) {
        said.remove_prefix(std::min(said.find_first_of("0123456789"), said.size()));
        i = leading_number(said);
        if (said.empty())
            return;
        if (said[0] == '.' || said[0] == ',') {
            said.remove_prefix(1);
            v = said.size();
            f = leading_number(said);
            v -= said.size();
        } else if ((said[0] & 0x80) != 0) {
            f = v = 1; // "2¼": no letter of ASCII, so some fraction
        }
    }
    // What a rule calls so. The rest (exponents of a compact notation) is 0 for what is said here.
    Whole of(char name) const {
        return name == 'i' || name == 'n' ? i : name == 'f' ? f : name == 'v' ? v : 0;
    }
};

// Takes a word off, of which the first letter says all: i, n, f, v; %, = or !=; and, or.
char next_letter(std::string_view& rule) {
    const std::string_view word = next_word(rule, ' ');
    return word.empty() ? ' ' : word[0];
}

// "0..1" or "2,3,7..9".
bool is_among(Whole value, std::string_view ranges) {
    while (!ranges.empty()) {
        std::string_view range = next_word(ranges, ',');
        const Whole low = leading_number(range);
        range.remove_prefix(std::min(range.find_first_not_of('.'), range.size()));
        const Whole high = range.empty() ? low : leading_number(range);
        if (low <= value && value <= high)
            return true;
    }
    return false;
}

// "v = 0 and i % 10 = 2..4 and i % 100 != 12..14 or …"
bool holds(std::string_view rule, const Operands& number) {
    bool all = true; // that "and" joins
    while (!rule.empty()) {
        const char name = next_letter(rule);
        Whole value = number.of(name);
        char sign = next_letter(rule);
        if (sign == '%') {
            std::string_view by = next_word(rule, ' ');
            value %= std::max(leading_number(by), Whole{1});
            sign = next_letter(rule);
        }
        // n is the number itself: with a fraction it is among no whole numbers.
        const bool among = is_among(value, next_word(rule, ' ')) && (name != 'n' || number.f == 0);
        all = all && among == (sign == '=');
        if (next_letter(rule) != 'a') {
            if (all)
                return true;
            all = true;
        }
    }
    return false;
}

} // namespace

std::string_view next_word(std::string_view& text, char end) {
    const std::string_view word = text.substr(0, text.find(end));
    text.remove_prefix(std::min(word.size() + 1, text.size()));
    return word;
}

std::string_view plural_category(std::string_view rules, std::string_view number) {
    const Operands operands(number);
    while (!rules.empty()) {
        std::string_view rule = next_word(rules, '|');
        const std::string_view category = next_word(rule, ' ');
        if (holds(rule, operands))
            return category;
    }
    return "other";
}

std::string_view form_for(std::string_view forms, std::string_view rules, std::string_view number) {
    const std::string_view category = plural_category(rules, number);
    std::string_view form;
    while (!forms.empty()) {
        form = next_word(forms, '|');
        const std::string_view when = next_word(form, ' ');
        if (when == category || (when.starts_with('=') && when.substr(1) == number))
            break;
    }
    return form;
}

} // namespace counterpull
