// How long the engine takes: a whole report from text to text, the report alone, one balance.
// Prints the median of several rounds, in microseconds. Runs natively and, compiled by em++, under node.
#include "engine/embedded.h"
#include "engine/report.h"
#include "engine/string_search.h"

#include <algorithm>
#include <chrono>
#include <cstdio>
#include <vector>

using namespace counterpull;

namespace {

volatile double sink; // what is computed is used

template <class Work>
void measure(const char* name, int per_round, Work&& work) {
    std::vector<double> rounds;
    for (int round = 0; round < 15; ++round) {
        const auto start = std::chrono::steady_clock::now();
        for (int i = 0; i < per_round; ++i)
            work();
        const std::chrono::duration<double, std::micro> took = std::chrono::steady_clock::now() - start;
        rounds.push_back(took.count() / per_round);
    }
    std::sort(rounds.begin(), rounds.end());
    std::printf("%-28s %10.3f us (least %.3f, most %.3f)\n", name, rounds[rounds.size() / 2], rounds.front(),
                rounds.back());
}

} // namespace

int main() {
    const std::string_view text = embedded_preset("example");
    const Setup setup = *read_setup(text).setup;
    const Report answer = *report(setup).report;
    const Assembly assembly = assembly_of(setup, fitting_next(setup, setup.now.springs));

    measure("document to document", 100, [&] {
        const SetupRead read = read_setup(text);
        sink = static_cast<double>(report_json(*report(*read.setup).report, english()).size());
    });
    measure("report", 200, [&] { sink = report(setup).report->untouched.tail_mm; });
    measure("sets that need no turns", 20,
            [&] { sink = static_cast<double>(strings_to_buy(setup, {}).sets.size()); });
    measure("left alone, one balance", 2000,
            [&] { sink = rest_at_pitch(assembly, answer.now.claw, -0.02).angle_rad; });
    measure("turns for an attitude", 2000,
            [&] { sink = turns_for_attitude(assembly, answer.now.claw, 0.0).at; });
}
