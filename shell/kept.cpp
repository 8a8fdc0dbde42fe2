#include "shell/kept.h"

namespace counterpull {

Kept::Entry& Kept::entry_of(std::string_view name, long revision) {
    auto found = all_.find(name);
    if (found == all_.end())
        found = all_.emplace(name, Entry{}).first;
    Entry& entry = found->second;
    if (entry.revision != revision)
        entry = {revision, nullptr};
    return entry;
}

} // namespace counterpull
