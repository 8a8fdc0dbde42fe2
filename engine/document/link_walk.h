// Every value of a set-up in the order of its table, for links: beside the same value of another set-up, its
// reference, from which a link tells it apart. Writer, reader and whoever counts differences are carriers
// that walk the same way.
#pragma once

#include "engine/document/fields.h"

#include <cstdint>
#include <string>

namespace counterpull {

inline constexpr char first_version = 'A';

// What takes or gives each value. Where it gives, the set-up walked becomes what it gives.
class Carrier {
  public:
    virtual ~Carrier() = default;
    // A number, and what it is in the reference, 0 where that has none.
    virtual double number(double value, double usual) = 0;
    virtual void text(std::string& value) = 0;
    // Of a field that has a basis: its path.
    virtual void path(std::string& value) = 0;
    // What was given cannot be: no value, or no link. The walk then ends soon.
    virtual void fail() = 0;
    virtual bool failed() const = 0;
};

// Walks the fields that links of a version carry. `reference` may be null: all its values are then 0.
void walk_link(const Group& group, void* object, const void* reference, char version, Carrier& carrier);

// The last version that a field of a table, or of the tables within, came with.
char newest_version(const Group& group);
// The first version whose links carry all that an object says: in fields of later ones it has only defaults.
char version_needed(const Group& group, const void* object);

} // namespace counterpull
