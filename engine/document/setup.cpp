#include "engine/document/setup.h"

#include <algorithm>

namespace counterpull {

int springs_owned(const Setup& setup) {
    return setup.guitar.springs_owned.value_or(std::max(5, static_cast<int>(setup.now.springs.size())));
}

bool nut_has_clamps(const GuitarSetup& guitar) {
    return guitar.nut_clamps.value_or(guitar.nut_locked);
}

double return_cents(const GuitarSetup& guitar) {
    if (guitar.bridge.return_cents)
        return *guitar.bridge.return_cents;
    if (guitar.bridge.kind == Pivot::knife_edge)
        return 3.0;
    return guitar.bridge.kind == Pivot::screw_plate ? 10.0 : 6.0;
}

bool is_on_strings(const Reading& entry, Which which) {
    return !entry.own && entry.strings == which;
}

bool is_in_tuning(const Reading& entry, Which which) {
    return !entry.own && entry.tuning == which;
}

const std::vector<StringSetup>& fitted_strings(const Setup& setup) {
    if (setup.log.empty())
        return setup.now.strings;
    const Reading& last = setup.log.back();
    return last.own                      ? last.own->strings
           : last.strings == Which::next ? setup.next.strings
                                         : setup.now.strings;
}

bool wanted_strings_are_on(const Setup& setup) {
    return (setup.now.in_tune || !setup.log.empty()) && fitted_strings(setup) == setup.next.strings;
}

} // namespace counterpull
