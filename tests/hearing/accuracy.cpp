#include "tests/hearing/accuracy.h"

#include "engine/base/pitch.h"
#include "engine/mechanics/guitar_string.h"

#include <algorithm>
#include <chrono>
#include <cmath>
#include <cstdio>
#include <cstdlib>

namespace counterpull::test {

namespace {

struct Gauge {
    const char* note;
    double gauge_in;
    bool wound;
};

Strings strings_of(const char* name, double scale_m, const std::vector<Gauge>& gauges) {
    Strings strings{name, {}};
    for (const Gauge& gauge : gauges) {
        StringBuild build;
        build.diameter_m = gauge.gauge_in * 0.0254;
        build.wound = gauge.wound;
        const StringMechanics string = mechanics_of(build);
        StringTarget target;
        target.hz = frequency_hz(*parse_pitch(gauge.note));
        target.inharmonicity = inharmonicity(string, tension_at_pitch_n(string, target.hz, scale_m), scale_m);
        strings.targets.push_back(target);
    }
    return strings;
}

constexpr double rates_hz[] = {22050.0, 44100.0, 22050.0, 48000.0, 16000.0, 22050.0};

struct Clip {
    double rate_hz = 0.0;
    Sound sound;
    std::vector<StringTarget> targets;
    std::vector<double> truth_cents; // NaN where it does not sound
};

// Stiffness as the engine has it is not quite the string's.
Tone tone_of(const StringTarget& target, double cents, Dice& dice) {
    return {raised_hz(target.hz, cents), target.inharmonicity * std::exp(0.08 * dice.normal())};
}

int key_of(const StringTarget& target) {
    return a4_key + static_cast<int>(std::lround(cents_between(440.0, target.hz) / 100.0));
}

// A recorded note, brought to where it is wanted, as loud as others give or take 6 dB.
void add_real(Clip& clip, const std::vector<RealNote>& notes, const StringTarget& target, double cents,
              double at_s, Dice& dice) {
    for (const RealNote& note : notes) {
        if (note.key != key_of(target))
            continue;
        const Sound sound = raised(note.sound, cents_between(note.hz, raised_hz(target.hz, cents)));
        double power = 0.0;
        for (std::size_t i = 4410; i < 17640; ++i)
            power += static_cast<double>(sound[i]) * static_cast<double>(sound[i]) / 13230.0;
        const double level = 0.1 * std::pow(10.0, dice.uniform(-0.3, 0.3)) / std::sqrt(power);
        const auto begin = static_cast<std::size_t>(at_s * clip.rate_hz);
        for (std::size_t i = 0; i < sound.size() && begin + i < clip.sound.size(); ++i)
            clip.sound[begin + i] += static_cast<float>(level * static_cast<double>(sound[i]));
    }
}

Clip clip_of(const Conditions& conditions, std::uint64_t seed) {
    Dice dice(seed);
    Clip clip;
    const std::uint64_t turn = seed / 2;
    const std::vector<Strings>& guitars = several_guitars();
    clip.targets = guitars[turn % guitars.size()].targets;
    clip.rate_hz = conditions.real ? real_rate_hz : rates_hz[turn % std::size(rates_hz)];
    const std::size_t count = clip.targets.size();
    const std::size_t only = turn / guitars.size() % count;
    const std::size_t missing = turn % 3 == 0 ? turn / 3 % count : count;
    clip.truth_cents.assign(count, std::nan(""));
    const double from_s = 0.35;
    const double last_s = from_s + (conditions.strum ? 0.015 * static_cast<double>(count - 1) : 0.0);
    clip.sound.assign(static_cast<std::size_t>((last_s + conditions.lasts_s) * clip.rate_hz), 0.0F);
    for (std::size_t string = 0; string < count; ++string) {
        const double off = dice.uniform(-1.0, 1.0) * conditions.off_cents;
        StringTarget& target = clip.targets[string];
        if (conditions.told) {
            target.expected = true;
            target.expected_cents = off + 20.0 * dice.normal();
        }
        if (conditions.strum ? string == missing : string != only)
            continue;
        clip.truth_cents[string] = off;
        const double at_s = from_s + (conditions.strum ? 0.015 * static_cast<double>(string) : 0.0);
        if (conditions.real) {
            add_real(clip, *conditions.real, target, off, at_s, dice);
            continue;
        }
        Pluck pluck = any_pluck(tone_of(target, off, dice), dice);
        pluck.at_s = at_s;
        add_pluck(clip.sound, clip.rate_hz, pluck, dice);
    }
    if (conditions.phone)
        through_phone(clip.sound, clip.rate_hz);
    if (conditions.hum)
        add_hum(clip.sound, clip.rate_hz, dice.chance(0.5) ? 50.0 : 60.0, 35.0, dice);
    add_noise(clip.sound, clip.rate_hz, conditions.snr_db, last_s, dice);
    return clip;
}

} // namespace

const std::vector<Strings>& several_guitars() {
    static const std::vector<Strings> guitars = {
        strings_of("E standard, 9 to 42", 0.648,
                   {{"E2", .042, true},
                    {"A2", .032, true},
                    {"D3", .024, true},
                    {"G3", .016, false},
                    {"B3", .011, false},
                    {"E4", .009, false}}),
        strings_of("drop D, 10 to 46", 0.648,
                   {{"D2", .046, true},
                    {"A2", .036, true},
                    {"D3", .026, true},
                    {"G3", .017, false},
                    {"B3", .013, false},
                    {"E4", .010, false}}),
        strings_of("seven strings, B standard, 10 to 59", 0.648,
                   {{"B1", .059, true},
                    {"E2", .046, true},
                    {"A2", .036, true},
                    {"D3", .026, true},
                    {"G3", .017, false},
                    {"B3", .013, false},
                    {"E4", .010, false}}),
        strings_of("drop A, 12 to 64", 0.673,
                   {{"A1", .064, true},
                    {"E2", .050, true},
                    {"A2", .038, true},
                    {"D3", .026, true},
                    {"F#3", .018, false},
                    {"B3", .013, false}}),
        strings_of("E standard, 11 to 49", 0.628,
                   {{"E2", .049, true},
                    {"A2", .038, true},
                    {"D3", .028, true},
                    {"G3", .018, false},
                    {"B3", .014, false},
                    {"E4", .011, false}}),
    };
    return guitars;
}

std::vector<int> keys_of_guitars() {
    std::vector<int> keys;
    for (const Strings& strings : several_guitars())
        for (const StringTarget& target : strings.targets)
            if (std::find(keys.begin(), keys.end(), key_of(target)) == keys.end())
                keys.push_back(key_of(target));
    return keys;
}

double Tally::quantile(double share) const {
    if (errors_cents.empty())
        return 0.0;
    std::vector<double> sorted = errors_cents;
    std::sort(sorted.begin(), sorted.end());
    return sorted[std::min(static_cast<std::size_t>(share * static_cast<double>(sorted.size())),
                           sorted.size() - 1)];
}

Tally tally(const Conditions& conditions, std::uint64_t first, int clips) {
    Tally tally;
    int within = 0;
    for (int i = 0; i < clips; ++i) {
        const std::uint64_t seed = first + 2 * static_cast<std::uint64_t>(i);
        const Clip clip = clip_of(conditions, seed);
        const auto begin = std::chrono::steady_clock::now();
        const std::vector<HeardString> heard = hear_clip(clip.sound, clip.rate_hz, clip.targets);
        tally.milliseconds +=
            std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - begin).count() /
            clips;
        for (std::size_t string = 0; string < heard.size(); ++string) {
            const bool sounded = !std::isnan(clip.truth_cents[string]);
            tally.sounding += sounded;
            if (!heard[string].heard)
                continue;
            tally.heard += sounded;
            const double error = sounded ? std::abs(heard[string].cents - clip.truth_cents[string]) : 1e3;
            tally.wrong += error > 5.0;
            if (!sounded)
                continue;
            tally.errors_cents.push_back(error);
            within += error < 2.0 * heard[string].sigma_cents;
        }
    }
    tally.within_two_sigma =
        tally.errors_cents.empty() ? 1.0 : within / static_cast<double>(tally.errors_cents.size());
    return tally;
}

int heard_in(NoString what, std::uint64_t first, int clips) {
    int any = 0;
    for (int i = 0; i < clips; ++i) {
        const std::uint64_t seed = first + 2 * static_cast<std::uint64_t>(i);
        Dice dice(seed);
        const double rate_hz = rates_hz[seed / 2 % std::size(rates_hz)];
        Sound sound(static_cast<std::size_t>(2.0 * rate_hz));
        switch (what) {
        case NoString::silence:
            break;
        case NoString::speech:
            sound = speech(rate_hz, 3.0, dice);
            break;
        case NoString::clap:
            sound = clap(rate_hz, 3.0, dice);
            break;
        case NoString::car:
            sound = passing_car(rate_hz, 4.0, dice);
            break;
        case NoString::hum:
            sound = hum_alone(rate_hz, 2.0, i % 2 == 0 ? 50.0 : 60.0, dice);
            break;
        case NoString::noise:
            break;
        }
        if (what != NoString::silence)
            for (float& sample : sound)
                sample += static_cast<float>((what == NoString::noise ? 0.05 : 0.0005) * dice.normal());
        const auto& guitars = several_guitars();
        for (const HeardString& heard : hear_clip(sound, rate_hz, guitars[seed / 2 % guitars.size()].targets))
            if (heard.heard) {
                ++any;
                break;
            }
    }
    return any;
}

} // namespace counterpull::test
