// Any bytes as a link: opened or refused, and what is opened makes a link that opens as the same.
#include "engine/document/link.h"

#include <cstdlib>

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* bytes, std::size_t size) {
    using namespace counterpull;
    const SetupRead read = open_link({reinterpret_cast<const char*>(bytes), size});
    if (!read.setup) {
        if (read.problems.none())
            std::abort();
        return 0;
    }
    const SetupRead again = open_link(link_of(*read.setup));
    if (!again.setup || *again.setup != *read.setup)
        std::abort();
    return 0;
}
