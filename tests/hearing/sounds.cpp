#include "tests/hearing/sounds.h"

#include <cmath>
#include <numbers>

namespace counterpull::test {

namespace {

constexpr double two_pi = 2.0 * std::numbers::pi;

double mean_power(const Sound& sound, std::size_t from) {
    double sum = 0.0;
    for (std::size_t i = from; i < sound.size(); ++i)
        sum += static_cast<double>(sound[i]) * static_cast<double>(sound[i]);
    return from < sound.size() ? sum / static_cast<double>(sound.size() - from) : 0.0;
}

// y = (b0 x + b1 x' + b2 x″ − a1 y' − a2 y″). The high-passes are so by the bilinear transform.
struct Section {
    double b0, b1, b2, a1, a2;
};
void apply(Sound& sound, const Section& s) {
    double x1 = 0, x2 = 0, y1 = 0, y2 = 0;
    for (float& sample : sound) {
        const double x = static_cast<double>(sample);
        const double y = s.b0 * x + s.b1 * x1 + s.b2 * x2 - s.a1 * y1 - s.a2 * y2;
        x2 = x1, x1 = x, y2 = y1, y1 = y;
        sample = static_cast<float>(y);
    }
}
Section high_pass_1(double rate_hz, double corner_hz) {
    const double k = std::tan(std::numbers::pi * corner_hz / rate_hz);
    return {1 / (1 + k), -1 / (1 + k), 0, (k - 1) / (k + 1), 0};
}
Section high_pass_2(double rate_hz, double corner_hz, double q) {
    const double k = std::tan(std::numbers::pi * corner_hz / rate_hz);
    const double norm = 1 / (1 + k / q + k * k);
    return {norm, -2 * norm, norm, 2 * (k * k - 1) * norm, (1 - k / q + k * k) * norm};
}

Section resonance(double rate_hz, double hz, double width_hz) { // of the mouth
    const double r = std::exp(-std::numbers::pi * width_hz / rate_hz);
    return {1 - r, 0, 0, -2 * r * std::cos(two_pi * hz / rate_hz), r * r};
}

void scale_to(Sound& sound, double amplitude) {
    const double power = mean_power(sound, 0);
    for (float& sample : sound)
        sample = static_cast<float>(static_cast<double>(sample) * amplitude / std::sqrt(power + 1e-30));
}

} // namespace

std::uint64_t Dice::next() {
    std::uint64_t z = (state_ += 0x9E3779B97F4A7C15u);
    z = (z ^ (z >> 30)) * 0xBF58476D1CE4E5B9u;
    z = (z ^ (z >> 27)) * 0x94D049BB133111EBu;
    return z ^ (z >> 31);
}

double Dice::uniform(double low, double high) {
    return low + (high - low) * static_cast<double>(next() >> 11) * 0x1p-53;
}

double Dice::normal() {
    return std::sqrt(-2.0 * std::log(uniform(1e-12, 1.0))) * std::cos(uniform(0.0, two_pi));
}

Pluck any_pluck(const Tone& tone, Dice& dice) {
    Pluck pluck;
    pluck.tone = tone;
    pluck.amplitude = 0.1 * std::pow(10.0, dice.uniform(-0.3, 0.3));
    pluck.place = dice.uniform(0.06, 0.3);
    // Low strings ring longer.
    pluck.decay_s = dice.uniform(1.5, 4.0) * std::sqrt(110.0 / tone.hz);
    pluck.damping = dice.uniform(0.1, 0.4);
    pluck.glide_cents = dice.uniform(0.5, 5.0);
    pluck.beating_cents = dice.uniform(0.0, 0.6);
    pluck.scatter_cents = dice.uniform(0.0, 0.4);
    if (dice.chance(0.1))
        pluck.pulled_cents = dice.uniform(-6.0, 6.0);
    return pluck;
}

void add_pluck(Sound& sound, double rate_hz, const Pluck& pluck, Dice& dice) {
    const auto begin = static_cast<std::size_t>(pluck.at_s * rate_hz);
    for (int n = 1; n <= 40; ++n) {
        double hz = partial_hz(pluck.tone, n) * std::exp2(pluck.scatter_cents * dice.normal() / 1200.0);
        if (n == 1)
            hz *= std::exp2(pluck.pulled_cents / 1200.0);
        if (hz > std::min(0.45 * rate_hz, 6000.0))
            break;
        // A plucked string's shape (1/n², what a magnetic pickup hears of it 1/n), with what the finger takes
        // off.
        const double level = pluck.amplitude * std::sin(std::numbers::pi * n * pluck.place) / n *
                             std::exp(-0.04 * n) * std::exp(0.3 * dice.normal());
        const double rate = (1.0 + pluck.damping * (n - 1)) / pluck.decay_s;
        for (int polarisation = 0; polarisation < 2; ++polarisation) {
            const double apart =
                pluck.beating_cents * dice.uniform(0.5, 1.0) * (polarisation == 0 ? -0.25 : 0.75);
            const double own_hz = hz * std::exp2(apart / 1200.0);
            const double own_level = level * (polarisation == 0 ? 0.8 : 0.25);
            const double own_rate = rate * (polarisation == 0 ? 1.0 : 0.6);
            double phase = dice.uniform(0.0, two_pi);
            double left = own_level; // decays sample by sample
            const double decay = std::exp(-own_rate / rate_hz);
            double bent = std::exp2(pluck.glide_cents / 1200.0) - 1.0;
            const double stretched = std::exp2(pluck.sharp_with_power_cents / 1200.0) - 1.0;
            const double settling = std::exp(-2.0 / (pluck.decay_s * rate_hz)); // of the fundamental's power
            double power = 1.0;
            const double straightening = std::exp(-1.0 / (0.15 * rate_hz));
            for (std::size_t i = begin; i < sound.size() && left > 1e-7; ++i) {
                const double since_ms = static_cast<double>(i - begin) / rate_hz * 1000.0;
                const double attack = since_ms < 3.0 ? since_ms / 3.0 : 1.0;
                sound[i] += static_cast<float>(left * attack * std::sin(phase));
                phase += two_pi * own_hz * (1.0 + bent + stretched * power) / rate_hz;
                power *= settling;
                bent *= straightening;
                left *= decay;
            }
        }
    }
}

void through_phone(Sound& sound, double rate_hz) {
    apply(sound, high_pass_1(rate_hz, 180.0));
    apply(sound, high_pass_2(rate_hz, 180.0, 1.0));
    apply(sound, high_pass_1(rate_hz, 300.0));
}

void add_noise(Sound& sound, double rate_hz, double snr_db, double from_s, Dice& dice) {
    const double power = mean_power(sound, static_cast<std::size_t>(from_s * rate_hz));
    const double level = std::sqrt(power) * std::pow(10.0, -snr_db / 20.0);
    for (float& sample : sound)
        sample += static_cast<float>(level * dice.normal());
}

void add_hum(Sound& sound, double rate_hz, double mains_hz, double below_db, Dice& dice) {
    const double level = std::sqrt(2.0 * mean_power(sound, 0)) * std::pow(10.0, -below_db / 20.0);
    const double hz = mains_hz * (1.0 + 0.0005 * dice.uniform(-1.0, 1.0)); // as the grid runs
    for (int n = 1; n <= 20; ++n) {
        const double own = level / std::sqrt(n) * std::exp(0.6 * dice.normal());
        const double phase = dice.uniform(0.0, two_pi);
        for (std::size_t i = 0; i < sound.size(); ++i)
            sound[i] += static_cast<float>(
                own * std::sin(phase + two_pi * n * hz * static_cast<double>(i) / rate_hz));
    }
}

// A voice: pulses whose pitch wanders, through three resonances, in syllables.
Sound speech(double rate_hz, double seconds, Dice& dice) {
    Sound sound(static_cast<std::size_t>(seconds * rate_hz));
    double phase = 0.0, pitch = dice.uniform(90.0, 220.0), aim = pitch, level = 0.0;
    double next = 0.0;
    bool voiced = true;
    for (std::size_t i = 0; i < sound.size(); ++i) {
        const double now = static_cast<double>(i) / rate_hz;
        if (now >= next) {
            next = now + dice.uniform(0.12, 0.35);
            aim = pitch * std::exp2(dice.uniform(-0.35, 0.35));
            aim = std::min(std::max(aim, 80.0), 260.0);
            voiced = dice.chance(0.75);
        }
        pitch += (aim - pitch) * 12.0 / rate_hz;
        level += ((voiced ? 1.0 : 0.1) - level) * 30.0 / rate_hz;
        phase += pitch * (1.0 + 0.004 * dice.normal()) / rate_hz;
        double pulse = 0.0;
        if (phase >= 1.0) {
            phase -= 1.0;
            pulse = 1.0;
        }
        sound[i] = static_cast<float>(level * (pulse * 20.0 + 0.1 * dice.normal()));
    }
    apply(sound, resonance(rate_hz, dice.uniform(300.0, 800.0), 80.0));
    apply(sound, resonance(rate_hz, dice.uniform(900.0, 2200.0), 120.0));
    apply(sound, resonance(rate_hz, 2600.0, 200.0));
    scale_to(sound, 0.1);
    return sound;
}

Sound clap(double rate_hz, double seconds, Dice& dice) {
    Sound sound(static_cast<std::size_t>(seconds * rate_hz));
    for (double at = dice.uniform(0.2, 0.4); at < seconds; at += dice.uniform(0.4, 1.0)) {
        double level = 0.5;
        for (auto i = static_cast<std::size_t>(at * rate_hz); i < sound.size() && level > 1e-5; ++i) {
            sound[i] += static_cast<float>(level * dice.normal());
            level *= std::exp(-1.0 / (0.05 * rate_hz));
        }
    }
    apply(sound, resonance(rate_hz, 1200.0, 600.0));
    return sound;
}

// Tyres as low noise that comes and goes, and an engine whose pitch falls as it passes.
Sound passing_car(double rate_hz, double seconds, Dice& dice) {
    Sound sound(static_cast<std::size_t>(seconds * rate_hz));
    const double engine = dice.uniform(50.0, 110.0);
    double low = 0.0, phase = 0.0;
    for (std::size_t i = 0; i < sound.size(); ++i) {
        const double near = (static_cast<double>(i) / rate_hz - 0.5 * seconds) / (0.35 * seconds);
        const double level = std::exp(-near * near);
        low += (dice.normal() - low) * two_pi * 250.0 / rate_hz;
        phase += two_pi * engine * (1.0 - 0.04 * std::tanh(2.0 * near)) / rate_hz;
        double motor = 0.0;
        for (int n = 1; n <= 12; ++n)
            motor += std::sin(phase * n) / n;
        sound[i] = static_cast<float>(level * (low + 0.05 * motor));
    }
    scale_to(sound, 0.1);
    return sound;
}

Sound hum_alone(double rate_hz, double seconds, double mains_hz, Dice& dice) {
    Sound sound(static_cast<std::size_t>(seconds * rate_hz));
    for (float& sample : sound)
        sample = static_cast<float>(0.001 * dice.normal());
    add_hum(sound, rate_hz, mains_hz, -35.0, dice);
    return sound;
}

} // namespace counterpull::test
