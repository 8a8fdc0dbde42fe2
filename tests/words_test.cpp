#include "engine/words.h"
#include "tests/support.h"

#include <filesystem>
#include <regex>
#include <set>

using namespace counterpull;
using namespace counterpull::test;

namespace {

// Every text key that stands in a source file of engine or shell.
std::set<std::string> keys_in_sources() {
    std::set<std::string> keys;
    const std::regex key("\"((?:refused|reason|warning|answer|instead|unknown|choice|sets|tuning|sheet|"
                         "caution|text|usage|unit|"
                         "language|ui|measure|check)\\.[a-z0-9_.]*)\"");
    for (const char* folder : {"engine", "shell"})
        for (const auto& entry :
             std::filesystem::recursive_directory_iterator(std::string(PROJECT_ROOT) + "/" + folder)) {
            if (entry.path().extension() != ".cpp" && entry.path().extension() != ".h")
                continue;
            const std::string text =
                read_file(std::filesystem::relative(entry.path(), PROJECT_ROOT).string());
            for (auto it = std::sregex_iterator(text.begin(), text.end(), key); it != std::sregex_iterator();
                 ++it)
                keys.insert((*it)[1]);
        }
    // Put together from parts in answer.cpp.
    for (const char* springs : {"same", "more", "add", "remove"})
        for (const char* way : {"tighten", "loosen", "leave"})
            keys.insert(std::string("answer.") + springs + "." + way);
    std::erase_if(keys, [](const std::string& k) { return k.back() == '.'; });
    return keys;
}

} // namespace

TEST_CASE("every word that is used is there, and none is there unused") {
    const std::set<std::string> used = keys_in_sources();
    REQUIRE(used.size() > 50);
    const Words words("en");
    for (const std::string& key : used) {
        INFO(key);
        CHECK(words.all().contains(key));
    }
    for (const auto& [key, text] : words.all()) {
        INFO(key);
        CHECK((used.contains(key) || key == "language.name"));
        CHECK_FALSE(text.empty());
    }
}

TEST_CASE("a missing word shows its key, and values are filled in wherever they stand") {
    CHECK(english().text("no.such.key") == "no.such.key");
    CHECK(english().say("refused.range", {{"found", "0.46"}, {"low", "0.005"}, {"high", "0.150"}}) ==
          "0.46 is outside 0.005 to 0.150");
    // A value that looks like a place is not filled in again.
    CHECK(english().say("refused.not_number", {{"found", "{found}"}}) == "{found} is not a number");
}

TEST_CASE("a language without a file answers in English") {
    CHECK(Words("xx").all() == english().all());
}
