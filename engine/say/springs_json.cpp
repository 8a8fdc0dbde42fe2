#include "engine/say/springs_json.h"

namespace counterpull {

Json placed_json(const std::vector<PlacedSpring>& springs) {
    Json list = Json::array();
    for (const PlacedSpring& placed : springs) {
        Json entry = object_of({{"hook", placed.hook}, {"hole", placed.hole}});
        if (placed.spring)
            entry["spring"] = object_of({{"rate_n_mm", placed.spring->rate_n_mm},
                                         {"free_length_mm", placed.spring->free_length_mm},
                                         {"initial_tension_n", placed.spring->initial_tension_n},
                                         {"longest_mm", placed.spring->longest_mm}});
        list.push_back(std::move(entry));
    }
    return list;
}

} // namespace counterpull
