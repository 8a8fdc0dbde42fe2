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
    1.5;                               // where other strings' partials are at hand to be taken for its own
constexpr double sympathetic = 2.5e-2; // of the loudest string's power: so much rings along unplucked
constexpr int strum_strings = 3;
constexpr double least_evidence_strum =
    5.5;                                  // where more sound: what one of them has not to itself, another has
constexpr double most_unexplained = 0.18; // then it is something else that sounds
constexpr double most_unexplained_fading =
    0.3; // recorded plucks leave up to that, a voice that holds its pitch too
constexpr double fades_clearly_per_s = 0.6;
constexpr double unexplained_doubles = 0.04;
constexpr double far_doubles_cents = 100.0;
constexpr double mains_off_share = 0.0006; // the grid keeps its frequency to that
constexpr double mains_off_hz = 0.15;
constexpr double steady_per_s = 0.4;    // a string fades faster; the mains do not fade
constexpr double doubted_above = 0.002; // share unexplained
constexpr double shared_cents = 6.0;
constexpr double doubted_scatter_cents = 1.0;
constexpr double highest_shared = 4.0; // partials of that number and below are those that lead astray
constexpr double sure_evidence = 25.0;
constexpr double sure_sigma_cents = 0.7;
constexpr double hopeless_evidence = 4.0;
constexpr double fades_per_s =
    0.1; // half of a string's partials do, faster than that; a voice that holds its pitch does not
// Partials that disagree do not average out: on recorded steel and nylon strings another method, which asks
// the same partials otherwise, differs by this times their scatter, and where they are at one by less.
constexpr double scatter_share = 1.8;
constexpr double at_one_cents = 1.0;
constexpr double sure_scatter_share = 0.5;

double sigma_of(const Sounding& string) {
    const double scatter = string.scatter_cents;
    return std::hypot(string.sigma_cents, scatter_share * scatter * std::min(scatter / at_one_cents, 1.0));
}

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
                    double window_s, double least) {
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
    reading.sigma_cents = sigma_of(string);
    reading.fit_sigma_cents = string.sigma_cents;
    // Only even partials would be those of an octave, only every third those of a twelfth.
    reading.heard = count >= least_clear && odd > 0 && not_thirds > 0 && reading.evidence >= least &&
                    string.scatter_cents < most_scatter_cents;
    return reading;
}

int heard_of(const std::vector<StringReading>& readings) {
    int count = 0;
    for (const StringReading& reading : readings)
        count += reading.heard;
    return count;
}

// Whether one string's fundamental is a louder one's partial: then all its partials are, and what is left of
// them where the louder one is not quite as the model has it looks like a string.
bool partial_of(const StringReading& one, const StringReading& louder) {
    const double ratio = one.hz / louder.hz;
    return one.power < louder.power && ratio > 1.5 && ratio < highest_shared + 0.5 &&
           std::abs(cents_between(std::round(ratio), ratio)) < shared_cents;
}

std::vector<StringReading> judge_all(const std::vector<Sounding>& strings,
                                     const std::vector<Partial>& partials,
                                     const std::vector<StringTarget>& targets, double window_s) {
    std::vector<StringReading> readings(targets.size());
    const double least =
        static_cast<int>(strings.size()) > strum_strings ? least_evidence_strum : least_evidence;
    for (const Sounding& string : strings)
        readings[string.string] = judge(string, partials, targets[string.string], window_s, least);
    if (heard_of(readings) > strum_strings)
        return readings;
    for (StringReading& one : readings)
        for (const StringReading& louder : readings)
            if (one.heard && louder.heard && partial_of(one, louder))
                one.heard = false;
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

// Without what is not heard: all that is hopeless, else the worst, but not what is `needed`.
std::vector<Sounding> without_worst(const std::vector<Sounding>& strings,
                                    const std::vector<StringReading>& readings,
                                    const std::vector<bool>& needed) {
    double worst = std::numeric_limits<double>::max();
    for (const Sounding& string : strings)
        if (!readings[string.string].heard && !needed[string.string])
            worst = std::min(worst, readings[string.string].evidence);
    std::vector<Sounding> left = strings;
    std::erase_if(left, [&](const Sounding& string) {
        const StringReading& reading = readings[string.string];
        return !reading.heard && !needed[string.string] &&
               reading.evidence <= std::max(worst, hopeless_evidence);
    });
    return left;
}

enum class Reach { usual, wide };

std::vector<Sounding> beyond_doubt(const WindowReading& reading) {
    std::vector<Sounding> strings;
    for (std::size_t string = 0; string < reading.strings.size(); ++string) {
        const StringReading& one = reading.strings[string];
        const double sigma = std::hypot(one.fit_sigma_cents, sure_scatter_share * one.scatter_cents);
        if (one.evidence > sure_evidence && sigma < sure_sigma_cents)
            strings.push_back({string, {one.hz, one.inharmonicity}, sigma, 0.0});
    }
    return strings;
}

bool explained_enough(const WindowReading& reading, const StringReading& one) {
    return reading.unexplained <
           (one.decay_per_s > fades_clearly_per_s ? most_unexplained_fading : most_unexplained);
}

// Whether what was heard lies nearer to where another string is expected that was not heard.
bool another_more_likely(const WindowReading& reading, const std::vector<StringTarget>& targets,
                         std::size_t string) {
    const StringReading& one = reading.strings[string];
    const auto far_from = [&](const StringTarget& target) {
        return std::abs(cents_between(raised_hz(target.hz, target.expected_cents), one.hz));
    };
    for (std::size_t other = 0; one.heard && other < targets.size(); ++other)
        if (other != string && !reading.strings[other].heard &&
            far_from(targets[other]) < far_from(targets[string]))
            return true;
    return false;
}

WindowReading read_within(const Spectrum& spectrum, const std::vector<StringTarget>& targets,
                          std::size_t most, Reach reach, std::vector<Sounding> known,
                          Next next = Next::best) {
    std::vector<Sought> sought;
    for (const StringTarget& target : targets)
        sought.push_back({raised_hz(target.hz, target.expected_cents),
                          reach == Reach::wide ? reach_wide_cents
                          : target.expected    ? reach_expected_cents
                                               : reach_cents,
                          target.inharmonicity});
    std::vector<Sounding> strings = acquire(spectrum, sought, most, std::move(known), next);
    WindowReading reading;
    std::vector<Partial> partials = refine(spectrum, sought, strings, 3);
    reading.strings = judge_all(strings, partials, targets, spectrum.seconds());
    // What is not heard has taken a share of what is: it goes, and the others are read again. But where one
    // of several is heard no longer without it, it does sound, though too little is known of it.
    std::vector<bool> needed(targets.size(), false);
    for (;;) {
        std::vector<Sounding> left = without_worst(strings, reading.strings, needed);
        if (left.size() == strings.size())
            break;
        std::vector<Partial> theirs = refine(spectrum, sought, left, 3);
        std::vector<StringReading> readings = judge_all(left, theirs, targets, spectrum.seconds());
        const int heard = heard_of(reading.strings);
        if (heard >= strum_strings && (heard_of(readings) < heard || spoiled(strings, left))) {
            for (const Sounding& string : strings)
                needed[string.string] = needed[string.string] || !sounds(left, string.string);
            continue;
        }
        strings = std::move(left);
        partials = std::move(theirs);
        reading.strings = std::move(readings);
    }
    reading.unexplained = unexplained_share(spectrum, partials);
    silence_what_was_not_struck(reading.strings);
    // The more there is that nobody explains, and the farther a string is from where it was expected, the
    // more evidence it has to bring.
    const double base = heard_of(reading.strings) > strum_strings ? least_evidence_strum : least_evidence;
    for (std::size_t string = 0; string < targets.size(); ++string) {
        StringReading& one = reading.strings[string];
        const double far = (one.cents - targets[string].expected_cents) / far_doubles_cents;
        const double least = base * (1.0 + reading.unexplained / unexplained_doubles + far * far);
        one.heard = one.heard && one.evidence >= least && explained_enough(reading, one);
    }
    for (std::size_t string = 0; string < targets.size(); ++string)
        reading.strings[string].heard =
            reading.strings[string].heard && !another_more_likely(reading, targets, string);
    return reading;
}

// Whether the higher one's fundamental lies near a low partial of the other.
bool share_partials(const StringTarget& one, const StringTarget& other) {
    const double ratio = std::max(one.hz, other.hz) / std::min(one.hz, other.hz);
    const double whole = std::round(ratio);
    return whole >= 2.0 && whole <= highest_shared &&
           std::abs(cents_between(whole, ratio)) < reach_cents + reach_expected_cents;
}

// Whether there is a string whose partials disagree.
bool confused(const WindowReading& reading) {
    for (const StringReading& one : reading.strings)
        if (one.evidence > least_evidence && one.scatter_cents > doubted_scatter_cents)
            return true;
    return false;
}

// What is beyond doubt and has no partials where a string that was not heard may have its own: one of the two
// may have been found in the other's place.
std::vector<Sounding> beyond_confusion(const WindowReading& reading,
                                       const std::vector<StringTarget>& targets) {
    std::vector<Sounding> strings = beyond_doubt(reading);
    std::erase_if(strings, [&](const Sounding& string) {
        for (std::size_t other = 0; other < targets.size(); ++other)
            if (!reading.strings[other].heard && share_partials(targets[string.string], targets[other]))
                return true;
        return reading.strings[string.string].scatter_cents > doubted_scatter_cents;
    });
    return strings;
}

} // namespace

WindowReading read_window(std::span<const float> samples, double rate_hz,
                          const std::vector<StringTarget>& targets, const MainsLines& mains, std::size_t most,
                          const WindowReading* before) {
    Spectrum spectrum(samples, rate_hz);
    spectrum.expect_mains(mains);
    WindowReading best;
    const auto better = [&best](WindowReading reading) {
        const int more = heard_of(reading.strings) - heard_of(best.strings);
        if (reading.unexplained < best.unexplained && (more >= 0 || best.unexplained > doubted_above))
            best = std::move(reading);
        else if (more > 0 && reading.unexplained < doubted_above)
            best = std::move(reading);
    };
    // A string found in the place of another, an octave or a twelfth away, keeps it from being found.
    const auto mend = [&] {
        if (most > 1 && heard_of(best.strings) < static_cast<int>(targets.size()) &&
            (best.unexplained > doubted_above || confused(best)) && !beyond_doubt(best).empty())
            better(read_within(spectrum, targets, most, Reach::usual, beyond_confusion(best, targets),
                               Next::highest));
    };
    if (before != nullptr) {
        best = read_within(spectrum, targets, most, Reach::usual, beyond_doubt(*before));
        mend();
        if (best.unexplained < widen_above)
            return best;
    }
    best = read_within(spectrum, targets, most, Reach::usual, {});
    // Once more from what is beyond doubt: a string found in the wrong place may have kept others from
    // theirs.
    if (best.unexplained > doubted_above && most > 1)
        better(read_within(spectrum, targets, most, Reach::usual, beyond_doubt(best)));
    mend();
    if (best.unexplained > widen_above)
        better(read_within(spectrum, targets, most, Reach::wide, {}));
    return best;
}

} // namespace counterpull
