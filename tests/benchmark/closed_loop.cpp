// Follows the tool's advice on hidden guitars and prints how many visits to the claw it took.
//   closed_loop [GUITARS]    of each kind of change (100)
// Then where one pass by the tuning sheet lands with springs off what the tool believes.
#include "tests/reference/closed_loop.h"
#include "tests/reference/simulated_tuning.h"

#include <cstdio>
#include <cstdlib>

using namespace reference;

int main(int argc, char** argv) {
    const int count = argc > 1 ? std::atoi(argv[1]) : 100;
    std::printf("%-18s  %-22s  %7s  %6s  %5s %5s %5s  %5s  %6s  %9s  %9s\n", "change", "way", "guitars",
                "median", "1", "2", "3", "lost", "passes", "tail p95", "not held");
    for (const Change& change : changes())
        for (const Way way : {Way::tail_only, Way::with_tuner, Way::test_first, Way::with_wedge}) {
            const Outcome o = follow_advice(change.setup, way, 0, count);
            const auto share = [&](int visits) { return 100.0 * o.within(visits) / o.guitars; };
            const auto at = [&](double p) { return static_cast<std::size_t>(p * (o.guitars - 1)); };
            std::printf("%-18s  %-22s  %7d  %6.1f  %4.0f%% %4.0f%% %4.0f%%  %5d  %6d  %6.2f mm  %9d\n",
                        change.name.c_str(), std::string(name_of(way)).c_str(), o.guitars, o.median_visits(),
                        share(1), share(2), share(3), o.guitars - o.within(most_visits), o.passes[at(0.5)],
                        o.tail_mm[at(0.95)], o.not_held);
        }
    std::printf("\n%9s  %7s  %10s  %9s  %12s\n", "tail from", "springs", "plain pass", "the sheet",
                "second sheet");
    counterpull::Setup level = changes().front().setup;
    for (const Landing& l : landings(level))
        std::printf("%+6.2f mm  %6.0f%%  %4.0f cents  %3.0f cents  %6.1f cents\n", l.tail_mm,
                    100 * l.spring_factor, l.plain, l.sheet, l.second);
}
