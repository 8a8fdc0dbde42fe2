#include "engine/say/words.h"

#include "engine/base/embedded.h"
#include "engine/document/presets.h"
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
    const std::regex key(
        "\"((?:refused|reason|warning|answer|instead|unknown|choice|sets|tuning|sheet|"
        "bench|hearing|listening|caution|text|usage|unit|"
        "language|ui|measure|term|part|why|compared|aims|check|web|start|whatif)\\.[a-z0-9_.]*)\"");
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
    // What a word of the trade means stands beside the word.
    for (const std::string& term : std::set<std::string>(keys))
        if (term.starts_with("term."))
            keys.insert(term + ".is");
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
        CHECK((used.contains(key) || key == "language.name" || key.starts_with("start.")));
        CHECK_FALSE(text.empty());
    }
}

TEST_CASE("the page's program is asked for no word that it is built without") {
    // engine/CMakeLists.txt leaves out what begins so; the page's scripts have their own "start." and
    // "listening." words.
    const std::regex asked("\"usage\\.[a-z_]+\"|say\\(\"(start|listening)\\.|\"text\", *\"start\\.");
    const std::regex drawn("\"(usage|start|listening)\\.[a-z_]+\"");
    int files = 0;
    for (const char* folder : {"engine", "shell", "web/page"})
        for (const auto& entry :
             std::filesystem::recursive_directory_iterator(std::string(PROJECT_ROOT) + "/" + folder)) {
            const std::string path = std::filesystem::relative(entry.path(), PROJECT_ROOT).string();
            const auto kind = entry.path().extension();
            if ((kind != ".cpp" && kind != ".h" && kind != ".js") || path == "shell/command.cpp" ||
                path == "engine/say/hearing_text.cpp") // a recording is the command line's
                continue;
            ++files;
            INFO(path);
            CHECK_FALSE(std::regex_search(read_file(path), kind == ".js" ? asked : drawn));
        }
    CHECK(files > 100);
    CHECK(std::regex_search(read_file("shell/command.cpp"), drawn));
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
    CHECK(Words("xx", "not JSON").language() == "en");
}

TEST_CASE("every language says all there is, with the same values in it") {
    const std::regex place("\\{([a-z_]+)[|}]");
    auto places = [&](const std::string& text) {
        return std::set<std::string>(std::sregex_token_iterator(text.begin(), text.end(), place, 1), {});
    };
    REQUIRE(languages().size() >= 2);
    for (const Language& language : languages()) {
        const Words words(language.code);
        CHECK(words.text("language.name") == language.name);
        for (const auto& [key, text] : english().all()) {
            INFO(language.code << " " << key);
            REQUIRE(words.all().contains(key));
            CHECK(places(words.all().at(key)) == places(text));
        }
        for (const auto& [key, text] : words.all())
            if (!key.starts_with("name.")) {
                INFO(language.code << " " << key);
                CHECK(english().all().contains(key));
            }
    }
}

// The blank before a double sign, and inside French quotation marks, breaks no line: French typographic
// practice, from memory.
TEST_CASE("no line of French begins with a sign, whatever its width") {
    const Words french("fr");
    const std::regex parted(" [:;?!]|«[ ]| »");
    CHECK(std::regex_search("Chevalet : bloc", parted));
    for (const auto& [key, text] : french.all())
        if (key != "language.plurals") {
            INFO(key << ": " << text);
            CHECK_FALSE(std::regex_search(text, parted));
        }
}

// Of a preset's name, what is more than figures and note letters is said in each language.
TEST_CASE("presets are called by names of the language") {
    std::set<std::string> names;
    auto add = [&](const auto& kind) {
        for (const auto& preset : kind)
            names.insert(preset.name);
    };
    add(presets().string_sets);
    add(presets().tunings);
    add(presets().bridges);
    add(presets().springs);
    add(presets().screws);
    add(presets().headstocks);
    add(presets().scales);
    names.insert(example_setup().title);
    REQUIRE(names.size() > 80);
    for (const std::string& name : names) {
        INFO(name);
        const bool words_in_it = std::regex_search(name, std::regex("[a-z]{2}|No"));
        for (const Language& language : languages())
            if (language.code != "en")
                CHECK(Words(language.code).all().contains("name." + name) == words_in_it);
    }
    for (const Language& language : languages()) {
        const Words words(language.code);
        for (const auto& [key, text] : words.all())
            if (key.starts_with("name.")) {
                INFO(language.code << " " << key);
                CHECK(names.contains(key.substr(5)));
            }
    }
}

TEST_CASE("notes are called as the language has them, and read without accents too") {
    const std::map<std::string, std::vector<std::string>> scales = {
        // C to B: the fixed names of Romance schools of music and the German ones that Polish has; from
        // memory.
        {"es", {"Do3", "Re3", "Mi3", "Fa3", "Sol3", "La3", "Si3"}},
        {"fr", {"Do3", "Ré3", "Mi3", "Fa3", "Sol3", "La3", "Si3"}},
        {"it", {"Do3", "Re3", "Mi3", "Fa3", "Sol3", "La3", "Si3"}},
        {"pl", {"C3", "D3", "E3", "F3", "G3", "A3", "H3"}},
        {"pt", {"Dó3", "Ré3", "Mi3", "Fá3", "Sol3", "Lá3", "Si3"}}};
    for (const auto& [language, names] : scales) {
        Words words(language);
        words.set_note_names(NoteNames::of_the_language);
        for (std::size_t i = 0; i < names.size(); ++i)
            for (int accidental = -2; accidental <= 2; ++accidental) {
                const Pitch pitch{"CDEFGAB"[i], accidental, 3};
                INFO(language << " " << words.say(pitch));
                CHECK(words.read_pitch(words.say(pitch)) == pitch);
                if (accidental == 0)
                    CHECK(words.say(pitch) == names[i]);
            }
    }
    Words words("pt");
    words.set_note_names(NoteNames::of_the_language);
    CHECK(words.read_pitch("re2") == Pitch{'D', 0, 2});
    CHECK(words.read_pitch("FA#4") == Pitch{'F', 1, 4});
    CHECK(words.read_pitch("LÁb2") == Pitch{'A', -1, 2});
    CHECK(words.read_pitch("E2") == Pitch{'E', 0, 2}); // no such name, so the document's
    CHECK_FALSE(words.read_pitch("dú2"));
}

TEST_CASE("German has its decimal comma and, where asked for, its note names") {
    Words german("de");
    CHECK(german.say(signed_millimetres(-1.04, 1)) == "−1,0 mm");
    CHECK(german.say(Pitch{'B', -1, 2}) == "Bb2");
    CHECK(german.has_own_note_names());
    CHECK_FALSE(english().has_own_note_names());
    german.set_note_names(NoteNames::of_the_language);
    // The German names of all 35 spellings: music theory textbooks; here from memory.
    CHECK(german.say(Pitch{'B', -1, 2}) == "B2");
    CHECK(german.say(Pitch{'B', 0, 2}) == "H2");
    CHECK(german.say(Pitch{'E', -1, 4}) == "Es4");
    CHECK(german.say(Pitch{'A', -2, 3}) == "Asas3");
    CHECK(german.say(Pitch{'F', 2, 3}) == "Fisis3");
    CHECK(german.say(Parts{"a ", Pitch{'C', 1, 3}, " b"}) == "a Cis3 b");
    for (int key = lowest_key; key <= highest_key; ++key) {
        const Pitch pitch = pitch_of_key(key);
        CHECK(german.read_pitch(german.say(pitch)) == pitch);
    }
    for (const char letter : {'C', 'D', 'E', 'F', 'G', 'A', 'B'})
        for (int accidental = -2; accidental <= 2; ++accidental) {
            const Pitch pitch{letter, accidental, 3};
            CHECK(german.read_pitch(german.say(pitch)) == pitch);
        }
    CHECK(german.read_pitch("h2") == Pitch{'B', 0, 2});
    CHECK(german.read_pitch("Bb2") == Pitch{'B', -1, 2}); // no German name, so the document's
    CHECK(german.read_pitch("F#3") == Pitch{'F', 1, 3});
    CHECK_FALSE(german.read_pitch("H"));
    CHECK_FALSE(german.read_pitch(""));
    CHECK_FALSE(english().read_pitch("H2"));
}
