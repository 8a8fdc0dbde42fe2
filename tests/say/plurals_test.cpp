#include "engine/say/plurals.h"

#include "engine/base/embedded.h"
#include "engine/say/answer.h"
#include "engine/say/names.h"
#include "engine/say/report_text.h"
#include "engine/say/whatif_topics.h"
#include "engine/say/work_sheet.h"
#include "engine/whatif/whatif.h"
#include "tests/support.h"

#include <cstdio>
#include <map>
#include <regex>
#include <set>
#include <sstream>

using namespace counterpull;
using namespace counterpull::test;

namespace {

struct Rules {
    std::string locale; // as browsers call it
    std::string file;   // what a word file would hold
};

std::string file_of(const std::string& plurals, const std::string& last) {
    return R"({"language.plurals": ")" + plurals + R"(", "language.comma": ", ", "language.and": ")" + last +
           R"("})";
}

// Some with what the languages that there are have not, and those. Rules: Unicode CLDR 48,
// plurals.xml.
std::vector<Rules> all_rules() {
    std::vector<Rules> all = {
        {"lv",
         file_of("zero n % 10 = 0 or n % 100 = 11..19 or v = 2 and f % 100 = 11..19|one n % 10 = 1 and n "
                 "% 100 != 11 or v = 2 and f % 10 = 1 and f % 100 != 11 or v != 2 and f % 10 = 1",
                 " un ")},
        {"lt",
         file_of("one n % 10 = 1 and n % 100 != 11..19|few n % 10 = 2..9 and n % 100 != 11..19|many f != 0",
                 " ir ")},
        {"ar", file_of("zero n = 0|one n = 1|two n = 2|few n % 100 = 3..10|many n % 100 = 11..99", "")},
    };
    for (const Language& language : languages())
        all.push_back({language.code == "en" ? "en-GB" : std::string(language.code),
                       std::string(embedded_words(language.code))});
    return all;
}

// What node's Intl says, which has Unicode's data (intl_table.mjs).
std::vector<std::vector<std::string>> table_of(const std::string& locale) {
    std::vector<std::vector<std::string>> table;
    const std::string command = "node " + std::string(PROJECT_ROOT) + "/tests/say/intl_table.mjs " + locale;
    std::FILE* pipe = popen(command.c_str(), "r");
    REQUIRE(pipe);
    std::string text;
    char part[4096];
    while (const std::size_t got = std::fread(part, 1, sizeof part, pipe))
        text.append(part, got);
    REQUIRE(pclose(pipe) == 0);
    std::istringstream lines(text);
    for (std::string line; std::getline(lines, line);) {
        std::istringstream cells(line);
        auto& row = table.emplace_back();
        for (std::string cell; std::getline(cells, cell, '\t');)
            row.push_back(cell);
        REQUIRE(row.size() == 4);
    }
    REQUIRE(table.size() > 200);
    return table;
}

// The places of a text that count, by name, each with its forms; the first word of a form says when it is
// taken.
std::multimap<std::string, std::vector<std::string>> counting_places(const std::string& text) {
    static const std::regex place("\\{([a-z_]+)\\|([^}]*)\\}");
    std::multimap<std::string, std::vector<std::string>> places;
    for (auto it = std::sregex_iterator(text.begin(), text.end(), place); it != std::sregex_iterator();
         ++it) {
        std::istringstream forms((*it)[2]);
        std::vector<std::string> all;
        for (std::string form; std::getline(forms, form, '|');)
            all.push_back(form);
        places.emplace((*it)[1], std::move(all));
    }
    return places;
}

} // namespace

TEST_CASE("numbers take the form that browsers have for them, and lists are joined as they join them") {
    for (const Rules& language : all_rules()) {
        const Words words(language.locale, language.file);
        REQUIRE(words.all().contains("language.plurals"));
        std::set<std::string> taken;
        for (const auto& row : table_of(language.locale)) {
            INFO(language.locale << " " << row[2]);
            if (row[0] == "plural") {
                CHECK(plural_category(words.text("language.plurals"), row[2]) == row[3]);
                taken.insert(row[3]);
            } else if (!words.text("language.and").empty()) { // Arabic, here for its rules, has another comma
                List list;
                std::istringstream things(row[2]);
                for (std::string thing; things >> thing;)
                    list.things.push_back({Part(thing)});
                CHECK(words.say(list) == row[3]);
            }
        }
        CHECK(taken.size() >= 2);
    }
}

TEST_CASE("a number counts as it is said: with its sign, its unit, its decimals or its fraction") {
    const std::string_view english = "one i = 1 and v = 0",
                           polish = "one i = 1 and v = 0|few v = 0 and i % 10 = 2..4";
    for (const char* one : {"1", "+1", "−1", "-1", "±1", "1 mm", "about 1"})
        CHECK(plural_category(english, one) == "one");
    for (const char* other : {"0", "1.0", "1,0", "1.5 mm", "1¼", "½", "11", "2", "", "none"})
        CHECK(plural_category(english, other) == "other");
    CHECK(plural_category(polish, "2") == "few");
    CHECK(plural_category(polish, "2¼") ==
          "other"); // as of 2.25: CLDR's Polish samples of "other" are fractions
    CHECK(plural_category(polish, "2,25") == "other");
    CHECK(plural_category("", "1") == "other");
    // Rules with a piece missing decide as far as they go.
    for (const char* torn : {"one", "one i = 1..", "one i % 0 = 1", "|| |=|"})
        CHECK(plural_category(torn, "7") == "other");
}

TEST_CASE("a counting text has one form for each category of its language, and no other") {
    for (const Language& language : languages()) {
        const Words words(language.code);
        std::set<std::string> needed; // millions of springs are not counted here
        for (int n = 0; n < 1000; ++n)
            for (const char* decimals : {"", ".0", ".5", ".12"})
                needed.emplace(plural_category(words.text("language.plurals"), std::to_string(n) + decimals));
        int counting = 0;
        for (const auto& [key, text] : words.all())
            for (const auto& [name, forms] : counting_places(text)) {
                INFO(language.code << " " << key << " {" << name << "}");
                ++counting;
                std::set<std::string> categories;
                for (const std::string& form : forms) {
                    const std::string when = form.substr(0, form.find(' '));
                    CHECK(form.size() > when.size());
                    CHECK(std::count(form.begin(), form.end(), '#') <= 1);
                    if (when[0] != '=')
                        CHECK(categories.insert(when).second);
                    else // a number of its own stands before the category it would else take
                        CHECK_FALSE(categories.contains(
                            std::string(plural_category(words.text("language.plurals"), when.substr(1)))));
                }
                CHECK(categories == needed);
                CHECK(forms.back().starts_with("other "));
            }
        CHECK(counting > 40);
    }
}

TEST_CASE("what counts in English counts in every language, where the word changes with the number") {
    // "Cent" and "Haken" do not, nor what is said of springs fitted: "diese mitzählen".
    const std::set<std::string> same = {"refused.owned_fewer_than_fitted"};
    for (const Language& language : languages()) {
        const Words words(language.code);
        for (const auto& [key, text] : english().all())
            for (const auto& [name, forms] : counting_places(text)) {
                INFO(language.code << " " << key << " {" << name << "}");
                REQUIRE(words.all().contains(key));
                const std::string& said = words.all().at(key);
                const std::string place = "{" + name + "}";
                if (said.find(place + " Cent") == std::string::npos &&
                    said.find("Haken " + place) == std::string::npos && !same.contains(key))
                    CHECK(counting_places(said).contains(name));
            }
    }
}

namespace {

// A plural right after one, or one thing told as several.
const std::map<std::string, std::regex> wrong = {
    {"en",
     std::regex(
         "(^|[^0-9.,])\\b(1|one) (springs|hooks|holes|turns|cents|semitones|strings|screws|passes|are)\\b"
         "|\\b(hooks|holes) [0-9]+(?!,? [0-9]|, | and|[0-9])")},
    {"de", std::regex(
               "(^|[^0-9.,])\\b(1|eine|einen|einer) (Federn|Haken sind|Umdrehungen|Halbtöne|Saiten|Schrauben|"
               "Durchgänge|sind)\\b|\\b(den Haken|die Haken|den Löchern|die Löcher|Löcher) [0-9]+(?!, | "
               "und|[0-9])")},
    {"es",
     std::regex(
         "(^|[^0-9.,])\\b(1|un|una) (muelles|vueltas|semitonos|cuerdas|tornillos|pasadas|ganchos|son)\\b|"
         "\\b(los ganchos|los agujeros) [0-9]+(?!, | y|[0-9])")},
    {"fr", std::regex(
               "(^|[^0-9.,])\\b(1|un|une) (ressorts|tours|demi-tons|cordes|vis sont|passes|crochets|sont)\\b|"
               "\\b(les crochets|les trous) [0-9]+(?!, | et|[0-9])")},
    {"it", std::regex("(^|[^0-9.,])\\b(1|un|una) (molle|giri|semitoni|corde|viti|passate|ganci|sono)\\b|"
                      "\\b(i ganci|i fori) [0-9]+(?!, | e|[0-9])")},
    {"pl",
     std::regex(
         "(^|[^0-9.,])\\b(1|jeden|jedna|jedną|jedno) (sprężyny|sprężyn|obroty|obrotów|półtony|"
         "struny|strun|śruby|śrub|haki|haków|są)(?=[ .,;:]|$)|\\b(haki|haków|otwory) [0-9]+(?!, | i|[0-9])")},
    {"pt",
     std::regex("(^|[^0-9.,])\\b(1|um|uma) (molas|voltas|semitons|cordas|parafusos|passadas|ganchos|são)\\b|"
                "\\b(os ganchos|os furos) [0-9]+(?!, | e|[0-9])")},
};

void check_counts(const Words& words, const std::string& said) {
    INFO(said);
    CHECK_FALSE(std::regex_search(said, wrong.at(words.language())));
}

// All that is said of a set-up.
std::string all_said(const Setup& setup, const Words& words) {
    const Report report = answered(setup);
    std::string said = report_text(report, words);
    if (report.next) {
        for (const Way way : {Way{}, Way{true, false}, Way{false, true}})
            said += sheet_text(work_sheet(report, way), words);
        said += whatif_text(report, whatif(report.solution), words);
    }
    for (const Advice& advice : report.solution.advice) {
        said += words.say(choice_of(advice.springs)) + "\n";
        for (const Phrase& reason : reasons_of(setup, advice))
            said += words.say(reason) + "\n";
    }
    return said;
}

} // namespace

TEST_CASE("no text says \"1 springs\", whatever its numbers are") {
    CHECK(std::regex_search("needs 1 springs", wrong.at("en")));
    CHECK(std::regex_search("Then hooks 3 are taken", wrong.at("en")));
    CHECK_FALSE(std::regex_search("on hooks 1, 3 and 5; 11 springs, 0.1 turns", wrong.at("en")));
    for (const auto& [language, miscounted] :
         std::map<std::string, std::string>{{"de", "braucht 1 Federn"},
                                            {"es", "necesita 1 muelles"},
                                            {"fr", "il faut 1 ressorts"},
                                            {"it", "servono 1 molle"},
                                            {"pl", "potrzeba 1 sprężyny"},
                                            {"pt", "precisa de 1 molas"}})
        CHECK(std::regex_search(miscounted, wrong.at(language)));
    for (const Language& language : languages()) {
        const Words words(language.code);
        for (const auto& [key, text] : words.all()) {
            static const std::regex place("\\{([a-z_]+)[|}]");
            for (const bool list : {false, true}) {
                Phrase phrase(key);
                for (auto it = std::sregex_iterator(text.begin(), text.end(), place);
                     it != std::sregex_iterator(); ++it) {
                    List one;
                    one.things.push_back({Part(1)});
                    phrase.values.push_back({(*it)[1], {list ? Part(one) : Part(1)}});
                }
                check_counts(words, words.say(phrase));
            }
        }
    }
}

TEST_CASE("nothing that is said of a guitar miscounts one") {
    std::vector<Setup> setups;
    for (const std::string& name : example_names())
        setups.push_back(example(name));
    Setup setup = light_set_level();
    setup.guitar.springs_owned = 3;
    setup.next.strings = set_of("56w 44w 34w 22 16 12"); // more springs than there are, or lower
    setups.push_back(setup);
    setup.guitar.bay.turns_out_left = 1.0; // and hardly any thread
    setups.push_back(setup);
    setup = light_set_level();
    setup.now.springs = {{2, 2, {}}}; // one stiff spring
    setup.guitar.spring.rate_n_mm = 9.0;
    setup.guitar.springs_owned = 1;
    setup.guitar.bay.turns_in_left = 1.0;
    setups.push_back(setup);
    setup.next.strings = set_of("46w 36w 26w 17 13 10");
    setups.push_back(setup);
    for (const Setup& one : setups)
        for (const Language& language : languages()) {
            const Words words(language.code);
            std::istringstream lines(all_said(one, words));
            for (std::string line; std::getline(lines, line);)
                check_counts(words, line);
        }
}

TEST_CASE("springs are counted in words, as a repairer counts them") {
    const Words german("de");
    auto both = [&](const Phrase& phrase) { return english().say(phrase) + " / " + german.say(phrase); };
    auto headline = [&](const char* key, int count) {
        return both(Phrase(key).with("count", count).with("turns", Turns{1.0}).with("range", ""));
    };
    CHECK(headline("answer.remove.tighten", 2) ==
          "Take out two springs, then tighten each claw screw 1 turn clockwise. / Erst zwei Federn "
          "aushängen, dann "
          "jede Krallenschraube 1 Umdrehung im Uhrzeigersinn hineindrehen.");
    CHECK(headline("answer.add.leave", 1) ==
          "Add a spring, and leave the claw as it is. / Noch eine Feder einhängen "
          "und die Kralle lassen, wie sie ist.");
    CHECK(both(Phrase("reason.not_owned").with("needed", 2).with("owned", 1)) ==
          "needs two springs; one is there / braucht zwei Federn; eine ist da");
    CHECK(
        both(Phrase("reason.thread_in").with("turns", number(3.4, 1)).with("left", 1)) ==
        "the thread runs short: 3.4 turns in, and only 1 is left / das Gewinde reicht nicht: 3,4 Umdrehungen "
        "hinein, und nur 1 ist übrig");
    CHECK(both(Phrase("instead.lower").with("semitones", 1).with("count", 3)) ==
          "It would float tuned a semitone lower, on three of the springs there are. / Einen Halbton tiefer "
          "gestimmt "
          "würde sie schweben, auf drei der vorhandenen Federn.");
    for (const auto& [turns, said] :
         std::vector<std::pair<double, const char*>>{{0.0, "0 turns / 0 Umdrehungen"},
                                                     {0.375, "⅜ turn / ⅜ Umdrehung"},
                                                     {-0.5, "½ turn / ½ Umdrehung"},
                                                     {1.0, "1 turn / 1 Umdrehung"},
                                                     {1.125, "1⅛ turns / 1⅛ Umdrehungen"},
                                                     {2.25, "2¼ turns / 2¼ Umdrehungen"},
                                                     {3.0, "3 turns / 3 Umdrehungen"}})
        CHECK(english().say(Turns{turns}) + " / " + german.say(Turns{turns}) == said);
}

TEST_CASE("the answer says how many springs come out") {
    Setup setup = light_set_level();
    setup.now.springs = {{0, 0, {}}, {1, 1, {}}, {2, 2, {}}, {3, 3, {}}, {4, 4, {}}};
    setup.now.strings = set_of("54w 42w 32w 20 16 12");
    setup.next.springs = {{0, 0, {}}, {2, 2, {}}, {4, 4, {}}}; // as its player has chosen
    const Report report = answered(setup);
    const std::string said = english().say(answer_sentence(report));
    INFO(said);
    REQUIRE(report.solution.advised().fits());
    CHECK(said.starts_with("Take out two springs, "));
}
