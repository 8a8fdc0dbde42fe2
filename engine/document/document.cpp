#include "engine/document/document.h"

#include "engine/document/document_rules.h"

namespace counterpull {

void check_setup(const Setup& setup, Problems& already) {
    check_ranges(group_of<Setup>(), &setup, already);
    check_rules(setup, already);
}

} // namespace counterpull
