// What several tests need: files of the project, example set-ups, running the command line.
#pragma once

#include "engine/advice/report.h"
#include "engine/document/document.h"
#include "engine/document/model.h"
#include "engine/whatif/stand.h"

#include <catch2/catch.hpp>

#include <string>
#include <vector>

namespace counterpull::test {

std::string read_file(const std::string& path); // from the project's root; fails the test if unreadable
std::vector<std::string> example_names();       // of tests/examples
std::string example_text(const std::string& name);
Setup example(const std::string& name);

// 9–42 in E standard on a 648 mm scale, usual recessed bridge, three standard springs, level.
Setup light_set_level();

// A guitar as it stands now, in tune.
Stand standing_now(const Setup& setup);

// The report of a set-up that must be answered.
Report answered(const Setup& setup);
// The solved state of a set-up that can be solved.
Solution solved(const Setup& setup);
// The advice for these springs, which must be among all.
const Advice& advice_on(const Report& report, const Arrangement& springs);
// Whether something is warned of.
bool warns(const Report& report, WarningKind kind);
// The problem messages of a document that must be refused.
std::vector<std::string> refusals(const std::string& text);

struct Run {
    int exit = 0;
    std::string out;
    std::string err;
};
// A program, or shell commands that end in one.
Run run_program(const std::string& program, const std::string& arguments, const std::string& input = {});
// The command line.
Run run_command(const std::string& arguments, const std::string& input = {});

// A string set as a player says it: "42w 32w 24w 16 11 9".
std::vector<StringSetup> set_of(const std::string& gauges);
std::vector<Pitch> notes_of(const std::string& names);

} // namespace counterpull::test
