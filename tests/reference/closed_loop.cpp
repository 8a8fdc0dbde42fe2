#include "tests/reference/closed_loop.h"

#include "tests/reference/hidden_guitar.h"

#include <algorithm>
#include <cmath>

namespace reference {

using namespace counterpull;

namespace {

constexpr double hand_leaves_turns = 1.0 / 32.0; // less is left alone
constexpr double worth_a_turn = 1.0 / 16.0;      // where the screws were just turned
constexpr double feel_mm_per_turn = 3.6;         // a quarter turn for 0.9 mm (common practice)
constexpr double feel_surplus_turns = 0.375, dropped_turns = 0.5;

class Game {
  public:
    Game(HiddenGuitar guitar, Player player, Done done)
        : guitar_(std::move(guitar)), player_(player), done_(done) {}

    Run play() {
        if (player_ == Player::by_feel || player_ == Player::wedge_alone)
            feel();
        else
            follow();
        run_.off_mm = std::abs(off_mm());
        return run_;
    }

  private:
    double off_mm() const { return guitar_.tail_mm() - guitar_.setup().next.tail_mm; }
    Setup& setup() { return guitar_.setup(); }
    int strings() const { return static_cast<int>(guitar_.setup().next.strings.size()); }
    bool is_done(double read_mm) const {
        const double off = done_ == Done::truly ? off_mm() : read_mm - guitar_.setup().next.tail_mm;
        return std::abs(off) <= close_enough_mm;
    }

    // An entry for the log as the claw stands; its readings still empty.
    Reading& enter(ReadingKind kind) {
        Reading reading;
        reading.kind = kind;
        reading.springs = springs_;
        reading.turns = {turns_, turns_};
        return setup().log.emplace_back(std::move(reading));
    }

    double tune_and_read_tail() {
        run_.tunings += guitar_.tune_until_in_tune();
        guitar_.work_the_arm();
        return guitar_.read_tail_mm();
    }
    void bring_up_roughly() {
        guitar_.string_up();
        run_.rough += strings();
        guitar_.tune_plainly_once();
    }

    void follow();
    void begin(const Report& report, Way way);
    double visit(const Report& report);
    void turn(const Report& report, double more);
    void turn_the_rest();
    int tune_on_the_wedge(int most_tries);
    void wedge();
    void ease();
    void by_the_sheet();
    void feel();
    double wedge_by_feel();

    HiddenGuitar guitar_;
    Player player_;
    Done done_;
    Run run_;
    Way way_;
    Arrangement springs_;
    double turns_ = 0.0; // as counted
    bool first_ = true;
};

Way way_of(Player player, const Advice& best) {
    switch (player) {
    case Player::advised:
        return best.work.way;
    case Player::tested:
    case Player::rest_turned:
        return {false, true};
    case Player::wedged:
        return {true, false};
    default:
        return {};
    }
}

// What is predicted of the job, before anything is read.
void Game::begin(const Report& report, Way way) {
    const Advice& best = report.solution.advised();
    way_ = way;
    run_.predicted_visits = predicted_work(best.job, way).visits;
    run_.predicted_first_mm = first_tail_sigma_mm(best.job, way);
    run_.predicted_tunings = best.job.strings * (way.wedge ? tunings_wedged : tunings_plain);
}

void Game::follow() {
    ReportResult result = report(setup());
    if (!result.report || !result.report->solution.advised().turns) {
        run_.visits = lost;
        return;
    }
    begin(*result.report, way_of(player_, result.report->solution.advised()));
    if (way_.test)
        if (const auto test = best_test_reading(result.report->solution)) {
            setup().log.push_back(guitar_.read_test(*test));
            result = report(setup());
        }
    for (int i = 1; i <= most_visits; ++i) {
        if (!result.report || !result.report->solution.advised().turns)
            break;
        const Advice& best = result.report->solution.advised();
        if (i == 1) {
            run_.first_sigma = best.turns_sigma;
            run_.first_turns_off = guitar_.turns_wanted(best.springs).value_or(99.0) - *best.turns;
        }
        const double read_mm = visit(*result.report);
        if (i == 1) {
            run_.first_mm = off_mm();
            run_.first_tunings = run_.tunings;
        } else if (i == 2) {
            run_.second_mm = off_mm();
        }
        if (is_done(read_mm)) {
            run_.visits = i;
            return;
        }
        first_ = false;
        result = report(setup());
    }
    run_.visits = lost;
}

// By counting; where the strings stay up in their tuning, until the tuner shows what it should.
void Game::turn(const Report& report, double more) {
    const auto& sheet = report.tuning;
    if (sheet && sheet->watch) {
        guitar_.mean_next();
        turns_ += guitar_.turn_until(*sheet->watch, sheet->watch_cents, more);
    } else {
        turns_ += more;
        guitar_.turn(springs_, more);
    }
}

// What the tool says is left to turn after what the tuner just showed; little is left alone.
void Game::turn_the_rest() {
    const ReportResult result = report(setup());
    if (!result.report || !result.report->solution.advised().turns)
        return;
    const double more = result.report->solution.more_turns();
    if (result.report->solution.advised().moved > 0 || std::abs(more) < worth_a_turn)
        return;
    ++run_.further_turns;
    turn(*result.report, more);
    guitar_.work_the_arm();
    enter(ReadingKind::after_turn).cents = guitar_.read_cents();
}

// Returns the tail as read at the end.
double Game::visit(const Report& report) {
    const Advice& best = report.solution.advised();
    const bool new_strings = best.moved > 0 || (first_ && setup().now.strings != setup().next.strings);
    const bool wedged = way_.wedge && report.wedge && (first_ || best.moved > 0);
    springs_ = best.springs;
    const double more = (wedged ? report.wedge->turns : *best.turns) - turns_;
    if (wedged) {
        turns_ += more;
        guitar_.turn(springs_, more);
        if (new_strings)
            bring_up_roughly();
        wedge();
        ease();
    } else {
        turn(report, more);
        if (new_strings)
            bring_up_roughly();
        else
            guitar_.mean_next();
        guitar_.work_the_arm();
        // What the tuner shows before anything is tuned again; with it the sheet begins.
        Reading& reading = enter(new_strings ? ReadingKind::after_pass : ReadingKind::after_turn);
        reading.cents = guitar_.read_cents();
        reading.tail_mm = guitar_.read_tail_mm();
        if (player_ == Player::rest_turned && first_)
            turn_the_rest();
        by_the_sheet();
    }
    const double tail_mm = tune_and_read_tail();
    enter(ReadingKind::in_tune).tail_mm = tail_mm;
    return tail_mm;
}

// Each string tuned once against the wedge. Where it drops out: strings down, half a turn in, on. Returns how
// often it dropped.
int Game::tune_on_the_wedge(int most_tries) {
    int dropped = 0;
    for (; dropped < most_tries; ++dropped) {
        guitar_.wedge_and_tune();
        run_.tunings += strings();
        if (guitar_.holds_wedge())
            break;
        turns_ += dropped_turns;
        guitar_.turn(springs_, dropped_turns);
    }
    run_.wedge_dropped += dropped;
    guitar_.pull_wedge();
    return dropped;
}

void Game::wedge() {
    tune_on_the_wedge(4);
    enter(ReadingKind::wedge_out).cents = guitar_.read_cents();
}

void Game::ease() {
    const ReportResult result = report(setup());
    if (!result.report || !result.report->solution.advised().turns)
        return;
    const double more = result.report->solution.more_turns();
    if (std::abs(more) < hand_leaves_turns)
        return;
    turn(*result.report, more);
    guitar_.work_the_arm();
    enter(ReadingKind::after_turn).cents = guitar_.read_cents();
}

// Each string to its aim, in one pass or in two gentler ones.
void Game::by_the_sheet() {
    const ReportResult result = report(setup());
    if (!result.report || !result.report->tuning)
        return;
    const TuningSheet& sheet = *result.report->tuning;
    std::vector<std::vector<double>> passes = {sheet.aim_cents};
    if (sheet.why_gentler)
        passes = sheet.gentler_cents;
    for (const std::vector<double>& aims : passes) {
        guitar_.aim(aims);
        run_.tunings += strings();
        guitar_.work_the_arm();
        Reading& reading = enter(ReadingKind::after_pass);
        reading.aim_cents = aims;
        reading.cents = guitar_.read_cents();
    }
}

// On the springs that the tool would have, which is more than feel knows; then the claw by what the ruler
// says.
void Game::feel() {
    const ReportResult told = report(setup());
    if (!told.report) {
        run_.visits = lost;
        return;
    }
    const Advice& best = told.report->solution.advised();
    const BaySetup& bay = setup().guitar.bay;
    springs_ = best.springs;
    const bool new_strings = best.moved > 0 || setup().now.strings != setup().next.strings;
    double read_mm = 0.0;
    if (player_ == Player::wedge_alone) {
        read_mm = wedge_by_feel();
    } else {
        const bool correction = is_correction(setup());
        guitar_.turn_nothing(springs_);
        if (new_strings)
            bring_up_roughly();
        read_mm = correction ? setup().now.tail_mm : tune_and_read_tail();
        run_.visits = best.moved > 0; // the springs were its first
    }
    while (!is_done(read_mm) && run_.visits < most_visits_by_feel) {
        const double more = std::clamp((read_mm - setup().next.tail_mm) / feel_mm_per_turn,
                                       -bay.turns_out_left - turns_, bay.turns_in_left - turns_);
        guitar_.turn(springs_, more);
        turns_ += more;
        read_mm = tune_and_read_tail();
        ++run_.visits;
    }
}

double Game::wedge_by_feel() {
    const ReportResult told = report(setup());
    const bool new_strings =
        told.report->solution.advised().moved > 0 || setup().now.strings != setup().next.strings;
    guitar_.turn(springs_, feel_surplus_turns);
    turns_ = feel_surplus_turns;
    if (new_strings)
        bring_up_roughly();
    run_.visits = 1 + tune_on_the_wedge(most_visits_by_feel - 1);
    turns_ += guitar_.turn_until(0, 0.0, -feel_surplus_turns);
    return tune_and_read_tail();
}

} // namespace

std::string_view name_of(Player player) {
    switch (player) {
    case Player::plain:
        return "plain";
    case Player::tested:
        return "one test reading";
    case Player::rest_turned:
        return "test, then rest";
    case Player::wedged:
        return "with a wedge";
    case Player::advised:
        return "the tool's way";
    case Player::by_feel:
        return "by feel";
    case Player::wedge_alone:
        break;
    }
    return "wedge alone";
}

int Outcome::within(int visits) const {
    return static_cast<int>(
        std::count_if(runs.begin(), runs.end(), [&](const Run& run) { return run.visits <= visits; }));
}

double Outcome::at(double share, int Run::*what) const {
    std::vector<int> all;
    for (const Run& run : runs)
        all.push_back(run.*what);
    std::sort(all.begin(), all.end());
    const double place = share * static_cast<double>(all.size() - 1);
    const auto low = static_cast<std::size_t>(std::floor(place)),
               high = static_cast<std::size_t>(std::ceil(place));
    return share == 0.5 ? 0.5 * (all[low] + all[high]) : all[high];
}

double Outcome::covered() const {
    const auto inside = std::count_if(runs.begin(), runs.end(), [](const Run& run) {
        return std::abs(run.first_turns_off) <= ninety_percent * run.first_sigma;
    });
    return static_cast<double>(inside) / static_cast<double>(runs.size());
}

Outcome follow(const Setup& setup, Player player, Done done, int first, int count) {
    Outcome outcome;
    for (int number = first; static_cast<int>(outcome.runs.size()) < count; ++number)
        if (HiddenGuitar guitar(setup, static_cast<std::uint64_t>(number)); guitar.possible())
            outcome.runs.push_back(Game(std::move(guitar), player, done).play());
    return outcome;
}

} // namespace reference
