#include "engine/hearing/window_reading.h"

#include "engine/base/pitch.h"
#include "engine/hearing/clearness.h"
#include "engine/hearing/string_fit.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

namespace counterpull {

namespace {

constexpr double reach_expected_cents = 80.0;
constexpr double reach_cents = 120.0;
constexpr double reach_wide_cents = 200.0;
constexpr double widen_above = 0.02; // share unexplained

constexpr double consistent_cents = 4.0; // from where the string has the partial, beside twice its own sigma
constexpr double measured_cents = 10.0;  // a partial less sure than that says nothing
constexpr double hole_from_hz = 280.0;   // a phone does not hear what lies below
constexpr int least_clear = 3;
constexpr double most_scatter_cents = 2.0;
constexpr double most_scatter_strum_cents =
    1.5;                             // where other strings' partials are at hand to be taken for its own
constexpr double sympathetic = 8e-3; // of the loudest string's power: so much rings along unplucked
constexpr int strum_strings = 3;
constexpr double most_unexplained = 0.18; // then it is something else that sounds
constexpr double unexplained_doubles = 0.04;
constexpr double far_doubles_cents = 100.0;
constexpr double mains_off_share = 0.0006; // the grid keeps its frequency to that
constexpr double mains_off_hz = 0.15;
constexpr double steady_per_s = 0.4;    // a string fades faster; the mains do not fade
constexpr double doubted_above = 0.002; // share unexplained
constexpr double sure_evidence = 25.0;
constexpr double sure_sigma_cents = 0.7;
constexpr double hopeless_evidence = 4.0;
constexpr double fades_per_s =
    0.1; // half of a string's partials do, faster than that; a voice that holds its pitch does not
constexpr double scatter_share = 0.5; // partials that disagree do not average out

bool clear(const Partial& partial, const Tone& tone) {
    const double off =
        cents_between(partial_hz(tone, partial.number), std::max(partial.hz + partial.off_hz, 1.0));
    const double sigma = cents_between(partial.hz, partial.hz + partial.off_sigma_hz);
    return partial.clearness() > clear_partial && sigma < measured_cents &&
           std::abs(off) < consistent_cents + 2.0 * sigma;
}

// A line of the mains: at a multiple of 50 or 60 Hz, and as strong at the end as in the beginning.
bool mains_line(const Partial& partial, double window_s) {
    const double hz = partial.hz + partial.off_hz;
    if (std::abs(partial.decay_per_s(window_s)) > steady_per_s)
        return false;
    for (const double mains : {50.0, 60.0}) {
        const double apart = std::abs(hz - mains * std::round(hz / mains));
        if (apart < mains_off_hz + mains_off_share * hz)
            return true;
    }
    return false;
}

double median(std::vector<double> values) {
    if (values.empty())
        return 0.0;
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

StringReading judge(const Sounding& string, const std::vector<Partial>& partials, const StringTarget& target,
                    double window_s) {
    StringReading reading;
    int count = 0, odd = 0, not_thirds = 0, highest = 0;
    double highest_power = 0.0;
    std::vector<double> decays;
    for (const Partial& partial : partials) {
        if (partial.string != string.string || !clear(partial, string.tone) || mains_line(partial, window_s))
            continue;
        ++count;
        decays.push_back(partial.decay_per_s(window_s));
        odd += partial.number % 2 != 0;
        not_thirds += partial.number % 3 != 0;
        highest = partial.number;
        highest_power = squared(partial.a);
        reading.power += squared(partial.a);
        reading.evidence += std::min(std::log(partial.clearness()), most_of_one_partial);
    }
    for (const Partial& partial : partials)
        if (partial.string == string.string && partial.number < highest && partial.hz > hole_from_hz &&
            !clear(partial, string.tone) &&
            highest_power > clear_partial * partial.residual * partial.spread_a)
            reading.evidence -= hole_costs;
    reading.hz = string.tone.hz;
    reading.inharmonicity = string.tone.inharmonicity;
    reading.decay_per_s = median(std::move(decays));
    reading.scatter_cents = string.scatter_cents;
    reading.cents = cents_between(target.hz, string.tone.hz);
    reading.sigma_cents = std::hypot(string.sigma_cents, scatter_share * string.scatter_cents);
    // Only even partials would be those of an octave, only every third those of a twelfth.
    reading.heard = count >= least_clear && odd > 0 && not_thirds > 0 && reading.evidence >= least_evidence &&
                    string.scatter_cents < most_scatter_cents;
    return reading;
}

std::vector<StringReading> judge_all(const std::vector<Sounding>& strings,
                                     const std::vector<Partial>& partials,
                                     const std::vector<StringTarget>& targets, double window_s) {
    std::vector<StringReading> readings(targets.size());
    for (const Sounding& string : strings)
        readings[string.string] = judge(string, partials, targets[string.string], window_s);
    return readings;
}

// Strings that nobody struck ring along with one or two that were; where more were struck, it was a strum.
// And what sounds alone and does not fade is a voice, or a tone that somebody made.
void silence_what_was_not_struck(std::vector<StringReading>& readings) {
    double loudest = 0.0;
    for (const StringReading& reading : readings)
        loudest = std::max(loudest, reading.heard ? reading.power : 0.0);
    int struck = 0;
    for (const StringReading& reading : readings)
        struck += reading.heard && reading.power > sympathetic * loudest;
    for (StringReading& reading : readings) {
        const bool rings_along = struck < strum_strings && reading.power <= sympathetic * loudest;
        const bool stays = struck == 1 && reading.decay_per_s < fades_per_s;
        const bool mixed_up = struck >= strum_strings && reading.scatter_cents > most_scatter_strum_cents;
        reading.heard = reading.heard && !rings_along && !stays && !mixed_up;
    }
}

// Takes out what is not heard: all that is hopeless, else the worst. Says whether there was any.
bool take_out(std::vector<Sounding>& strings, const std::vector<StringReading>& readings) {
    double worst = std::numeric_limits<double>::max();
    for (const Sounding& string : strings)
        if (!readings[string.string].heard)
            worst = std::min(worst, readings[string.string].evidence);
    return std::erase_if(strings, [&](const Sounding& string) {
               const StringReading& reading = readings[string.string];
               return !reading.heard && reading.evidence <= std::max(worst, hopeless_evidence);
           }) > 0;
}

enum class Reach { usual, wide };

std::vector<Sounding> beyond_doubt(const WindowReading& reading) {
    std::vector<Sounding> strings;
    for (std::size_t string = 0; string < reading.strings.size(); ++string) {
        const StringReading& one = reading.strings[string];
        if (one.evidence > sure_evidence && one.sigma_cents < sure_sigma_cents)
            strings.push_back({string, {one.hz, one.inharmonicity}, one.sigma_cents, 0.0});
    }
    return strings;
}

WindowReading read_within(const Spectrum& spectrum, const std::vector<StringTarget>& targets,
                          std::size_t most, Reach reach, std::vector<Sounding> known) {
    std::vector<Sought> sought;
    for (const StringTarget& target : targets)
        sought.push_back({raised_hz(target.hz, target.expected_cents),
                          reach == Reach::wide ? reach_wide_cents
                          : target.expected    ? reach_expected_cents
                                               : reach_cents,
                          target.inharmonicity});
    std::vector<Sounding> strings = acquire(spectrum, sought, most, std::move(known));
    WindowReading reading;
    std::vector<Partial> partials;
    // What is not heard has taken a share of what is: it goes, and the others are read again.
    do {
        partials = refine(spectrum, sought, strings, 3);
        reading.strings = judge_all(strings, partials, targets, spectrum.seconds());
    } while (take_out(strings, reading.strings));
    reading.unexplained = unexplained_share(spectrum, partials);
    silence_what_was_not_struck(reading.strings);
    // The more there is that nobody explains, and the farther a string is from where it was expected, the
    // more evidence it has to bring.
    for (std::size_t string = 0; string < targets.size(); ++string) {
        StringReading& one = reading.strings[string];
        const double far = (one.cents - targets[string].expected_cents) / far_doubles_cents;
        const double least =
            least_evidence * (1.0 + reading.unexplained / unexplained_doubles) * (1.0 + far * far);
        one.heard = one.heard && one.evidence >= least && reading.unexplained < most_unexplained;
    }
    return reading;
}

} // namespace

WindowReading read_window(std::span<const float> samples, double rate_hz,
                          const std::vector<StringTarget>& targets, const MainsLines& mains, std::size_t most,
                          const WindowReading* before) {
    Spectrum spectrum(samples, rate_hz);
    spectrum.expect_mains(mains);
    if (before != nullptr) {
        WindowReading reading = read_within(spectrum, targets, most, Reach::usual, beyond_doubt(*before));
        if (reading.unexplained < widen_above)
            return reading;
    }
    WindowReading best = read_within(spectrum, targets, most, Reach::usual, {});
    const auto better = [&best](WindowReading reading) {
        if (reading.unexplained < best.unexplained)
            best = std::move(reading);
    };
    // Once more from what is beyond doubt: a string found in the wrong place may have kept others from
    // theirs.
    if (best.unexplained > doubted_above && most > 1)
        better(read_within(spectrum, targets, most, Reach::usual, beyond_doubt(best)));
    if (best.unexplained > widen_above)
        better(read_within(spectrum, targets, most, Reach::wide, {}));
    return best;
}

} // namespace counterpull
