// Any bytes as a set-up document: read or refused, and what is read is written and read again as the same.
#include "engine/document/document.h"

#include <cstdlib>

extern "C" int LLVMFuzzerTestOneInput(const unsigned char* bytes, std::size_t size) {
    using namespace counterpull;
    const SetupRead read = read_setup({reinterpret_cast<const char*>(bytes), size});
    if (!read.setup) {
        if (read.problems.none())
            std::abort(); // refused without a reason
        return 0;
    }
    const SetupRead again = read_setup(write_setup(*read.setup));
    if (!again.setup || *again.setup != *read.setup)
        std::abort();
    return 0;
}
