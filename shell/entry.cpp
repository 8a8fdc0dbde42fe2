#include "shell/entry.h"

#include "engine/base/format.h"

#include <array>
#include <cmath>
#include <cstdlib>

namespace counterpull {

namespace {

struct Spelling {
    std::string_view from;
    std::string_view to;
};
constexpr std::array spellings = {
    Spelling{"−", "-"},     Spelling{"–", "-"},     Spelling{"⅛", " 1/8 "}, Spelling{"¼", " 1/4 "},
    Spelling{"⅜", " 3/8 "}, Spelling{"½", " 1/2 "}, Spelling{"⅝", " 5/8 "}, Spelling{"¾", " 3/4 "},
    Spelling{"⅞", " 7/8 "}, Spelling{",", "."},
};

std::string plain(std::string_view text) {
    std::string result(text);
    for (const Spelling& spelling : spellings)
        for (std::size_t at = result.find(spelling.from); at != std::string::npos;
             at = result.find(spelling.from))
            result.replace(at, spelling.from.size(), spelling.to);
    return result;
}

bool is_digit(char c) {
    return c >= '0' && c <= '9';
}

// Reads decimal numbers and nothing else (no exponent, no hexadecimal, no "inf").
class Cursor {
  public:
    explicit Cursor(std::string text) : text_(std::move(text)) {}

    void skip_spaces() {
        while (at_ < text_.size() && text_[at_] == ' ')
            ++at_;
    }
    bool take(char c) {
        if (at_ >= text_.size() || text_[at_] != c)
            return false;
        ++at_;
        return true;
    }
    std::optional<double> unsigned_number() {
        std::size_t end = at_;
        bool digits = false, point = false;
        while (end < text_.size() && (is_digit(text_[end]) || (text_[end] == '.' && !point))) {
            digits = digits || is_digit(text_[end]);
            point = point || text_[end] == '.';
            ++end;
        }
        if (!digits)
            return std::nullopt;
        const std::string number = text_.substr(at_, end - at_);
        at_ = end;
        return std::strtod(number.c_str(), nullptr);
    }
    bool at_digit() const { return at_ < text_.size() && (is_digit(text_[at_]) || text_[at_] == '.'); }
    // Nothing left, or a unit: letters, slashes, percent and inch signs.
    bool only_a_unit_left() const {
        return text_.find_first_of("0123456789.+-", at_) == std::string::npos && text_.size() - at_ <= 12;
    }

  private:
    std::string text_;
    std::size_t at_ = 0;
};

} // namespace

std::optional<double> parse_number(std::string_view text) {
    if (text.size() > 40)
        return std::nullopt;
    Cursor cursor(plain(text));
    cursor.skip_spaces();
    const bool negative = cursor.take('-');
    if (!negative)
        cursor.take('+');
    cursor.skip_spaces();
    std::optional<double> whole = cursor.unsigned_number();
    if (!whole)
        return std::nullopt;
    if (cursor.take('/')) { // 1/8
        const auto below = cursor.unsigned_number();
        if (!below || *below == 0.0)
            return std::nullopt;
        *whole /= *below;
    } else {
        cursor.skip_spaces();
        if (cursor.at_digit()) { // 2 1/4
            const auto above = cursor.unsigned_number();
            const auto below = cursor.take('/') ? cursor.unsigned_number() : std::nullopt;
            if (!above || !below || *below == 0.0)
                return std::nullopt;
            *whole += *above / *below;
        }
    }
    cursor.skip_spaces();
    if (!cursor.only_a_unit_left())
        return std::nullopt;
    return negative ? -*whole : *whole;
}

std::optional<double> parse_amount(std::string_view text, Measure of, Units units) {
    const std::optional<double> number = parse_number(text);
    if (!number)
        return std::nullopt;
    // The unit typed, if any, from where the number ends.
    std::string unit = plain(text);
    unit.erase(0, unit.find_last_of("0123456789.") + 1);
    std::erase(unit, ' ');
    for (char& c : unit)
        c = c >= 'A' && c <= 'Z' ? static_cast<char>(c + 'a' - 'A') : c;
    if (of == Measure::number || unit.empty())
        return to_document(*number, of, units);
    struct Typed {
        const char* name;
        Measure of;
        Units units;
    };
    static constexpr Typed known[] = {
        {"mm", Measure::length, {LengthUnit::mm, {}}},     {"in", Measure::length, {LengthUnit::inch, {}}},
        {"inch", Measure::length, {LengthUnit::inch, {}}}, {"\"", Measure::length, {LengthUnit::inch, {}}},
        {"″", Measure::length, {LengthUnit::inch, {}}},    {"n", Measure::force, {{}, ForceUnit::newton}},
        {"lb", Measure::force, {{}, ForceUnit::lbf}},      {"lbf", Measure::force, {{}, ForceUnit::lbf}},
        {"lbs", Measure::force, {{}, ForceUnit::lbf}},     {"lbs/in", Measure::rate, {{}, ForceUnit::lbf}},
        {"kg", Measure::force, {{}, ForceUnit::kgf}},      {"kgf", Measure::force, {{}, ForceUnit::kgf}},
        {"n/mm", Measure::rate, {{}, ForceUnit::newton}},  {"lb/in", Measure::rate, {{}, ForceUnit::lbf}},
        {"lbf/in", Measure::rate, {{}, ForceUnit::lbf}},   {"kg/mm", Measure::rate, {{}, ForceUnit::kgf}},
        {"kgf/mm", Measure::rate, {{}, ForceUnit::kgf}},
    };
    for (const Typed& typed : known)
        if (typed.of == of && unit == typed.name)
            return to_document(*number, of, typed.units);
    return of == Measure::length && unit == "cm" ? std::optional(10.0 * *number) : std::nullopt;
}

double step_in_units(double step, Measure of, Units units) {
    const double factor = per_document_unit(of, units);
    if (factor == 1.0)
        return step;
    const double shown = step * factor, decade = std::pow(10.0, std::floor(std::log10(shown)));
    const double lead = shown / decade;
    return (lead < 1.5 ? 1.0 : lead < 3.5 ? 2.0 : lead < 7.5 ? 5.0 : 10.0) * decade / factor;
}

std::optional<double> parse_gauge_in(std::string_view text) {
    const std::optional<double> number = parse_number(text);
    if (!number)
        return std::nullopt;
    return *number >= 1.0 ? *number / 1000.0 : *number;
}

} // namespace counterpull
