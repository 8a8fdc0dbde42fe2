// Strings tuned by ear on hidden guitars, beside the same by two sheets.
#include "engine/advice/by_ear.h"
#include "tests/reference/closed_loop.h"
#include "tests/reference/ear_player.h"
#include "tests/support.h"

#include <algorithm>
#include <cstdlib>

using namespace counterpull;
using namespace counterpull::test;
using namespace reference;

namespace {

// Guitars of each kind: a few in every run, always the same ones; more where the environment asks for them.
int guitars() {
    const char* wanted = std::getenv("COUNTERPULL_RANDOM");
    return wanted ? std::max(12, std::atoi(wanted) / 6) : 12;
}

template <class What>
double at_share(const std::vector<EarRun>& runs, double share, What what) {
    std::vector<double> all;
    for (const EarRun& run : runs)
        all.push_back(static_cast<double>(what(run)));
    std::sort(all.begin(), all.end());
    return all[std::min(all.size() - 1, static_cast<std::size_t>(share * static_cast<double>(all.size())))];
}
double median_tunings(const std::vector<EarRun>& runs) {
    return at_share(runs, 0.5, [](const EarRun& run) { return run.tunings; });
}
int landed(const std::vector<EarRun>& runs, double within_cents) {
    return static_cast<int>(std::count_if(runs.begin(), runs.end(), [&](const EarRun& run) {
        return run.done && run.worst_cents <= within_cents;
    }));
}

struct Tuned {
    std::vector<EarRun> by_ear, by_sheets;
};
// Hidden guitars whose springs are a fifth stiffer or softer than written down, and all else as usual.
Tuned tuned(const Setup& setup, const Earshot& shot, int count) {
    Tuned all;
    for (std::uint64_t number = 0; static_cast<int>(all.by_ear.size()) < count; ++number) {
        HiddenGuitar guitar(setup, number, number % 2 == 0 ? 1.2 : 0.8);
        if (!guitar.possible())
            continue;
        const Report report = answered(guitar.setup());
        if (!report.tuning)
            continue;
        HiddenGuitar other = guitar;
        made_ready(guitar, report, Rough::by_ear, number);
        all.by_ear.push_back(tune_by_ear(guitar, report, tune_step(report), ears(shot, number), number));
        made_ready(other, report, Rough::to_pitch, number);
        all.by_sheets.push_back(tune_by_sheet(other, report, 2, number));
    }
    return all;
}

} // namespace

TEST_CASE("by ear, guitars whose springs are a fifth off are in tune after eight tunings in the median") {
    double by_ear = 0.0, by_sheets = 0.0;
    for (const reference::Change& change : changes()) {
        const Tuned all = tuned(change.setup, {.sigma_cents = 0.5}, guitars());
        const int count = static_cast<int>(all.by_ear.size());
        INFO(change.name << ": " << median_tunings(all.by_ear) << ", by two sheets "
                         << median_tunings(all.by_sheets));
        // 160 of each kind: medians 7 or 8, but for a tone down 9; 95 in 100 within 8 to 16.
        CHECK(median_tunings(all.by_ear) <= (change.name == "a tone down" ? 9.5 : 8.5));
        CHECK(at_share(all.by_ear, 0.95, [](const EarRun& run) { return run.tunings; }) <= 20);
        CHECK(landed(all.by_ear, 2.0) >= 0.9 * count);  // 98 of 100
        CHECK(landed(all.by_ear, 3.0) >= 0.98 * count); // of heavy drop tunings 1 in 160 nearly runs away
        CHECK(at_share(all.by_ear, 1.0, [](const EarRun& run) { return run.most_aim_cents; }) <=
              most_aim_cents + 1e-9);
        by_ear += median_tunings(all.by_ear);
        by_sheets += median_tunings(all.by_sheets);
    }
    CHECK(by_ear < 0.55 * by_sheets);
}

TEST_CASE("a wrong value now and then, and strings that are not heard, cost a tuning and no more") {
    for (const Earshot& shot : {Earshot{.sigma_cents = 0.5, .wrong_share = 0.03}, Earshot{.sigma_cents = 1.0},
                                Earshot{.sigma_cents = 0.5, .missed_share = 0.2}})
        for (const char* name : {"small correction", "one set heavier", "drop D"}) {
            const Tuned all = tuned(change_called(name).setup, shot, guitars());
            const int count = static_cast<int>(all.by_ear.size());
            INFO(name << ", wrong " << shot.wrong_share << ", missed " << shot.missed_share << ", sigma "
                      << shot.sigma_cents << ": " << median_tunings(all.by_ear));
            CHECK(median_tunings(all.by_ear) <= 9.5);
            CHECK(landed(all.by_ear, 4.0) >= 0.98 * count);
            CHECK(landed(all.by_ear, 2.5) >= 0.85 * count);
        }
}
