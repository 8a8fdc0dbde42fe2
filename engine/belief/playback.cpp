#include "engine/belief/playback.h"

#include "engine/base/units.h"
#include "engine/document/placed_springs.h"

#include <cmath>

namespace counterpull {

namespace {

// A step to what differs by a hundredth of a spread is far smaller than this.
constexpr double largest_step_rad = 0.1;

bool same_assembly(const Reading& a, const Reading& b) {
    return a.strings == b.strings && a.tuning == b.tuning && a.springs == b.springs;
}

bool pushes_one(ReadingKind kind) {
    return kind == ReadingKind::bend || kind == ReadingKind::drop;
}

} // namespace

double tuner_sigma(double cents) {
    return std::hypot(tuner_reading_cents, tuner_reading_share * cents);
}

Playback::Playback(const Belief& belief) : belief_(belief) {
    const Setup& setup = belief.setup();
    if (setup.now.spring_mm && !claw_from_spring_lengths(setup))
        for (std::size_t i = 0; i < setup.now.spring_mm->size(); ++i)
            observations_.push_back(
                {-1, Observed::spring, static_cast<int>(i), (*setup.now.spring_mm)[i], spring_reading_mm, 0});
    const auto& limits = setup.guitar.bridge.tail_limits_mm;
    for (std::size_t e = 0; e < setup.log.size(); ++e) {
        const Reading& reading = setup.log[e];
        const bool turned =
            e > 0 ? reading.turns != setup.log[e - 1].turns : reading.turns != std::array<double, 2>{};
        if (turned)
            ++visits_;
        visit_of_.push_back(visits_ - 1);
        std::size_t first = 0;
        while (!same_assembly(setup.log[first], reading))
            ++first;
        assembly_of_.push_back(static_cast<int>(first));
        const int entry = static_cast<int>(e);
        if (reading.tail_mm)
            observations_.push_back({entry, Observed::tail, 0, *reading.tail_mm, tail_reading_mm,
                                     *reading.tail_mm <= limits[0]   ? -1
                                     : *reading.tail_mm >= limits[1] ? 1
                                                                     : 0});
        if (!reading.cents || reading.kind == ReadingKind::in_tune)
            continue; // in tune, what is read says how it was tuned
        const auto count = static_cast<int>(reading.cents->size());
        for (int i = 0; i < count; ++i)
            if (const auto& cents = (*reading.cents)[static_cast<std::size_t>(i)])
                if (!pushes_one(reading.kind) || i != count - reading.string)
                    observations_.push_back({entry, Observed::cents, i, *cents,
                                             std::hypot(tuner_reading_cents, tuner_reading_share * *cents),
                                             0});
    }
}

Fitting Playback::fitting_of(const Reading& reading) const {
    const Setup& setup = belief_.setup();
    const bool next = reading.tuning == Which::next;
    return {reading.strings == Which::next ? setup.next.strings : setup.now.strings,
            next ? setup.next.tuning : setup.now.tuning,
            next ? setup.next.offset_cents : setup.now.offset_cents, reading.springs, reading.strings};
}

double Playback::settle(const Assembly& assembly, const Tuners& tuners, const ClawSetting& claw,
                        double from_rad) {
    if (settled_ == found_.size())
        found_.emplace_back();
    Found& found = found_[settled_++];
    if (how_ == Settling::step) {
        if (found.at_stop)
            return found.angle_rad;
        const Sample here = net_torque(assembly, tuners, claw, found.angle_rad);
        const double step = here.value / here.slope;
        // With strings slack and springs shut nothing holds the bridge: then there is no slope to follow.
        return std::abs(step) < largest_step_rad ? found.angle_rad - step : found.angle_rad;
    }
    const Rest at = how_ == Settling::near && !found.at_stop
                        ? rest_near(assembly, tuners, claw, found.angle_rad, from_rad)
                        : rest(assembly, tuners, claw, from_rad);
    found = {at.angle_rad, at.kind != RestKind::floats};
    return at.angle_rad;
}

Strung Playback::settle_and_tune(const Assembly& assembly, const Tuners& tuners, const ClawSetting& claw,
                                 double from_rad) {
    Strung strung;
    strung.angle_rad = settle(assembly, tuners, claw, from_rad);
    strung.lengths_m = lengths_as_tuned(assembly, tuners, Attitude(strung.angle_rad));
    return strung;
}

// Returns the bridge as the entry leaves it; `shown` is how it stood while it was read.
Strung Playback::play_entry(const Reading& reading, const Assembly& assembly, const ClawSetting& claw,
                            const Strung& before, Strung& shown) {
    Tuners pitched = all_at_pitch(assembly);
    switch (reading.kind) {
    case ReadingKind::in_tune:
        for (std::size_t i = 0; reading.cents && i < reading.cents->size(); ++i)
            pitched.pitch_hz[i] *= std::exp2((*reading.cents)[i].value_or(0.0) / 1200.0);
        return shown = settle_and_tune(assembly, pitched, claw, before.angle_rad);
    case ReadingKind::after_turn:
        return shown = settle_and_tune(assembly, untouched(before.lengths_m), claw, before.angle_rad);
    case ReadingKind::after_pass: {
        Strung strung = before;
        strung.angle_rad = settle(assembly, untouched(strung.lengths_m), claw, strung.angle_rad);
        for (int i = 0; i < assembly.string_count; ++i) {
            const auto index = static_cast<std::size_t>(i);
            const double aim_cents = reading.aim_cents ? (*reading.aim_cents)[index] : 0.0;
            const double aim_hz = assembly.strings[index].frequency_hz * std::exp2(aim_cents / 1200.0);
            strung =
                settle_and_tune(assembly, one_at_pitch(strung.lengths_m, i, aim_hz), claw, strung.angle_rad);
        }
        return shown = strung;
    }
    case ReadingKind::bend:
    case ReadingKind::drop: {
        const Strung tuned = settle_and_tune(assembly, pitched, claw, before.angle_rad);
        const int string = assembly.string_count - reading.string;
        const double by = reading.kind == ReadingKind::bend ? reading.by_cents : -reading.by_cents;
        shown = settle_and_tune(assembly,
                                one_at_pitch(tuned.lengths_m, string,
                                             assembly.strings[static_cast<std::size_t>(string)].frequency_hz *
                                                 std::exp2(by / 1200.0)),
                                claw, tuned.angle_rad);
        return tuned; // let go, or tuned back
    }
    case ReadingKind::wedge_out: {
        const double wedged = angle_of_tail_rad(belief_.setup(), belief_.setup().next.tail_mm);
        return shown = settle_and_tune(assembly, untouched(lengths_at_pitch(assembly, Attitude(wedged))),
                                       claw, wedged);
    }
    }
    return before;
}

bool Playback::play(const Deviations& z, std::span<const double> screws, Settling how,
                    std::vector<double>& predicted) {
    const Setup& setup = belief_.setup();
    how_ = how;
    settled_ = 0;
    predicted.clear();
    const Assembly now = belief_.assembly(fitting_now(setup), z);
    Problems problems;
    const auto claw = belief_.claw(now, z, problems);
    if (!claw)
        return false;
    Strung strung;
    strung.angle_rad = belief_.angle_now_rad(z);
    if (setup.now.in_tune)
        strung.lengths_m = lengths_at_pitch(now, Attitude(strung.angle_rad));
    bool has_lengths = setup.now.in_tune;
    Which on = Which::now;

    std::size_t next = 0; // observation
    for (; next < observations_.size() && observations_[next].entry < 0; ++next) {
        const auto spring = static_cast<std::size_t>(observations_[next].index);
        predicted.push_back(
            mm_from_metres(spring_length_m(now, now.springs[spring], *claw, Attitude(strung.angle_rad))));
    }
    std::vector<Assembly> assemblies(setup.log.size());
    for (std::size_t e = 0; e < setup.log.size(); ++e) {
        const Reading& reading = setup.log[e];
        const auto which = static_cast<std::size_t>(assembly_of_[e]);
        if (which == e)
            assemblies[e] = belief_.assembly(fitting_of(reading), z);
        const Assembly& assembly = assemblies[which];
        const double error = visit_of_[e] < 0 ? 0.0 : screws[static_cast<std::size_t>(visit_of_[e])];
        const ClawSetting turned{claw->x_m, reading.turns[0] + error, reading.turns[1] + error};
        Strung shown;
        // Where springs were changed the strings came down for it.
        const Arrangement& springs_before = e > 0 ? setup.log[e - 1].springs : setup.now.springs;
        const bool same_strings = has_lengths && reading.springs == springs_before &&
                                  (reading.strings == on || setup.now.strings == setup.next.strings);
        if (!same_strings)
            strung.lengths_m = slack(assembly).lengths_m;
        strung = play_entry(reading, assembly, turned, strung, shown);
        on = reading.strings;
        has_lengths = true;
        std::vector<double> cents;
        for (; next < observations_.size() && observations_[next].entry == static_cast<int>(e); ++next) {
            const Observation& seen = observations_[next];
            if (seen.what == Observed::cents && cents.empty())
                cents = cents_shown(assembly, shown.lengths_m, Attitude(shown.angle_rad));
            predicted.push_back(seen.what == Observed::cents
                                    ? cents[static_cast<std::size_t>(seen.index)]
                                    : mm_from_metres(tail_at_angle_m(assembly.bridge, shown.angle_rad)));
        }
    }
    left_ = strung;
    return true;
}

} // namespace counterpull
