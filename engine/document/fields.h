// The table of the set-up document's fields: each is one row of plain data, and everything that has to do
// with fields walks the rows. Reader, writer, range check and links (document_read, document_write,
// document_ranges, link_walk), which paths a basis may be given for, prior spreads (belief.h), the page's
// form of dimensions, and the test that holds the module's types to the document.
//
// What a row says:
//   key       as in the document, with its unit as suffix
//   member    which member of the struct it is read into (setup.h); that gives its kind, and whether it can
//             be absent (std::optional)
//   range     what a number may be; generous: ranges refuse slips (a gauge of 0.46, a scale in inches), not
//             odd guitars
//   names     of a choice, in the order of its enum
//   left_out  when it may be left out; it is then what setup.h says, which is the only place where a default
//             stands. Without it the field is required, unless its member can be absent
//   there     when the document has this field at all; without it always
//   prior     how far off its usual value may be
//   since     the version letter of the first links that carry it; older links have its default
// Rows stand in the order of the document and of links, a field before those whose conditions ask for it.
// Rows are only ever added, with the letter of a new version, or links once handed out would not open.
#pragma once

#include "engine/document/answer.h"
#include "engine/document/setup.h"
#include "engine/document/unknown.h"

#include <span>
#include <string_view>
#include <type_traits>

namespace counterpull {

enum class Kind {
    number,     // double
    whole,      // int
    flag,       // bool
    text,       // std::string
    per_string, // PerString
    numbers,    // std::vector<double>
    pair,       // std::array<double, 2>
    readings,   // std::vector<std::optional<double>>: null where not read
    pitches,    // std::vector<Pitch>
    choice,     // an enum
    bases,      // a basis for each of some paths
    object,     // a struct with a table of its own
    objects,    // a std::vector of such structs
};

// Whether it holds numbers, which have a range.
constexpr bool is_numeric(Kind kind) {
    return kind == Kind::number || kind == Kind::whole || kind == Kind::per_string || kind == Kind::numbers ||
           kind == Kind::pair || kind == Kind::readings;
}

struct Group;

// How a member is reached without knowing its struct's type. `find` gives null where it is absent; `make`
// puts a new one there first. `group` is the table of an object or of the objects in a list.
struct Member {
    Kind kind = Kind::number;
    bool optional = false;
    void* (*find)(void* object) = nullptr;
    void* (*make)(void* object) = nullptr;
    const Group& (*group)() = nullptr;
};

struct Range {
    double low = 0.0;
    double high = 0.0;
    int digits = 0; // after the decimal point, when the range is told
};

// One σ of a field, a share of its value or so much in its own unit.
struct Sigma {
    double share = 0.0;
    double absolute = 0.0;
};
// How far off a value may be: usual (a guess: twice that), and where it was measured.
struct Prior {
    std::optional<Unknown> unknown{}; // that stands for this field
    Sigma usual{};                    // all zero: taken as known
    Sigma measured{};
};

using Holds = bool (*)(const void* object); // something about the struct that a field stands in

struct Field {
    std::string_view key{};
    Member member{};
    Range range{};
    std::span<const std::string_view> names{};
    Holds left_out = nullptr;
    Holds there = nullptr;
    Prior prior{};
    char since = 'A';

    bool is_there(const void* object) const { return !there || there(object); }
    bool may_be_left_out(const void* object) const {
        return member.optional || (left_out && left_out(object));
    }
    // The member's value, or null where it is absent.
    const void* value_in(const void* object) const { return member.find(const_cast<void*>(object)); }
    void* value_in(void* object) const { return member.find(object); }
};

// The fields of one struct, one that has every default, and, where such structs stand in lists, how to handle
// a std::vector of them.
struct Group {
    std::span<const Field> fields{};
    const void* (*usual)() = nullptr;
    std::size_t (*size)(const void* list) = nullptr;
    void (*resize)(void* list, std::size_t size) = nullptr;
    void* (*at)(void* list, std::size_t index) = nullptr;
};

// The table of a struct; each has its own specialization.
template <class T>
const Group& group_of();
template <>
const Group& group_of<Setup>();
template <>
const Group& group_of<GuitarSetup>();
template <>
const Group& group_of<BridgeSetup>();
template <>
const Group& group_of<BaySetup>();
template <>
const Group& group_of<SpringSetup>();
template <>
const Group& group_of<OtherSprings>();
template <>
const Group& group_of<PlacedSpring>();
template <>
const Group& group_of<StringSetup>();
template <>
const Group& group_of<NowSetup>();
template <>
const Group& group_of<NextSetup>();
template <>
const Group& group_of<Reading>();
template <>
const Group& group_of<OwnStrings>();
template <>
const Group& group_of<BenchSetup>();
template <>
const Group& group_of<BenchBefore>();
template <>
const Group& group_of<Answer>();
template <>
const Group& group_of<StepDone>();

// The field at a path that goes through single objects only, as "bridge.block_depth_mm" in the table of the
// guitar; null where there is none.
const Field* find_field(const Group& group, std::string_view path);
// The number at such a path of a guitar; null where there is none, or it is no single number.
double* number_at(GuitarSetup& guitar, std::string_view path);
const double* number_at(const GuitarSetup& guitar, std::string_view path);

// Whether a basis may be given for it: a measure of the guitar, not a count.
bool takes_basis(const Field& field);
// "mm", "N/mm", "N", "g" or, where people have no word for it, "".
std::string_view unit_of(const Field& field);

// The fields of the guitar that have a prior, with their paths under it.
struct UncertainField {
    std::string path;
    const Field* field = nullptr;
};
const std::vector<UncertainField>& uncertain_fields();

// Whether two values of a field are the same.
bool same_value(const Field& field, const void* a, const void* b);
// Choices by their number, whatever their enum.
int choice_in(const void* value);
void set_choice(void* value, int choice);

} // namespace counterpull
