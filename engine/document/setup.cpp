#include "engine/document/setup.h"

#include <algorithm>

namespace counterpull {

int springs_owned(const Setup& setup) {
    return setup.guitar.springs_owned.value_or(std::max(5, static_cast<int>(setup.now.springs.size())));
}

} // namespace counterpull
