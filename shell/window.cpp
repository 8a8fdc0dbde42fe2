// The desktop window: counterpull-window [SETUP.json]
#include "engine/document/presets.h"
#include "engine/say/refusal.h"
#include "shell/platform.h"

#include <fstream>
#include <iostream>
#include <iterator>

int main(int argc, char** argv) {
    using namespace counterpull;
    Setup setup = example_setup();
    if (argc > 1) {
        std::ifstream file(argv[1], std::ios::binary);
        const std::string text(std::istreambuf_iterator<char>(file), {});
        const SetupRead read = read_setup(text);
        if (!file || !read.setup) {
            std::cerr << "counterpull-window: " << argv[1] << ": "
                      << (read.problems.none() ? std::string(english().text("refused.unreadable"))
                                               : first_message(read.problems, english()))
                      << "\n";
            return 1;
        }
        setup = *read.setup;
    }
    Interface interface(std::move(setup));
    if (argc > 1)
        interface.set_whose(Whose::own);
    return run_window(interface);
}
