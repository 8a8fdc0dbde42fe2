#include "engine/advice/report.h"
#include "engine/say/refusal.h"
#include "tests/support.h"

#include <nlohmann/json.hpp>

using namespace counterpull;
using namespace counterpull::test;
using nlohmann::json;

namespace {

// Read and, where accepted, answered: whatever it says, it says it in words.
bool taken(const std::string& text) {
    const SetupRead read = read_setup(text);
    CHECK(read.setup.has_value() == read.problems.none());
    for (const Problem& problem : read.problems.told) {
        const std::string message = sentence_of(problem, english());
        CHECK(message.size() > 5);
        CHECK(message.size() < 600);
        CHECK(message.find("refused.") == std::string::npos);
    }
    if (!read.setup)
        return false;
    const ReportResult result = report(*read.setup);
    CHECK(result.report.has_value() == result.problems.none());
    return true;
}

// Every place of a document, as a pointer.
void places(const json& value, const json::json_pointer& here, std::vector<json::json_pointer>& all) {
    all.push_back(here);
    if (value.is_object())
        for (const auto& [key, item] : value.items())
            places(item, here / key, all);
    else if (value.is_array())
        for (std::size_t i = 0; i < value.size(); ++i)
            places(value[i], here / i, all);
}

// A job under way, with every field that it brings.
json under_way() {
    json document = json::parse(example_text("three-readings-in"));
    document["guitar"]["nut_clamps"] = true;
    document["guitar"]["bridge"]["kind"] = "knife edge";
    document["guitar"]["bridge"]["return_cents"] = 4;
    document["next"]["springs"] = document["now"]["springs"];
    document["log"] = json::array({document["log"][0]});
    document["log"][0]["own"] = {
        {"strings", document["now"]["strings"]}, {"tuning", document["now"]["tuning"]}, {"offset_cents", 2}};
    document["bench"] = {{"way", "wedge"},
                         {"test", true},
                         {"done",
                          {{{"do", "springs"}, {"off", document["now"]["springs"]}, {"on", json::array()}},
                           {{"do", "turn"}, {"turned", {1.5, 1.5}}, {"happened", "spring off"}, {"hook", 2}},
                           {{"do", "tune"}, {"happened", "string broke"}, {"string", 1}}}}};
    return document;
}

const std::vector<json> intruders = {nullptr,
                                     true,
                                     "text",
                                     -1,
                                     0,
                                     1e308,
                                     -1e308,
                                     1e-308,
                                     0.5,
                                     17,
                                     4294967296.0,
                                     json::array(),
                                     json::object(),
                                     json::array({1, 2, 3, 4, 5, 6}),
                                     json::array({"E2"})};

} // namespace

TEST_CASE("garbage is refused") {
    for (const std::string& text :
         {std::string(), std::string("hello"), std::string("{"), std::string("[]"), std::string("null"),
          std::string("{}"), std::string("{\"format\": 3}"), std::string("NaN"),
          std::string("{\"a4_hz\": NaN}"), std::string("{\"a4_hz\": Infinity}"), std::string("\xff\xfe{}"),
          std::string("{\"\xc3\": 1}"), std::string("{\"format\": \"counterpull-setup/1\"}"),
          std::string(1, '\0'), std::string("// {}")})
        CHECK_FALSE(taken(text));
    CHECK(refusals("{\n \"format\": \"counterpull-setup/1\",\n oops }")[0].starts_with("line 3, column 2"));
}

TEST_CASE("a document cut off anywhere is refused") {
    const std::string whole = example_text("three-readings-in");
    const std::size_t end = whole.find_last_of('}');
    for (std::size_t length = 0; length <= end; ++length)
        if (read_setup(whole.substr(0, length)).setup)
            FAIL("accepted at " << length);
    CHECK(taken(whole));
}

TEST_CASE("deep nesting and megabytes are refused at once") {
    CHECK_FALSE(taken(std::string(500'000, '[')));
    std::string nested;
    for (int i = 0; i < 100'000; ++i)
        nested += "{\"a\":";
    CHECK_FALSE(taken(nested));
    CHECK_FALSE(taken(std::string(5'000'000, ' ')));
    CHECK_FALSE(taken("{\"title\": \"" + std::string(900'000, 'x') + "\"}"));
    json document = json::parse(example_text("lower-and-heavier"));
    for (int i = 0; i < 20'000; ++i)
        document["now"]["springs"].push_back({{"hook", i}, {"hole", i}});
    CHECK_FALSE(taken(document.dump()));
}

TEST_CASE("whatever stands at any place of a document, it is answered or refused there") {
    const json whole = json::parse(example_text("three-readings-in"));
    std::vector<json::json_pointer> all;
    places(whole, json::json_pointer(), all);
    REQUIRE(all.size() > 150);
    for (const auto& place : all) {
        if (place.empty())
            continue;
        for (const json& intruder : intruders) {
            json document = whole;
            document[place] = intruder;
            INFO(place.to_string() << " = " << intruder.dump());
            taken(document.dump());
        }
    }
}

TEST_CASE("whatever stands at any place of a job under way, it is answered or refused there") {
    const json whole = under_way();
    REQUIRE(taken(whole.dump()));
    for (const char* part : {"/guitar/nut_clamps", "/guitar/bridge/kind", "/guitar/bridge/return_cents",
                             "/next/springs", "/log/0/own", "/bench"}) {
        const json::json_pointer from(part);
        REQUIRE(whole.contains(from));
        std::vector<json::json_pointer> all;
        places(whole[from], from, all);
        for (const auto& place : all)
            for (const json& intruder : intruders) {
                json document = whole;
                document[place] = intruder;
                INFO(place.to_string() << " = " << intruder.dump());
                taken(document.dump());
            }
    }
}

TEST_CASE("a wrong type is refused at the very place where it stands") {
    for (const json& whole : {json::parse(example_text("lower-and-heavier")), under_way()}) {
        std::vector<json::json_pointer> all;
        places(whole, json::json_pointer(), all);
        for (const auto& place : all) {
            if (place.empty() || place.to_string() == "/format" || whole[place].is_structured())
                continue;
            json document = whole;
            document[place] = json::object();
            std::string path;
            std::string pointer = place.to_string().substr(1);
            for (std::size_t at = 0; at < pointer.size();) {
                const std::size_t end = std::min(pointer.find('/', at), pointer.size());
                const std::string part = pointer.substr(at, end - at);
                const bool index = part.find_first_not_of("0123456789") == std::string::npos;
                path += index ? "[" + part + "]" : (path.empty() ? "" : ".") + part;
                at = end + 1;
            }
            const auto messages = refusals(document.dump());
            INFO(path << ": " << (messages.empty() ? "" : messages[0]));
            REQUIRE(messages.size() == 1);
            CHECK(messages[0].starts_with(path + ": "));
        }
    }
}

TEST_CASE("numbers no double can hold are refused") {
    std::string text = example_text("lower-and-heavier");
    text.replace(text.find("647.7"), 5, "1e999");
    CHECK_FALSE(taken(text));
    text.replace(text.find("1e999"), 5, "99999999999999999999999999");
    CHECK_FALSE(taken(text));
}
