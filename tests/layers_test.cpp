#include "tests/support.h"

#include <filesystem>
#include <map>
#include <set>

using namespace counterpull::test;

namespace {

namespace fs = std::filesystem;

// The rooms of the engine, and what each may know besides itself: only what lies below it.
const std::map<std::string, std::set<std::string>> rooms = {
    {"base", {}},
    {"mechanics", {"base"}},
    {"hearing", {"base", "mechanics"}},
    {"document", {"base", "mechanics"}},
    {"belief", {"base", "mechanics", "document"}},
    {"advice", {"base", "mechanics", "document", "belief"}},
    {"whatif", {"base", "mechanics", "document", "belief", "advice"}},
    {"say", {"base", "mechanics", "hearing", "document", "belief", "advice", "whatif"}},
};

struct Source {
    std::string room, path;
    std::set<std::string> includes; // as they are written, without their quotes
};

std::set<std::string> includes_of(const std::string& text) {
    std::set<std::string> all;
    const std::string word = "#include ";
    for (std::size_t at = text.find(word); at != std::string::npos; at = text.find(word, at + 1)) {
        const std::size_t from = at + word.size() + 1;
        all.insert(text.substr(from, text.find_first_of(">\"\n", from) - from));
    }
    return all;
}

std::vector<Source> engine_sources() {
    std::vector<Source> all;
    for (const auto& entry : fs::recursive_directory_iterator(std::string(PROJECT_ROOT) + "/engine")) {
        const fs::path path = fs::relative(entry.path(), PROJECT_ROOT);
        if (path.extension() != ".h" && path.extension() != ".cpp" && path.extension() != ".in")
            continue;
        all.push_back(
            {path.parent_path().filename().string(), path.string(), includes_of(read_file(path.string()))});
    }
    return all;
}

} // namespace

TEST_CASE("the engine knows no screen, no window and no browser") {
    const std::vector<Source> sources = engine_sources();
    CHECK(sources.size() > 100);
    for (const Source& source : sources)
        for (const std::string& include : source.includes)
            for (const char* foreign :
                 {"SDL", "imgui", "emscripten", "shell/", "web/", "fstream", "iostream"}) {
                INFO(source.path << " includes " << include);
                CHECK(!include.starts_with(foreign));
            }
}

TEST_CASE("every room of the engine knows only the rooms below it") {
    std::map<std::string, int> files;
    for (const Source& source : engine_sources()) {
        INFO(source.path);
        REQUIRE(rooms.contains(source.room));
        ++files[source.room];
        for (const std::string& include : source.includes) {
            if (!include.starts_with("engine/"))
                continue;
            INFO("includes " << include);
            const std::string room = fs::path(include).parent_path().filename().string();
            CHECK((room == source.room || rooms.at(source.room).contains(room)));
        }
    }
    for (const auto& [room, below] : rooms) {
        INFO(room);
        CHECK(files[room] >= 5);
    }
}

TEST_CASE("JSON's header is included only where JSON is read or written") {
    int found = 0;
    for (const Source& source : engine_sources()) {
        const bool json = source.includes.contains("nlohmann/json.hpp");
        found += json;
        INFO(source.path);
        CHECK(json == (source.path == "engine/document/json_text.h"));
        // And that one is for sources: of headers only two that are all JSON bring it along.
        if (source.includes.contains("engine/document/json_text.h"))
            CHECK((source.path.ends_with(".cpp") || source.path == "engine/document/document_reader.h" ||
                   source.path == "engine/say/springs_json.h"));
    }
    CHECK(found == 1);
}
