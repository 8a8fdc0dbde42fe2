// Follows the tool's advice on hidden guitars and prints how many visits to the claw it took.
//   closed_loop [GUITARS]    of each kind of change (160)
// Then where one pass by the tuning sheet lands with springs off what the tool believes.
#include "tests/reference/closed_loop.h"
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
    if (what.empty() || what == "landings")
        print_landings();
}
