#include "engine/document/placed_springs.h"

#include <algorithm>

namespace counterpull {

const Arrangement& fitted_springs(const Setup& setup) {
    return setup.log.empty() ? setup.now.springs : setup.log.back().springs;
}

Arrangement evenly_placed(const BaySetup& bay, int count) {
    auto spread = [count](int i, std::size_t places) {
        return static_cast<int>((i + 0.5) * static_cast<double>(places) / count);
    };
    Arrangement placed;
    for (int i = 0; i < count; ++i)
        placed.push_back({spread(i, bay.hook_mm.size()), spread(i, bay.hole_mm.size()), std::nullopt});
    return placed;
}

int springs_moved(const Arrangement& from, const Arrangement& to) {
    auto missing = [](const Arrangement& these, const Arrangement& in) {
        return static_cast<int>(std::count_if(these.begin(), these.end(), [&](const PlacedSpring& spring) {
            return std::find(in.begin(), in.end(), spring) == in.end();
        }));
    };
    return std::max(missing(from, to), missing(to, from));
}

int springs_needed(const Arrangement& springs) {
    return static_cast<int>(std::count_if(springs.begin(), springs.end(),
                                          [](const PlacedSpring& placed) { return !placed.spring; }));
}

} // namespace counterpull
