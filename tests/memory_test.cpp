// Where memory ends: the command line with one allocation that fails (failing_new.cpp), the first, the second
// and so on, and the command line as it is in an address space that is too small.
#include "engine/say/words.h"
#include "tests/hearing/sounds.h"
#include "tests/hearing/wav_bytes.h"
#include "tests/support.h"

#include <algorithm>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <unistd.h>

using namespace counterpull;
using namespace counterpull::test;

namespace {

namespace fs = std::filesystem;

// Each of the first allocations and of the last, where it is written; between them ever fewer, many of the
// same kind.
constexpr long each_of = 12;
constexpr double sparser = 1.25;

long next_to(long n, long allocations) {
    if (n < each_of || n > allocations - each_of)
        return n + 1;
    const auto far = static_cast<long>(static_cast<double>(n) * sparser);
    return std::max(n + 1, std::min(far, allocations - each_of + 1));
}

struct Folder {
    fs::path path = fs::temp_directory_path() / ("counterpull-memory-" + std::to_string(getpid()));
    Folder() { fs::create_directories(path); }
    ~Folder() { fs::remove_all(path); }
    std::string write(const std::string& name, const std::string& bytes) const {
        std::ofstream(path / name, std::ios::binary) << bytes;
        return path / name;
    }
};

Run run_failing_at(long allocation, const std::string& call) {
    setenv("COUNTERPULL_FAILS_AT", std::to_string(allocation).c_str(), 1);
    Run run = run_program(COUNTERPULL_SHORT_OF_MEMORY, call);
    unsetenv("COUNTERPULL_FAILS_AT");
    return run;
}

std::string no_memory(const std::string& language) {
    return "counterpull: " + std::string(Words(language).text("usage.no_memory")) + "\n";
}

// What a call does, whichever of its allocations fails. `language` is that of its message, once it has been
// read.
void holds(const std::string& call, int exit, const std::string& language = "en") {
    INFO(call);
    const Run whole = run_failing_at(0, call);
    REQUIRE(whole.exit == exit);
    const std::size_t told = whole.err.rfind('\n', whole.err.size() - 2) + 1; // "… allocations"
    const long allocations = std::atol(whole.err.c_str() + told);
    REQUIRE(allocations > 0);
    std::string said;
    for (long n = 1; n <= allocations; n = next_to(n, allocations)) {
        INFO("allocation " << n << " of " << allocations);
        const Run run = run_failing_at(n, call);
        REQUIRE(run.exit == 1);
        REQUIRE(run.out.empty());
        said = run.err;
        if (said != no_memory("en"))
            REQUIRE(said == no_memory(language));
    }
    CHECK(said == no_memory(language));
    const Run past = run_failing_at(allocations + 1, call);
    CHECK(past.exit == exit);
    CHECK(past.out == whole.out);
    CHECK(past.err == whole.err.substr(0, told));
}

// The fifth string of the wanted tuning of small-sag, 12 cents flat.
std::string plucked() {
    Dice dice(1);
    Sound sound(44100);
    Pluck pluck;
    pluck.tone = {97.3, 1e-4};
    pluck.at_s = 0.2;
    add_pluck(sound, 44100.0, pluck, dice);
    return wav_of(sound, 44100);
}

} // namespace

TEST_CASE("whichever allocation of the command line fails, it says so and writes nothing") {
    CHECK(Words("de").text("usage.no_memory") != english().text("usage.no_memory"));
    const Folder folder;
    const std::string setup = folder.write("setup.json", example_text("three-readings-in"));
    const std::string link = run_command("link " + setup).out;
    REQUIRE_FALSE(link.empty());
    for (const char* json : {"", " --json"}) {
        for (const char* verb : {"report ", "strings ", "whatif ", "bench "})
            holds(verb + setup + json, 0);
        holds("hear " + folder.write("plucked.wav", plucked()) + " " + setup + json, 0);
    }
    holds("bench " + folder.write("begun.json", example_text("small-sag")) + " --done '{\"tail_mm\": -1.4}'",
          0);
    holds("link " + setup, 0);
    holds("open " + link.substr(0, link.size() - 1), 0);
    holds("--language de report " + setup, 0, "de");
    holds("--help", 0);
    holds("report no-such-file.json", 1);
    holds("report " + folder.write("refused.json", "{\"format\": \"counterpull-setup/1\", \"extra\": 1}"), 1);
    holds("report", 2);
}

#if defined(__has_feature)
#if __has_feature(address_sanitizer)
#define ADDRESS_SPACE_IS_TAKEN // all of it, by the sanitizer
#endif
#endif
#ifndef ADDRESS_SPACE_IS_TAKEN
TEST_CASE("a recording that memory does not hold is refused in words") {
    const Folder folder;
    const std::string setup = folder.write("setup.json", example_text("small-sag"));
    const std::string clip = folder.write("long.wav", "");
    fs::resize_file(clip, 400u << 20); // no room is taken on the disk
    const Run run = run_program("ulimit -v 150000; exec " COUNTERPULL_BINARY, "hear " + clip + " " + setup);
    CHECK(run.exit == 1);
    CHECK(run.out.empty());
    CHECK(run.err == no_memory("en"));
}
#endif

TEST_CASE("a text is found in a language's file without its being read") {
    const std::string_view file = "{\n \"a.one\": \"1\",\n \"b\": \"a.one\",\n \"a.one_more\": \"2\"\n}";
    CHECK(text_in_file(file, "a.one") == "1");
    CHECK(text_in_file(file, "a.one_more") == "2");
    CHECK(text_in_file(file, "a.two").empty());
}
