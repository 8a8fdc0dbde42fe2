#include "engine/say/words.h"
#include "tests/hearing/sounds.h"
#include "tests/hearing/wav_bytes.h"
#include "tests/support.h"

#include <nlohmann/json.hpp>

#include <cmath>
#include <filesystem>
#include <fstream>
#include <unistd.h>

using namespace counterpull::test;

namespace {

std::string file(const std::string& name) {
    return std::string(PROJECT_ROOT) + "/tests/examples/" + name + ".json";
}

// A recording in the folder for such things, gone when it is out of use.
struct Recording {
    std::string path = (std::filesystem::temp_directory_path() / // of this run alone
                        ("counterpull-recording-" + std::to_string(getpid()) + ".wav"))
                           .string();
    explicit Recording(const std::string& bytes) { std::ofstream(path, std::ios::binary) << bytes; }
    ~Recording() { std::filesystem::remove(path); }
};

} // namespace

TEST_CASE("counterpull hear says what a plucked string is at") {
    // The fifth string of the wanted tuning, G2, 12 cents flat.
    const double hz =
        counterpull::raised_hz(counterpull::frequency_hz(*counterpull::parse_pitch("G2")), -12.0);
    Dice dice(1);
    Sound sound(44100);
    Pluck pluck;
    pluck.tone = {hz, 1e-4};
    pluck.at_s = 0.2;
    add_pluck(sound, 44100.0, pluck, dice);
    const Recording recording(wav_of(sound, 44100));
    const Run run = run_command("hear " + recording.path + " " + file("small-sag") + " --json");
    REQUIRE(run.exit == 0);
    const auto answer = nlohmann::json::parse(run.out);
    CHECK(answer.at("format") == "counterpull-hearing/1");
    CHECK(answer.at("seconds") == 1.0);
    REQUIRE(answer.at("strings").size() == 6);
    for (std::size_t string = 0; string < 6; ++string) {
        const auto& one = answer.at("strings")[string];
        CHECK(one.at("heard") == (string == 1));
        CHECK(one.at("hz").is_null() == (string != 1));
    }
    const auto& heard = answer.at("strings")[1];
    CHECK(std::abs(heard.at("cents").get<double>() + 12.0) < 0.7);
    CHECK(std::abs(heard.at("hz").get<double>() - hz) < 0.05);
    CHECK(heard.at("sigma_cents").get<double>() > 0.0);
    const Run people = run_command("hear " + recording.path + " " + file("small-sag") + " --expect -10");
    CHECK(people.out.find("string 5, G2") != std::string::npos);
    CHECK(people.out.find("not heard") != std::string::npos);
}

TEST_CASE("counterpull hear hears nothing in silence, and refuses what is no recording") {
    const Recording silence(wav_of(Sound(22050), 22050));
    for (const char* tuning : {"now", "next"}) {
        const Run run =
            run_command("hear " + silence.path + " " + file("small-sag") + " --json --tuning " + tuning);
        REQUIRE(run.exit == 0);
        const auto answer = nlohmann::json::parse(run.out);
        for (const auto& string : answer.at("strings")) {
            CHECK(string.at("heard") == false);
            CHECK(string.at("cents").is_null());
        }
    }
    const Run document = run_command("hear " + file("small-sag") + " " + file("small-sag"));
    CHECK(document.exit == 1);
    CHECK(document.err.find("expected PCM of 16 or 24 bit") != std::string::npos);
    CHECK(run_command("hear no-such-file.wav " + file("small-sag")).exit == 1);
    const std::string call = "hear " + silence.path + " " + file("small-sag");
    CHECK(run_command(call + " --expect 1,2,3,4,5,6").exit == 0);
    const Run count = run_command(call + " --expect 1,2");
    CHECK(count.exit == 2);
    CHECK(count.err.find("--expect has 2 numbers; expected one, or one per string: 6") != std::string::npos);
    for (const char* wrong :
         {" --expect", " --expect sharp", " --expect 1,,2", " --tuning later", " more.json"})
        CHECK(run_command(call + wrong).exit == 2);
    CHECK(run_command("hear " + silence.path).exit == 2);
}

TEST_CASE("counterpull report answers a file, standard input, and options anywhere") {
    const Run people = run_command("report " + file("small-sag"));
    CHECK(people.exit == 0);
    CHECK(people.out.find("Loosen each claw screw") != std::string::npos);
    CHECK(people.err.empty());
    const Run piped = run_command("--json report -", example_text("small-sag"));
    CHECK(piped.exit == 0);
    const Run after = run_command("report " + file("small-sag") + " --json");
    CHECK(after.out == piped.out);
    CHECK(nlohmann::json::parse(piped.out).at("format") == "counterpull-report/1");
}

TEST_CASE("counterpull bench tells the step that is due, and with --done the set-up after it") {
    const Run people = run_command("bench " + file("small-sag"));
    CHECK(people.exit == 0);
    CHECK(people.out.find("Step 1 of about") == 0);
    const auto first = nlohmann::json::parse(run_command("bench --json " + file("small-sag")).out);
    CHECK(first.at("do") == "note");
    const Run done = run_command("bench " + file("small-sag") + " --done '{\"tail_mm\": -1.4}'");
    CHECK(done.exit == 0);
    CHECK(nlohmann::json::parse(done.out).at("now").at("tail_mm") == -1.4);
    const auto second = nlohmann::json::parse(run_command("bench - --json", done.out).out);
    CHECK(second.at("step") == 2);
    const Run refused = run_command("bench - --done '{\"tail\": 1}'", done.out);
    CHECK(refused.exit == 1);
    CHECK(refused.err.starts_with("counterpull: --done: tail: not a key"));
    CHECK(refused.out.empty());
    CHECK(run_command("bench " + file("small-sag") + " --done").exit == 2);
}

TEST_CASE("that it cannot float is an answer") {
    CHECK(run_command("report " + file("cannot-float")).exit == 0);
}

TEST_CASE("what cannot be read or is refused ends with 1 and says where") {
    const Run missing = run_command("report no-such-file.json");
    CHECK(missing.exit == 1);
    CHECK(missing.err.find("no-such-file.json: cannot be read") != std::string::npos);
    CHECK(run_command("report /").exit == 1);
    auto document = nlohmann::json::parse(example_text("small-sag"));
    document["next"]["strings"][2]["gauge_in"] = 0.46;
    document["extra"] = 1;
    const Run refused = run_command("report -", document.dump());
    CHECK(refused.exit == 1);
    CHECK(refused.out.empty());
    CHECK(refused.err.find("(and 1 more)") != std::string::npos);
    document.erase("extra");
    CHECK(run_command("report -", document.dump())
              .err.find("next.strings[2].gauge_in: 0.46 is outside 0.005 to 0.150") != std::string::npos);
}

TEST_CASE("a wrong call ends with 2 and shows how to call") {
    for (const char* call :
         {"", "report", "level guitar.json", "report a.json b.json", "report --jsno a.json"}) {
        INFO(call);
        const Run run = run_command(call);
        CHECK(run.exit == 2);
        CHECK(run.out.empty());
        CHECK(run.err.find("usage: counterpull report") != std::string::npos);
    }
    CHECK(run_command("--help").exit == 0);
    const auto module = nlohmann::json::parse(read_file("web/module/package.json"));
    CHECK(run_command("--version").out == "counterpull " + module["version"].get<std::string>() + "\n");
}

TEST_CASE("a language is found by its code, or as RFC 4647 looks one up, and the usage is said in it") {
    auto said = [](const std::string& code) {
        return run_command("report " + file("small-sag") + " --language " + code).out;
    };
    CHECK(said("de-CH-1901") == said("de"));
    CHECK(said("pt-BR") == said("pt"));
    CHECK(said("de") != said("en"));
    // A range takes no longer tag, nor part of a subtag.
    for (const char* unknown : {"d", "deu", "ja", "de_CH", "-", "-de"}) {
        const Run run = run_command("report " + file("small-sag") + " --language " + unknown);
        CHECK(run.exit == 2);
        CHECK(run.err.find("de, en, es, fr, it, pl, pt") != std::string::npos);
    }
    const counterpull::Words french("fr");
    CHECK(run_command("--language fr --help").out == french.text("usage.text"));
}

TEST_CASE("sets that need no turns, entered as the next strings, stand and ask for turns as it says") {
    const std::string setup = example_text("lower-and-heavier");
    const auto found = nlohmann::json::parse(run_command("strings - --json", setup).out);
    CHECK(found.at("format") == "counterpull-strings/1");
    CHECK(found.at("feel") == "present");
    REQUIRE(found.at("sets").size() >= 3);
    double unevenness = 0.0;
    for (const auto& set : found["sets"]) {
        auto document = nlohmann::json::parse(setup);
        document["next"]["strings"] = set.at("strings");
        INFO(set["strings"].dump());
        const auto report = nlohmann::json::parse(run_command("report - --json", document.dump()).out);
        CHECK(report["untouched"]["tail_mm"].get<double>() == Approx(set.at("tail_mm")).margin(1e-6));
        for (const auto& advice : report["advice"])
            if (advice["springs"] == document["now"]["springs"])
                CHECK(advice["turns"].get<double>() == Approx(set.at("turns")).margin(1e-6));
        const bool level =
            std::abs(set["tail_mm"].get<double>() - document["next"].value("tail_mm", 0.0)) <= 0.3;
        CHECK(set.at("level") == level);
        for (std::size_t i = 0; i < set["strings"].size(); ++i) {
            CHECK(set.at("strength_used")[i] < 0.6);
            if (!report["next"].is_null())
                CHECK(report["next"]["strings"][i]["tension_n"].get<double>() ==
                      Approx(set.at("tension_n")[i]).epsilon(1e-8));
        }
        CHECK(set.at("unevenness") >= unevenness);
        unevenness = set["unevenness"];
    }
    const std::string text = run_command("strings -", setup).out;
    std::size_t told = 0;
    for (std::size_t at = text.find("pull "); at != std::string::npos; at = text.find("pull ", at + 1))
        ++told;
    CHECK(told == found["sets"].size());
    CHECK(run_command("strings - --feel even --json", setup).out.find("\"feel\": \"even\"") !=
          std::string::npos);
}
