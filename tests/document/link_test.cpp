#include "engine/document/link.h"
#include "engine/say/refusal.h"
#include "tests/reference/random_setup.h"
#include "tests/support.h"

#include <nlohmann/json.hpp>

#include <algorithm>
#include <cctype>
#include <cmath>
#include <random>
#include <regex>

using namespace counterpull;
using namespace counterpull::test;

namespace {

bool plain(const std::string& link) {
    return std::all_of(link.begin(), link.end(), [](char c) {
        return std::isalnum(static_cast<unsigned char>(c)) || c == '-' || c == '_';
    });
}

} // namespace

TEST_CASE("a link opens as the set-up that it was made of, to the last digit") {
    for (const std::string& name : example_names()) {
        const Setup setup = example(name);
        const std::string link = link_of(setup);
        INFO(name << ": " << link);
        CHECK(plain(link));
        CHECK(std::isalnum(static_cast<unsigned char>(link.back())));
        const SetupRead read = open_link(link);
        REQUIRE(read.setup);
        CHECK(*read.setup == setup);
        CHECK(open_link("#" + link).setup == setup);
        CHECK(open_link("https://example.org/counterpull/#" + link).setup == setup);
    }
    for (std::uint64_t seed = 0; seed < 500; ++seed) {
        const SetupRead document = read_setup(reference::random_setup(seed).dump());
        REQUIRE(document.setup);
        const SetupRead read = open_link(link_of(*document.setup));
        INFO("seed " << seed);
        REQUIRE(read.setup);
        CHECK(*read.setup == *document.setup);
    }
}

TEST_CASE("six strings, no readings and a plain title of forty characters stay under three hundred") {
    for (const std::string& name : example_names()) {
        Setup setup = example(name);
        setup.log.clear();
        setup.title = "Forty letters are enough for most titles";
        CHECK(setup.title.size() == 40);
        CHECK(link_of(setup).size() < 170);
    }
    // Every number measured anew, to a tenth or a thousandth of an inch; no preset fits.
    Setup setup = example("lower-and-heavier");
    setup.title = "Forty letters are enough for most titles";
    GuitarSetup& guitar = setup.guitar;
    guitar.scale_mm.values = {648.3};
    guitar.headstock_mm.values = {41.5, 66.5, 91.5, 117.5, 143.5, 170.5};
    guitar.bridge.saddle_height_mm.values = {8.1, 8.3, 8.6, 8.7, 8.4, 8.2};
    guitar.bridge.saddle_setback_mm.values = {16.3, 15.2, 14.4, 13.7, 12.6, 11.3};
    guitar.bridge.anchor_mm.values = {8.3};
    guitar.bridge.block_depth_mm = 38.7;
    guitar.bridge.block_setback_mm = 9.6;
    guitar.bridge.tail_mm = 51.3;
    guitar.bay.claw_depth_mm = 37.4;
    guitar.bay.screw_pitch_mm = 1.83;
    guitar.spring = {2.57, 61.4, 5.3, 97.5};
    guitar.basis = {{"bridge.block_depth_mm", Basis::measured}, {"spring.rate_n_mm", Basis::measured}};
    for (std::size_t i = 0; i < 6; ++i) {
        // Half a thousandth and more, as written.
        setup.now.strings[i].gauge_in = std::round(1e4 * setup.now.strings[i].gauge_in + 5.0) / 1e4;
        setup.next.strings[i].gauge_in = std::round(1e4 * setup.next.strings[i].gauge_in + 15.0) / 1e4;
    }
    setup.next.tuning = notes_of("C#2 F#2 B2 E3 G#3 C#4");
    setup.now.tail_mm = -1.3;
    INFO(link_of(setup).size());
    CHECK(link_of(setup).size() < 300);
    Problems problems;
    check_setup(setup, problems);
    CHECK(problems.none());
    CHECK(open_link(link_of(setup)).setup == setup);
}

TEST_CASE("links once handed out open for ever") {
    const auto golden = nlohmann::json::parse(read_file("tests/golden/links.json"));
    CHECK(golden.size() >= 7);
    for (const auto& [name, link] : golden.items()) {
        const SetupRead read = open_link(link.get<std::string>());
        INFO(name);
        REQUIRE(read.setup);
        CHECK(*read.setup == example(name));
    }
}

TEST_CASE("links of each field that came with version B open for ever, and are still made so") {
    // Each as a change to an example: a JSON merge patch (RFC 7396).
    const auto golden = nlohmann::json::parse(read_file("tests/golden/links_b.json"));
    CHECK(golden.size() >= 8);
    for (const auto& [name, entry] : golden.items()) {
        nlohmann::json document = nlohmann::json::parse(example_text(entry["example"]));
        document.merge_patch(entry["changed"]);
        INFO(name << ": " << document.dump());
        const SetupRead expected = read_setup(document.dump());
        REQUIRE(expected.setup);
        const std::string link = entry["link"];
        CHECK(link[0] == 'B');
        const SetupRead opened = open_link(link);
        REQUIRE(opened.setup);
        CHECK(*opened.setup == *expected.setup);
        CHECK(link_of(*expected.setup) == link);
    }
}

TEST_CASE("each field that came with version B is in one of those links") {
    const std::string table = read_file("engine/document/fields_table.cpp");
    const std::string golden = read_file("tests/golden/links_b.json");
    const std::regex row("\\{\\.key = \"(\\w+)\"[^}]*(?:\\{[^}]*\\}[^}]*)?\\.since = 'B'");
    int rows = 0;
    for (auto it = std::sregex_iterator(table.begin(), table.end(), row); it != std::sregex_iterator();
         ++it) {
        INFO((*it)[1]);
        CHECK(golden.find('"' + std::string((*it)[1]) + '"') != std::string::npos);
        ++rows;
    }
    int since = 0;
    for (std::size_t at = 0; (at = table.find(".since = 'B'", at)) != std::string::npos; ++at)
        ++since;
    CHECK(rows == since);
}

TEST_CASE("a link of a version to come is refused for that, and says so") {
    std::string link = link_of(example("small-sag"));
    link[0] = 'C'; // its last letters, which hold the rest together, would be others
    const SetupRead read = open_link_unchecked(link.substr(0, link.size() - 3));
    CHECK_FALSE(read.setup);
    CHECK(first_message(read.problems, english()).find("of a version to come") != std::string::npos);
}

TEST_CASE("a guitar with its kind of bridge and its clamps said has a link no longer than before, nearly") {
    Setup setup = example("lower-and-heavier");
    setup.guitar.bridge.kind = Pivot::knife_edge;
    const std::string plain = link_of(example("lower-and-heavier")), link = link_of(setup);
    CHECK(plain[0] == 'A');
    CHECK(link[0] == 'B');
    CHECK(link.size() <= plain.size() + 4);
}

TEST_CASE("a link that was cut or altered is known for one") {
    const std::string link = link_of(example("lower-and-heavier"));
    for (std::size_t length = 0; length < link.size(); ++length) {
        const SetupRead read = open_link(link.substr(0, length));
        CHECK_FALSE(read.setup);
        CHECK(first_message(read.problems, english()).find("incomplete") != std::string::npos);
    }
    for (std::size_t i = 0; i < link.size(); ++i) {
        std::string altered = link;
        altered[i] = altered[i] == 'x' ? 'y' : 'x';
        CHECK_FALSE(open_link(altered).setup);
    }
}

TEST_CASE("letters at random never do harm") {
    std::mt19937_64 random(9);
    const std::string letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";
    for (int i = 0; i < 3000; ++i) {
        std::string link = i % 2 == 0 ? "A" : "B";
        for (std::uint64_t n = random() % 200; n > 0; --n)
            link += letters[random() % letters.size()];
        CHECK_FALSE(open_link(link).setup);
        CHECK_FALSE(open_link_unchecked(link).setup); // the checksum aside
    }
    CHECK_FALSE(open_link(std::string(2000000, 'A')).setup);
    CHECK_FALSE(open_link("<b>bold</b>").setup);
}

TEST_CASE("the links of today are those that were handed out before") {
    const auto golden = nlohmann::json::parse(read_file("tests/golden/links.json"));
    for (const auto& [name, link] : golden.items()) {
        INFO(name);
        CHECK(link_of(example(name)) == link.get<std::string>());
    }
}

TEST_CASE("a link whose texts are no UTF-8 is refused") {
    Setup setup = example("small-sag");
    setup.title = "caf\xe9";
    CHECK_FALSE(open_link(link_of(setup)).setup);
    setup.title = "caf\xc3\xa9";
    CHECK(open_link(link_of(setup)).setup == setup);
    setup.guitar.basis = {{"bridge.\xff", Basis::usual}};
    CHECK_FALSE(open_link(link_of(setup)).setup);
}

TEST_CASE("the command line makes links and opens them") {
    const std::string file = std::string(PROJECT_ROOT) + "/tests/examples/small-sag.json";
    const Run made = run_command("link " + file);
    CHECK(made.exit == 0);
    const std::string link = made.out.substr(0, made.out.size() - 1);
    const Run opened = run_command("open '#" + link + "'");
    CHECK(opened.exit == 0);
    CHECK(read_setup(opened.out).setup == example("small-sag"));
    CHECK(run_command("open -", link + "\n").out == opened.out);
    const Run cut = run_command("open " + link.substr(0, 20));
    CHECK(cut.exit == 1);
    CHECK(cut.err.find("this link is incomplete") != std::string::npos);
    CHECK(run_command("link").exit == 2);
}
