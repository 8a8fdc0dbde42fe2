// The ranges of the set-up document's numbers: the one table. They are generous: they refuse slips (a gauge
// of 0.46, a scale in inches), not odd guitars.
#pragma once

#include <string_view>

namespace counterpull {

struct Range {
    std::string_view field; // the group and the key, as "bridge.block_depth_mm"
    double low;
    double high;
    int digits; // after the decimal point, when the range is told
};

// The range of a field; its field must be in the table.
const Range& range_of(std::string_view field);

} // namespace counterpull
