#include "engine/hearing/acquisition.h"

#include "engine/base/pitch.h"
#include "engine/hearing/clearness.h"
#include "engine/hearing/string_fit.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace counterpull {

namespace {

constexpr int comb_partials = 16;
constexpr double comb_step_cents = 1.0;
constexpr double missing_below = 1.5; // a partial no clearer than that is not there
constexpr double missing_costs = 0.5;
constexpr double least_comb = 3.0;          // below it there is nothing of a string
constexpr double mostly_own = 0.5;          // share of a string's power
constexpr double explained_as_well = 0.001; // share unexplained
constexpr double spoiled_cents = 1.0;       // scatter
constexpr double spoiled_times = 1.5;
constexpr double elsewhere_cents = 4.0; // a comb is no finer
constexpr int sweeps = 3;

double comb(const Spectrum& spectrum, const std::vector<double>& clearness, const Tone& tone) {
    double sum = 0.0;
    for (int number = 1; number <= comb_partials; ++number) {
        const double hz = partial_hz(tone, number);
        if (hz >= spectrum.top_hz())
            break;
        const double place = hz / spectrum.step_hz();
        const auto left = static_cast<std::size_t>(place);
        const double share = place - static_cast<double>(left);
        const double here = (1.0 - share) * clearness[left] + share * clearness[left + 1];
        sum += here < missing_below ? -missing_costs : here;
    }
    return sum;
}

struct Candidate {
    Sounding sounding;
    double score = 0.0;
};

Candidate best_comb(const Spectrum& spectrum, const std::vector<double>& clearness, const Sought& sought,
                    std::size_t string) {
    Candidate best{{string, {sought.hz, sought.inharmonicity}, 0.0, 0.0}, -1e9};
    for (double cents = -sought.reach_cents; cents <= sought.reach_cents; cents += comb_step_cents) {
        const Tone tone{raised_hz(sought.hz, cents), sought.inharmonicity};
        const double score = comb(spectrum, clearness, tone);
        if (score > best.score) {
            best.score = score;
            best.sounding.tone = tone;
        }
    }
    return best;
}

// Puts each partial between where the string has it and where it was measured, by how sure that is.
void move_partials(std::vector<Partial>& partials, const std::vector<Sounding>& strings) {
    constexpr double own_cents = 2.0;
    constexpr double farthest_cents = 6.0;
    for (Partial& partial : partials)
        for (const Sounding& string : strings) {
            if (string.string != partial.string)
                continue;
            const double expected = partial_hz(string.tone, partial.number);
            const double off = cents_between(expected, std::max(partial.hz + partial.off_hz, 1.0));
            const double sigma = partial.off_sigma_hz / partial.hz * 1731.0;
            const double share = own_cents * own_cents / (own_cents * own_cents + sigma * sigma);
            partial.hz = raised_hz(expected, std::clamp(share * off, -farthest_cents, farthest_cents));
        }
}

} // namespace

bool sounds(const std::vector<Sounding>& strings, std::size_t string) {
    for (const Sounding& one : strings)
        if (one.string == string)
            return true;
    return false;
}

bool spoiled(const std::vector<Sounding>& strings, const std::vector<Sounding>& without) {
    for (const Sounding& other : without)
        for (const Sounding& before : strings)
            if (before.string == other.string && other.scatter_cents > spoiled_cents &&
                other.scatter_cents > spoiled_times * before.scatter_cents)
                return true;
    return false;
}

std::vector<Partial> partials_of(const std::vector<Sounding>& strings, const Spectrum& spectrum) {
    std::vector<Partial> partials;
    for (const Sounding& string : strings)
        for (int number = 1;; ++number) {
            const double hz = partial_hz(string.tone, number);
            if (hz >= spectrum.top_hz() || (number > least_partials && hz > explained_to_hz))
                break;
            {
                Partial partial;
                partial.string = string.string;
                partial.number = number;
                partial.hz = hz;
                partials.push_back(partial);
            }
        }
    return partials;
}

std::vector<Partial> refine(const Spectrum& spectrum, const std::vector<Sought>& sought,
                            std::vector<Sounding>& strings, int stages) {
    struct Stage {
        int partials, steps;
        double stiffness_spread;
    };
    constexpr Stage all[] = {{4, 2, 0.15}, {7, 2, 0.3}, {12, 3, 0.6}};
    std::vector<Partial> partials = partials_of(strings, spectrum);
    const auto fit_strings = [&](const Stage& stage) {
        for (Sounding& string : strings) {
            const StringFit fit =
                fit_string(partials, string.string, string.tone, sought[string.string].inharmonicity,
                           stage.stiffness_spread, stage.partials);
            string.tone = fit.tone;
            string.sigma_cents = fit.sigma_cents;
            string.scatter_cents = fit.scatter_cents;
        }
    };
    fit_partials(spectrum, partials);
    for (int stage = 0; stage < stages; ++stage)
        for (int step = 0; step < all[stage].steps; ++step) {
            fit_strings(all[stage]);
            move_partials(partials, strings);
            fit_partials(spectrum, partials);
        }
    fit_strings(all[stages - 1]);
    return partials;
}

namespace {

// Share of a string's power that no other string could stand in for.
double own_share(const std::vector<Partial>& partials, std::size_t string) {
    double all = 0.0, own = 0.0;
    for (const Partial& partial : partials)
        if (partial.string == string) {
            all += squared(partial.a);
            own += partial.clearness() > clear_partial ? squared(partial.a) : 0.0;
        }
    return all > 0.0 ? own / all : 0.0;
}

// Strings whose partials are mostly others' too, least of its own first: what the others explain as well
// without it is not there. (The octave above a low string has all its partials among that string's even
// ones.)
void drop_explained(const Spectrum& spectrum, const std::vector<Sought>& sought,
                    std::vector<Sounding>& strings) {
    std::vector<std::size_t> kept;
    while (strings.size() > 1) {
        const std::vector<Partial> partials = refine(spectrum, sought, strings, 2);
        std::size_t least = strings.size();
        double least_share = mostly_own;
        for (std::size_t at = 0; at < strings.size(); ++at) {
            const double share = own_share(partials, strings[at].string);
            if (share < least_share &&
                std::find(kept.begin(), kept.end(), strings[at].string) == kept.end()) {
                least = at;
                least_share = share;
            }
        }
        if (least == strings.size())
            return;
        std::vector<Sounding> others = strings;
        others.erase(others.begin() + static_cast<std::ptrdiff_t>(least));
        const std::vector<Partial> theirs = refine(spectrum, sought, others, 2);
        if (!spoiled(strings, others) && unexplained_share(spectrum, theirs) <
                                             unexplained_share(spectrum, partials) * 1.3 + explained_as_well)
            strings = std::move(others);
        else
            kept.push_back(strings[least].string);
    }
}

} // namespace

namespace {

// Whether the string was found elsewhere.
bool look_again(const Spectrum& spectrum, const std::vector<Sought>& sought, std::vector<Sounding>& strings,
                Sounding& one) {
    std::vector<Sounding> others;
    for (const Sounding& other : strings)
        if (other.string != one.string)
            others.push_back(other);
    std::vector<Partial> theirs = partials_of(others, spectrum);
    fit_partials(spectrum, theirs);
    const Candidate again =
        best_comb(spectrum, log_clearness(spectrum, theirs), sought[one.string], one.string);
    if (std::abs(cents_between(one.tone.hz, again.sounding.tone.hz)) < elsewhere_cents)
        return false;
    one = again.sounding;
    refine(spectrum, sought, strings, 2);
    return true;
}

} // namespace

std::vector<Sounding> acquire(const Spectrum& spectrum, const std::vector<Sought>& sought, std::size_t most,
                              std::vector<Sounding> known, Next next) {
    std::vector<Sounding> strings = std::move(known);
    std::vector<Partial> partials = refine(spectrum, sought, strings, 2);
    while (strings.size() < most) {
        const std::vector<double> clearness = log_clearness(spectrum, partials);
        Candidate best{{}, least_comb};
        double best_hz = 0.0;
        for (std::size_t string = 0; string < sought.size(); ++string) {
            if (sounds(strings, string) || (next == Next::highest && sought[string].hz < best_hz))
                continue;
            const Candidate one = best_comb(spectrum, clearness, sought[string], string);
            if (one.score > (next == Next::highest ? least_comb : best.score)) {
                best = one;
                best_hz = sought[string].hz;
            }
        }
        if (best.score <= least_comb)
            break;
        strings.push_back(best.sounding);
        partials = refine(spectrum, sought, strings, 2);
    }
    // Each looked for again where all the others are taken out, until none moves.
    bool moved = strings.size() > 1;
    for (int sweep = 0; sweep < sweeps && moved; ++sweep) {
        moved = false;
        for (Sounding& one : strings)
            moved = look_again(spectrum, sought, strings, one) || moved;
    }
    drop_explained(spectrum, sought, strings);
    return strings;
}

} // namespace counterpull
