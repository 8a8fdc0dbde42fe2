#include "engine/link.h"
#include "engine/report.h"
#include "tests/properties/properties.h"
#include "tests/reference/altered_setup.h"
#include "tests/reference/random_setup.h"
#include "tests/reference/simulated_tuning.h"

#include <array>
#include <cmath>
#include <random>

namespace properties {

using namespace counterpull;

namespace {

constexpr double same_mm = 1e-6;
constexpr double landed_cents = 0.01;

// Every fifth guitar has some of its numbers put anywhere.
std::string document_of(std::uint64_t seed) {
    const nlohmann::json setup = reference::random_setup(seed);
    if (seed % 5 != 0)
        return setup.dump();
    std::mt19937_64 bits(seed);
    std::array<unsigned char, 16> bytes;
    for (unsigned char& byte : bytes)
        byte = static_cast<unsigned char>(bits() >> 56);
    return reference::altered(nlohmann::ordered_json(setup), bytes).dump();
}

// "now.springs[2].hook" → "now.springs.hook": refusals are counted by what they are about.
std::string without_indices(const std::string& path) {
    std::string kept;
    bool inside = false;
    for (const char c : path) {
        inside = c == '[' || (inside && c != ']');
        if (!inside && c != ']')
            kept += c;
    }
    return kept;
}

// Two visits that came near, what a ruler and a tuner then read.
Setup with_readings(Setup setup, const Report& answer, std::uint64_t seed) {
    std::mt19937_64 bits(seed);
    const auto within = [&](double size) {
        return size * (static_cast<double>(bits() >> 11) * 0x1.0p-52 - 1.0);
    };
    const Advice& best = answer.advice.front();
    Reading tuned;
    tuned.springs = best.springs;
    tuned.turns = {*best.turns, *best.turns};
    tuned.tail_mm = setup.next.tail_mm + within(1.0);
    Reading turned = tuned;
    turned.kind = ReadingKind::after_turn;
    turned.turns = {*best.turns + 0.25, *best.turns + 0.25};
    turned.tail_mm.reset();
    turned.cents.emplace();
    for (std::size_t i = 0; i < setup.next.strings.size(); ++i)
        turned.cents->push_back(-8.0 + within(6.0));
    setup.log = {tuned, turned};
    return setup;
}

// The guitar after it was done: the next strings, on those springs, as wanted.
Setup put_back(Setup setup, const Advice& advice) {
    setup.now.strings = setup.next.strings;
    setup.now.tuning = setup.next.tuning;
    setup.now.offset_cents = setup.next.offset_cents;
    setup.now.springs = advice.springs;
    setup.now.tail_mm = setup.next.tail_mm;
    setup.now.tail_sides_mm.reset();
    setup.now.spring_mm.reset();
    setup.now.in_tune = true;
    return setup;
}

class OneReport {
  public:
    OneReport(const Setup& setup, const Report& answer, std::uint64_t seed, Tally& tally)
        : setup_(setup), answer_(answer), best_(answer.advice.front()), seed_(seed), tally_(tally) {}

    void look() {
        link();
        if (!best_.fits || setup_.next.rest == RestWanted::on_the_body || !setup_.log.empty())
            return;
        level();
        sheet();
    }

  private:
    void check(bool holds, const char* property) { tally_.check(holds, property, seed_); }

    void link() {
        const SetupRead opened = open_link(link_of(setup_));
        if (!opened.setup)
            return check(false, "a link of it opens");
        const ReportResult again = report(*opened.setup);
        check(again.report && report_json(*again.report, english()) == report_json(answer_, english()),
              "a link opens to the same report");
    }

    void level() {
        const ReportResult after = report(put_back(setup_, best_));
        if (!after.report)
            return check(false, "what was advised can be entered as it stands");
        const double advance_m = *best_.turns * setup_.guitar.bay.screw_pitch_mm * 1e-3;
        check(std::abs(after.report->untouched.tail_mm - setup_.next.tail_mm) < same_mm,
              "carried out, the tail stands as wanted");
        check(std::abs(after.report->now.claw.x_m - (answer_.now.claw.x_m + advance_m)) < same_mm * 1e-3,
              "carried out, the claw is where the turns took it");
    }

    void sheet() {
        if (!answer_.tuning)
            return check(false, "what fits has a tuning sheet");
        reference::Simulated guitar(setup_, answer_);
        guitar.aim(answer_.tuning->aim_cents);
        tally_.count(answer_.tuning->why_gentler ? "sheet: two gentler passes are asked for"
                                                 : "sheet: one pass");
        check(guitar.worst() < landed_cents, "one pass by the sheet lands every string");
        if (!answer_.tuning->why_gentler)
            return;
        reference::Simulated gently(setup_, answer_);
        for (const std::vector<double>& pass : answer_.tuning->gentler_cents)
            gently.aim(pass);
        check(gently.worst() < landed_cents, "two gentler passes land every string");
    }

    const Setup& setup_;
    const Report& answer_;
    const Advice& best_;
    std::uint64_t seed_;
    Tally& tally_;
};

std::string name_of(const Report& answer) {
    const Advice& best = answer.advice.front();
    return !best.fits     ? best.only_springs_missing() ? "springs would have to be bought" : "nothing fits"
           : best.soft    ? "fits, but soft"
           : best.splayed ? "fits with splayed springs"
                          : "fits";
}

} // namespace

void try_reports(long count, Tally& tally) {
    for (std::uint64_t seed = 1; count > 0; ++seed, --count) {
        const SetupRead read = read_setup(document_of(seed));
        if (!read.setup) {
            tally.check(!read.problems.none() && !read.problems.told.front().path.empty(),
                        "a document refused is refused with a place", seed);
            tally.count("report refused, the document: " +
                        (read.problems.none() ? "" : without_indices(read.problems.told.front().path)));
            continue;
        }
        Setup setup = *read.setup;
        ReportResult result = report(setup);
        if (result.report && seed % 4 == 0 && result.report->advice.front().turns) {
            setup = with_readings(setup, *result.report, seed);
            result = report(setup);
        }
        if (!result.report) {
            tally.check(!result.problems.none() && !result.problems.told.front().path.empty(),
                        "a report refused is refused with a place", seed);
            tally.count("report refused: " +
                        (result.problems.none() ? "" : without_indices(result.problems.told.front().path)));
            continue;
        }
        tally.count((setup.log.empty() ? "report, " : "report with readings, ") + name_of(*result.report));
        OneReport(setup, *result.report, seed, tally).look();
    }
}

} // namespace properties
