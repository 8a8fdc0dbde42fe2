#include "tests/support.h"

#include <filesystem>

using namespace counterpull::test;

TEST_CASE("the engine knows no screen, no window and no browser") {
    int files = 0;
    for (const auto& entry : std::filesystem::directory_iterator(std::string(PROJECT_ROOT) + "/engine")) {
        if (entry.path().extension() != ".h" && entry.path().extension() != ".cpp")
            continue;
        ++files;
        const std::string text = read_file("engine/" + entry.path().filename().string());
        for (const char* foreign :
             {"SDL", "imgui", "emscripten", "shell/", "web/", "<fstream>", "<iostream>"}) {
            INFO(entry.path().filename() << " has " << foreign);
            CHECK(text.find(std::string("#include <") + foreign) == std::string::npos);
            CHECK(text.find(std::string("#include \"") + foreign) == std::string::npos);
            CHECK(text.find(std::string("#include ") + foreign) == std::string::npos);
        }
    }
    CHECK(files > 30);
}
