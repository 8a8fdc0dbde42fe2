#include "engine/hearing/listener.h"

#include "engine/base/pitch.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace counterpull {

namespace {

constexpr double kept_s = 4.0;
constexpr double window_s = 0.5;
constexpr double settles_s = 0.2;   // after an onset
constexpr double strum_gap_s = 0.2; // from string to string of a strum, at most
constexpr double hop_s = 0.25;      // from one window to the next
constexpr double attack_s = 0.05;   // what has to be left out of a short pluck
constexpr double shortest_s = 0.25;
constexpr double live_from_s = 0.15;
constexpr double live_attack_s = 0.02;
constexpr double live_window_s = 0.3;
// A plucked string comes down to where it settles about like e^(−t/this): common practice.
constexpr double settling_s = 0.2;
constexpr double settling_share = 0.5;       // of what is taken off for it may be wrong
constexpr double settling_sigma_cents = 1.5; // at the onset, and what is left of it later
constexpr double halves_sigma_cents = 0.4;   // by which the halves of a live window differ for nothing
constexpr double sharp_sigma_cents = 3.0;    // at the onset
constexpr double sharpest_cents = 10.0;
constexpr double before_struck_s = 0.04; // an onset is seen that late
constexpr double hum_shortest_s = 0.25;
constexpr double quiet_share = 0.1; // of the power after the onset: then what was before is hum and noise
constexpr std::size_t windows_remembered = 16;

double power_of(std::span<const float> samples) {
    double sum = 0.0;
    for (const float sample : samples)
        sum += static_cast<double>(sample) * static_cast<double>(sample);
    return samples.empty() ? 0.0 : sum / static_cast<double>(samples.size());
}

} // namespace

Listener::Listener(std::vector<StringTarget> targets, double rate_hz)
    : targets_(std::move(targets)), decimator_(rate_hz), onsets_(decimator_.rate_hz()),
      readings_(targets_.size()), plucks_(targets_.size()), latest_(targets_.size()), best_(targets_.size()) {
}

void Listener::expect(std::vector<StringTarget> targets) {
    targets_ = std::move(targets);
    readings_.assign(targets_.size(), {});
    plucks_.assign(targets_.size(), {});
    latest_.assign(targets_.size(), {});
    best_.assign(targets_.size(), {});
    begin_segment(seconds());
}

double Listener::seconds() const {
    return static_cast<double>(forgotten_ + sound_.size()) / decimator_.rate_hz();
}

void Listener::hear(std::span<const float> samples) {
    // In short steps, so that no window is missed in a long chunk.
    constexpr std::size_t step = 1024;
    while (!samples.empty()) {
        const std::span<const float> some = samples.first(std::min(step, samples.size()));
        samples = samples.subspan(some.size());
        const std::size_t before = sound_.size();
        decimator_.pass(some, sound_);
        onsets_.hear(std::span<const float>(sound_).subspan(before));
        listen_on();
    }
}

void Listener::listen_on() {
    const auto most = static_cast<std::size_t>(kept_s * decimator_.rate_hz());
    if (sound_.size() > 2 * most) {
        const std::size_t drop = sound_.size() - most;
        sound_.erase(sound_.begin(), sound_.begin() + static_cast<std::ptrdiff_t>(drop));
        forgotten_ += drop;
    }
    if (onsets_.last_s() > onset_s_)
        begin_segment(onsets_.last_s());
    const double now = seconds();
    if (now >= std::max(onset_s_ + settles_s + window_s, read_to_s_ + hop_s))
        read(now - window_s, now);
}

void Listener::end() {
    const double now = seconds();
    const double from = std::max(now - window_s, onset_s_ + attack_s);
    if (now - from >= shortest_s && now - read_to_s_ > 0.4 * hop_s)
        read(from, now);
}

// Every onset begins a segment. A strum is many, and none of them but the last is read: it was struck where
// the first of them was.
void Listener::begin_segment(double onset_s) {
    if (onset_s - onset_s_ > strum_gap_s) {
        before_s_ = onset_s_;
        struck_s_ = onset_s;
    }
    onset_s_ = onset_s;
    read_to_s_ = onset_s;
    mains_known_ = false;
    last_window_.reset();
    ++segment_;
    for (std::vector<TimedReading>& readings : readings_)
        readings.clear();
}

std::span<const float> Listener::stretch(double from_s, double to_s) const {
    const double rate = decimator_.rate_hz();
    const auto index = [&](double at_s) {
        const double sample = std::max(at_s * rate - static_cast<double>(forgotten_), 0.0);
        return std::min(static_cast<std::size_t>(sample), sound_.size());
    };
    const std::size_t from = index(from_s);
    return std::span<const float>(sound_).subspan(from, std::max(from, index(to_s)) - from);
}

MainsLines Listener::hum_before_onset() const {
    const double to = struck_s_ - before_struck_s;
    const double from =
        std::max({to - window_s, before_s_, static_cast<double>(forgotten_) / decimator_.rate_hz()});
    if (to - from < hum_shortest_s)
        return {};
    const std::span<const float> before = stretch(from, to);
    if (power_of(before) > quiet_share * power_of(stretch(onset_s_ + attack_s, onset_s_ + shortest_s)))
        return {};
    return mains_of(Spectrum(before, decimator_.rate_hz()));
}

void Listener::read(double from_s, double to_s) {
    read_to_s_ = to_s;
    if (!mains_known_)
        mains_ = hum_before_onset();
    mains_known_ = true;
    WindowReading reading = read_window(stretch(from_s, to_s), decimator_.rate_hz(), targets_, mains_,
                                        targets_.size(), last_window_ ? &*last_window_ : nullptr);
    for (std::size_t string = 0; string < targets_.size(); ++string)
        if (reading.strings[string].heard) {
            std::vector<TimedReading>& readings = readings_[string];
            if (readings.size() == windows_remembered)
                readings.erase(readings.begin());
            readings.push_back({0.5 * (from_s + to_s), reading.strings[string], from_s - onset_s_});
        }
    last_window_ = std::move(reading);
    put_together();
}

void Listener::put_together() {
    for (std::size_t string = 0; string < targets_.size(); ++string) {
        const HeardString one = latest_[string] = read_pluck(readings_[string]);
        if (!one.heard)
            continue;
        Plucks& plucks = plucks_[string];
        if (plucks.last == segment_)
            plucks.read.pop_back();
        else if (plucks.read.size() == plucks_remembered)
            plucks.read.erase(plucks.read.begin());
        plucks.read.push_back(one);
        plucks.last = segment_;
        best_[string] = read_plucks(plucks.read);
    }
}

// By how much a pluck is sharper than where it will settle, cents on average over the window read: from how
// far it comes down between the window's halves. None where that is not known.
double Listener::sharp_yet(std::size_t string, double from_s, double to_s) const {
    const double middle_s = 0.5 * (from_s + to_s);
    const auto read_half = [&](double from, double to) {
        return read_window(stretch(from, to), decimator_.rate_hz(), targets_, {}, 1).strings[string];
    };
    const StringReading early = read_half(from_s, middle_s), late = read_half(middle_s, to_s);
    if (!early.heard || !late.heard)
        return 0.0;
    const auto left = [&](double at_s) { return std::exp((onset_s_ - at_s) / settling_s); };
    const double quarter_s = 0.5 * (middle_s - from_s);
    const double falls = left(from_s + quarter_s) - left(to_s - quarter_s);
    const double noise = halves_sigma_cents / sharp_sigma_cents;
    const double sharp = (early.cents - late.cents) * falls / (falls * falls + noise * noise);
    return std::clamp(sharp, 0.0, sharpest_cents) * left(middle_s);
}

std::optional<Live> Listener::live() const {
    const double now = seconds();
    if (now - onset_s_ < live_from_s)
        return std::nullopt;
    const double from = std::max(now - live_window_s, onset_s_ + live_attack_s);
    const WindowReading reading = read_window(stretch(from, now), decimator_.rate_hz(), targets_, {}, 1);
    for (std::size_t string = 0; string < targets_.size(); ++string) {
        const StringReading& one = reading.strings[string];
        if (!one.heard)
            continue;
        const double sharp = from - onset_s_ < settling_s ? sharp_yet(string, from, now) : 0.0;
        const double settling = settling_sigma_cents * std::exp((onset_s_ - 0.5 * (from + now)) / settling_s);
        return Live{string, one.cents - sharp, std::hypot(one.sigma_cents, settling_share * sharp, settling)};
    }
    return std::nullopt;
}

std::vector<HeardString> hear_clip(std::span<const float> samples, double rate_hz,
                                   const std::vector<StringTarget>& targets) {
    Listener listener(targets, rate_hz);
    listener.hear(samples);
    listener.end();
    return listener.best();
}

} // namespace counterpull
