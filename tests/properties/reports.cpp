#include "engine/advice/report.h"
#include "engine/belief/spread_history.h"
#include "engine/document/link.h"
#include "engine/say/report_json.h"
#include "tests/properties/properties.h"
#include "tests/reference/altered_setup.h"
#include "tests/reference/hidden_guitar.h"
#include "tests/reference/random_setup.h"
#include "tests/reference/simulated_tuning.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <random>

namespace properties {

using namespace counterpull;

namespace {

constexpr double same_mm = 1e-6;
constexpr double landed_cents = 0.01;
constexpr double quarter_turn = 0.25;
// Below this a string is slack, and what it then sounds by its stiffness does not say how slack.
constexpr double slack_cents = -1200.0;

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

// What its player would have read by now: after the first visit, in tune, and after a quarter turn more. The
// guitar's true numbers are drawn from what the tool believes. Nothing where it is no guitar, or nothing
// fits.
std::optional<Setup> with_readings(const Setup& setup, std::uint64_t seed) {
    if (!setup.now.in_tune)
        return std::nullopt;
    reference::HiddenGuitar guitar(setup, seed);
    if (!guitar.possible())
        return std::nullopt;
    const ReportResult result = report(guitar.setup());
    if (!result.report || !result.report->solution.advice.front().fits())
        return std::nullopt;
    const Advice& best = result.report->solution.advice.front();
    guitar.turn(best.springs, *best.turns);
    if (best.moved > 0 || setup.now.strings != setup.next.strings)
        guitar.string_up();
    guitar.tune_until_in_tune();
    Reading reading;
    reading.springs = best.springs;
    reading.turns = {*best.turns, *best.turns};
    reading.tail_mm = guitar.read_tail_mm();
    guitar.setup().log.push_back(reading);
    guitar.turn(best.springs, quarter_turn);
    reading.kind = ReadingKind::after_turn;
    for (double& turns : reading.turns)
        turns += quarter_turn;
    reading.tail_mm.reset();
    reading.cents = guitar.read_cents();
    guitar.setup().log.push_back(reading);
    return guitar.setup();
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
        : setup_(setup), answer_(answer), best_(answer.solution.advice.front()), seed_(seed), tally_(tally) {}

    void look() {
        finite();
        link();
        if (!best_.fits() || setup_.next.rest == RestWanted::on_the_body || !setup_.log.empty())
            return;
        level();
        sheet();
    }

  private:
    void check(bool holds, const char* property) { tally_.check(holds, property, seed_); }

    // JSON would say null, and it could not be told from what is left open.
    void finite() {
        bool all = true;
        for (const Advice& advice : answer_.solution.advice)
            all = all && std::isfinite(advice.turns.value_or(0.0)) && std::isfinite(advice.turns_sigma) &&
                  std::isfinite(advice.tail_sigma_m) && std::isfinite(advice.per_turn_m) &&
                  std::isfinite(advice.bend_tail_m);
        const auto test = best_test_reading(answer_.solution);
        all = all && std::isfinite(test ? test->sigma_after : 0.0);
        for (const double sigma : spread_history(answer_.solution.calibration, best_.turns_per))
            all = all && std::isfinite(sigma);
        check(all, "every number of every piece of advice is finite");
    }

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
        const std::vector<double>& aims = answer_.tuning->aim_cents;
        tally_.count(answer_.tuning->why_gentler ? "sheet: two gentler passes are asked for"
                                                 : "sheet: one pass");
        if (*std::min_element(aims.begin(), aims.end()) > slack_cents) {
            reference::Simulated guitar(setup_, answer_);
            guitar.aim(aims);
            check(guitar.worst() < landed_cents, "one pass by the sheet lands every string");
        } else {
            tally_.count("sheet: a string would go slack in the one pass");
        }
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
    const Advice& best = answer.solution.advice.front();
    return !best.fits() ? best.only_springs_missing() ? "springs would have to be bought" : "nothing fits"
           : best.measure_first ? "fits, to be measured first"
           : best.splayed       ? "fits with splayed springs"
                                : "fits";
}

} // namespace

std::string document_with_readings(std::uint64_t seed) {
    const std::string document = document_of(seed);
    const SetupRead read = read_setup(document);
    if (!read.setup || seed % 4 != 0)
        return document;
    const std::optional<Setup> logged = with_readings(*read.setup, seed);
    return logged ? write_setup(*logged) : document;
}

void try_reports(long count, Tally& tally) {
    for (std::uint64_t seed = 1; count > 0; ++seed, --count) {
        const SetupRead read = read_setup(document_with_readings(seed));
        if (!read.setup) {
            tally.check(!read.problems.none() && !read.problems.told.front().path.empty(),
                        "a document refused is refused with a place", seed);
            tally.count("report refused, the document: " +
                        (read.problems.none() ? "" : without_indices(read.problems.told.front().path)));
            continue;
        }
        const Setup& setup = *read.setup;
        const ReportResult result = report(setup);
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
