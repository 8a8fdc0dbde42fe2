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
                         "language|ui|measure|check|web)\\.[a-z0-9_.]*)\"");
    for (const char* folder : {"engine", "shell", "web/page"})
        for (const auto& entry :
             std::filesystem::recursive_directory_iterator(std::string(PROJECT_ROOT) + "/" + folder)) {
            const auto kind = entry.path().extension();
            if (kind != ".cpp" && kind != ".h" && kind != ".js")
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
        CHECK((used.contains(key) || key == "language.name" || key == "language.decimal"));
        CHECK_FALSE(text.empty());
    }
}

TEST_CASE("a missing word shows its key, and values are filled in wherever they stand") {
    CHECK(english().text("no.such.key") == "no.such.key");
    CHECK(english().say(Phrase("refused.range")
                            .with("found", "0.46")
                            .with("low", number(0.005, 3))
                            .with("high", number(0.15, 3))) == "0.46 is outside 0.005 to 0.150");
    // A value that looks like a place is not filled in again.
    CHECK(english().say(Phrase("refused.not_number").with("found", "{found}")) == "{found} is not a number");
}

TEST_CASE("lengths and forces are said in the reader's units") {
    Words words("en");
    const Phrase read = Phrase("answer.back_in_tune")
                            .with("tail", signed_millimetres(-1.0, 1))
                            .with("spread", millimetres(2.54, 1));
    CHECK(words.say(read) == "Back in tune, the tail reads −1.0 mm, give or take 2.5 mm at the first try.");
    CHECK(words.say(newtons(444.8, 0)) == "445 N");
    CHECK(words.say(document_value(-40, "tail_mm")) == "-40");
    words.set_units({LengthUnit::inch, ForceUnit::lbf});
    CHECK(words.say(read) ==
          "Back in tune, the tail reads −0.039 in, give or take 0.100 in at the first try.");
    CHECK(words.say(newtons(444.8221615, 0)) == "100.0 lbf"); // one pound-force is 4.4482216152605 N
    CHECK(words.say(document_value(2.4, "rate_n_mm", 1)) == "13.7 lbf/in");
    CHECK(words.say(document_value(25.4, "tail_mm")) == "1 in");
    words.set_units({LengthUnit::mm, ForceUnit::kgf});
    CHECK(words.say(newtons(98.0665, 0)) == "10.0 kgf"); // standard gravity, CGPM 1901
    CHECK(words.say(signed_millimetres(0.001, 1)) == "0.0 mm");
}

TEST_CASE("a language without a file answers in English") {
    CHECK(Words("xx").all() == english().all());
}
