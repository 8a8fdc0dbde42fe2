// Follows the tool's advice on hidden guitars and prints how many visits to the claw it took.
//   closed_loop [GUITARS]    of each kind of change (160)
// Then where one pass by the tuning sheet lands with springs off what the tool believes.
#include "tests/reference/closed_loop.h"
#include "engine/document/document.h"
#include "tests/reference/bench_player.h"
#include "tests/reference/simulated_tuning.h"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <cstdlib>

using namespace reference;

namespace {

std::string name(Player player) {
    return std::string(name_of(player));
}

// How soon it is level, and how honest the ranges were.
void print_levelled(int count) {
    std::printf("%-18s  %-16s  %6s %6s %6s  %5s  %9s  %8s\n", "change", "way", "1", "2", "3", "lost",
                "tail p95", "90 % has");
    for (const Change& change : changes())
        for (const Player player : {Player::plain, Player::tested, Player::rest_turned, Player::wedged}) {
            const Outcome o = follow(change.setup, player, Done::truly, 0, count);
            std::vector<double> off;
            const auto share = [&](int visits) {
                return 100.0 * o.within(visits) / static_cast<double>(o.runs.size());
            };
            for (const Run& run : o.runs)
                off.push_back(run.off_mm);
            std::sort(off.begin(), off.end());
            std::printf("%-18s  %-16s  %5.0f%% %5.0f%% %5.0f%%  %5d  %6.2f mm  %6.0f %%\n",
                        change.name.c_str(), name(player).c_str(), share(1), share(2), share(3), o.gone(),
                        off[static_cast<std::size_t>(0.95 * static_cast<double>(off.size() - 1))],
                        100.0 * o.covered());
        }
}

void print_predicted(int count) {
    std::printf("\n%-18s  %-16s  %9s %9s %6s  %10s %8s  %10s %8s\n", "change", "way", "predicted",
                "simulated", "ratio", "tunings", "counted", "1st sigma", "1st rms");
    for (const Change& change : changes())
        for (const Player player : {Player::plain, Player::tested, Player::wedged, Player::advised}) {
            const Outcome o = follow(change.setup, player, Done::truly, 0, count);
            const double predicted = o.mean([](const Run& r) { return r.predicted_visits; });
            const double visits = o.mean([](const Run& r) { return r.visits; });
            const double tunings = o.mean([](const Run& r) { return r.tunings; }) / visits;
            std::printf("%-18s  %-16s  %9.2f %9.2f %6.2f  %10.1f %8.1f  %7.2f mm %5.2f mm\n",
                        change.name.c_str(), name(player).c_str(), predicted, visits, predicted / visits,
                        o.mean([](const Run& r) { return r.predicted_tunings; }), tunings,
                        o.mean([](const Run& r) { return r.predicted_first_mm; }),
                        std::sqrt(o.mean([](const Run& r) { return r.first_mm * r.first_mm; })));
        }
}

void print_players(int count) {
    std::printf("\n%-18s  %-16s  %13s  %14s  %6s\n", "change", "player", "visits 50 90 %", "tunings 50 90 %",
                "rough");
    for (const Change& change : changes())
        for (const Player player : {Player::by_feel, Player::wedge_alone, Player::advised}) {
            const Outcome o = follow(change.setup, player, Done::as_read, 0, count);
            std::printf("%-18s  %-16s  %6.1f %6.0f  %7.1f %7.0f  %6.1f\n", change.name.c_str(),
                        name(player).c_str(), o.at(0.5, &Run::visits), o.at(0.9, &Run::visits),
                        o.at(0.5, &Run::tunings), o.at(0.9, &Run::tunings),
                        o.mean([](const Run& r) { return r.rough; }));
        }
}

// The job as the bench has it, step by step.
void print_bench(int count, const char* name, const BenchRules& rules) {
    std::printf("\n%-18s  %-12s  %6s %6s %6s  %6s  %6s  %6s %6s  %5s %5s %5s %5s %5s\n", "change", name,
                "ended", "cannot", "1", "2", "0.5 mm", "5 c", "rms 1", "steps", "most", "typed", "taps",
                "tuned");
    for (const Change& change : changes()) {
        const std::vector<BenchRun> runs = walk_the_bench(change.setup, rules, 0, count);
        const auto share = [&](auto&& what) {
            return 100.0 * static_cast<double>(std::count_if(runs.begin(), runs.end(), what)) /
                   static_cast<double>(runs.size());
        };
        const auto mean = [&](auto&& what) {
            double sum = 0.0;
            for (const BenchRun& run : runs)
                sum += what(run);
            return sum / static_cast<double>(runs.size());
        };
        using counterpull::StepKind;
        const auto finished = [](const BenchRun& r) { return r.ended == StepKind::finished; };
        int most = 0;
        for (const BenchRun& run : runs) {
            most = std::max(most, run.steps);
            if (run.steps >= 60)
                std::printf("long: guitar %d\n", static_cast<int>(&run - runs.data()));
            if (!run.refused.empty())
                std::printf("refused: %s\n", run.refused.c_str());
        }
        std::printf("%-18s  %-12s  %5.0f%% %5.0f%%  %5.1f%% %5.1f%%  %5.1f%% %5.1f%%  %5.2f  %5.1f %5d %5.1f "
                    "%5.1f %5.1f\n",
                    change.name.c_str(),
                    runs.front().setup.bench->way == counterpull::BenchWay::wedge ? "wedge"
                    : runs.front().setup.bench->test                              ? "test"
                                                                                  : "plain",
                    share(finished), share([](const BenchRun& r) { return r.ended == StepKind::cannot; }),
                    share([&](const BenchRun& r) { return finished(r) && r.visits <= 1; }),
                    share([&](const BenchRun& r) { return finished(r) && r.visits <= 2; }),
                    share([](const BenchRun& r) { return r.off_mm <= 0.5; }),
                    share([](const BenchRun& r) { return r.off_cents <= 5.0; }),
                    std::sqrt(mean([](const BenchRun& r) { return r.first_mm * r.first_mm; })),
                    mean([](const BenchRun& r) { return r.steps; }), most,
                    mean([](const BenchRun& r) { return r.typed - r.tested; }),
                    mean([](const BenchRun& r) { return r.taps; }),
                    mean([](const BenchRun& r) { return r.tunings; }));
    }
}

void print_landings() {
    std::printf("\n%9s  %7s  %10s  %9s  %12s\n", "tail from", "springs", "plain pass", "the sheet",
                "second sheet");
    counterpull::Setup level = changes().front().setup;
    for (const Landing& l : landings(level))
        std::printf("%+6.2f mm  %6.0f%%  %4.0f cents  %3.0f cents  %6.1f cents\n", l.tail_mm,
                    100 * l.spring_factor, l.plain, l.sheet, l.second);
}

} // namespace

int main(int argc, char** argv) {
    const int count = argc > 1 ? std::atoi(argv[1]) : 160;
    const std::string what = argc > 2 ? argv[2] : "";
    if (what.empty() || what == "levelled")
        print_levelled(count);
    if (what.empty() || what == "predicted")
        print_predicted(count);
    if (what.empty() || what == "players")
        print_players(count);
    if (what == "one") {
        const auto run = walk_the_bench(changes()[2].setup, {}, 0, 15).back();
        std::printf("%s\n", counterpull::write_setup(run.setup).c_str());
    }
    if (what == "quick")
        print_bench(count, "advised", {});
    if (what.empty() || what == "bench") {
        print_bench(count, "advised", {});
        print_bench(count, "plain", {counterpull::Way{false, false}, false, 0.0});
        print_bench(count, "tested", {counterpull::Way{false, true}, false, 0.0});
        print_bench(count, "wedged", {counterpull::Way{true, false}, false, 0.0});
        print_bench(count, "mishaps", {{}, false, 0.08});
    }
    if (what.empty() || what == "landings")
        print_landings();
}
