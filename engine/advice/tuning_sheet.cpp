#include "engine/advice/tuning_sheet.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

struct Begin {
    SheetStart start;
    Strung strung;
};

// Read and expected differ by less than this where the log's states can be believed.
constexpr double near_cents = 10.0;

// The newest entry whose cents say how all strings are tuned: not one where a string was bent or let down.
const Reading* newest_tuner_reading(const Setup& setup) {
    if (setup.log.empty())
        return nullptr;
    const Reading& last = setup.log.back();
    const bool tells = last.cents && last.kind != ReadingKind::bend && last.kind != ReadingKind::drop &&
                       is_on_strings(last, Which::next);
    return tells ? &last : nullptr;
}

// The bridge as that reading found it: every string sounds what was read, and what the log left it at where
// it was not. Where what was read is near to what the log left, the bridge stands as that says, which leans
// on the strings' own stiffness; else it is where such strings would hold it, which leans on the springs.
Strung as_read(const Belief& belief, const ClawSetting& claw, const Reading& reading, const Strung& left) {
    const Assembly assembly = belief.assembly(fitting_of(belief.setup(), reading));
    const std::vector<double> expected = cents_shown(assembly, left.lengths_m, Attitude(left.angle_rad));
    Tuners tuners = all_at_pitch(assembly);
    bool near = true;
    for (std::size_t i = 0; i < assembly.strung().size(); ++i) {
        const double cents = (*reading.cents)[i].value_or(expected[i]);
        near = near && std::abs(cents - expected[i]) < near_cents;
        tuners.pitch_hz[i] *= std::exp2(cents / 1200.0);
    }
    const ClawSetting turned = turned_by(claw, reading);
    Strung strung;
    strung.angle_rad = near ? left.angle_rad : rest(assembly, tuners, turned, left.angle_rad).angle_rad;
    strung.lengths_m = lengths_as_tuned(assembly, tuners, Attitude(strung.angle_rad));
    return strung;
}

// What holds the bridge where it was read is taken as it was read: a torque that the guitar as believed does
// not explain stays with it, or the sheet would begin elsewhere.
Begin from_readings(const Belief& belief, const ClawSetting& claw, const Reading& reading, const Strung& left,
                    Assembly& next, const ClawSetting& turned) {
    const Strung strung = as_read(belief, claw, reading, left);
    const ClawSetting then = turned_by(claw, reading);
    const Assembly found = belief.assembly(fitting_next(belief.setup(), reading.springs));
    next.unexplained_nm = -net_torque_free(found, strung.lengths_m, then, strung.angle_rad).value;
    return {SheetStart::from_readings, settled(next, turned, strung)};
}

Begin beginning(const Belief& belief, const ClawSetting& claw, Assembly& next, const ClawSetting& turned,
                bool springs_moved, const std::optional<Strung>& left) {
    const Setup& setup = belief.setup();
    if (springs_moved) // for which all strings came down
        return {SheetStart::brought_up_roughly, after_pass(next, turned, slack(next))};
    if (const Reading* reading = newest_tuner_reading(setup); reading && left)
        return from_readings(belief, claw, *reading, *left, next, turned);
    if (!setup.log.empty() && left && wanted_strings_are_on(setup))
        return {SheetStart::as_the_turn_leaves, settled(next, turned, *left)};
    if (setup.log.empty() && wanted_strings_are_on(setup)) {
        const Assembly now = belief.assembly(fitting_now(setup));
        Strung strung;
        strung.angle_rad = belief.angle_now_rad(belief.mean());
        strung.lengths_m = lengths_at_pitch(now, Attitude(strung.angle_rad));
        return {SheetStart::as_the_turn_leaves, settled(next, turned, strung)};
    }
    return {SheetStart::brought_up_roughly, after_pass(next, turned, slack(next))};
}

int furthest(const std::vector<double>& cents) {
    const auto most = std::max_element(cents.begin(), cents.end(),
                                       [](double a, double b) { return std::abs(a) < std::abs(b); });
    return static_cast<int>(most - cents.begin());
}

std::vector<double> shown_after(const Assembly& next, const ClawSetting& claw, const Strung& before) {
    const Strung after = settled(next, claw, before);
    return cents_shown(next, after.lengths_m, Attitude(after.angle_rad));
}

// The string that a little more turning moves furthest, of those that the tuner was read of last: what one
// stands at that was not is only believed.
int most_moved(const Setup& setup, const Assembly& next, const ClawSetting& claw, const Strung& strung) {
    const auto is_read = [&](std::size_t i) { return (*setup.log.back().cents)[i].has_value(); };
    bool some = false;
    for (std::size_t i = 0; !setup.log.empty() && setup.log.back().cents && i < next.strung().size(); ++i)
        some = some || is_read(i);
    std::vector<double> moved = shown_after(next, claw.turned(hand_turn), strung);
    const std::vector<double> here = shown_after(next, claw, strung);
    for (std::size_t i = 0; i < moved.size(); ++i)
        moved[i] = some && !is_read(i) ? 0.0 : moved[i] - here[i];
    return furthest(moved);
}

// Between begin and end the point at which to stop for a first, gentler pass: where neither pass has to aim
// further than the other, as near as a few tries tell.
std::vector<std::vector<double>> two_passes(const Assembly& next, const ClawSetting& claw,
                                            const Strung& begin, const StringLengths& wanted) {
    std::vector<std::vector<double>> best;
    double least = 0.0;
    for (const double share : {0.4, 0.5, 0.6, 0.7, 0.8}) {
        StringLengths part{};
        for (std::size_t i = 0; i < part.size(); ++i)
            part[i] = begin.lengths_m[i] + share * (wanted[i] - begin.lengths_m[i]);
        const Aims first = one_pass(next, claw, begin, part);
        const Aims second = one_pass(next, claw, first.after, wanted);
        const auto size = [](const Aims& aims) {
            return std::abs(aims.cents[static_cast<std::size_t>(furthest(aims.cents))]);
        };
        const double most = std::max(size(first), size(second));
        if (best.empty() || most < least) {
            best = {first.cents, second.cents};
            least = most;
        }
    }
    return best;
}

} // namespace

std::optional<WhyGentler> why_gentler(const Aims& aims, bool may_rest) {
    if (aims.most_strength > aim_strength)
        return WhyGentler::strength;
    if (aims.against_stop && !may_rest)
        return WhyGentler::stop;
    if (std::any_of(aims.cents.begin(), aims.cents.end(),
                    [](double c) { return std::abs(c) > most_aim_cents; }))
        return WhyGentler::far;
    return std::nullopt;
}

TuningSheet tuning_sheet(const Solution& solution) {
    const Setup& setup = solution.setup();
    const Advice& advice = solution.advised();
    const std::optional<Strung>& left = solution.calibration.left;
    const Assembly believed = solution.assembly_advised();
    Assembly next = believed;
    const ClawSetting turned = solution.claw.turned(*advice.turns);
    const Begin begin = beginning(solution.belief(), solution.claw, next, turned, advice.moved > 0, left);
    const Rest end = rest_at_pitch(next, turned, advice.angle_rad);
    const StringLengths wanted = lengths_at_pitch(next, Attitude(end.angle_rad));
    const Aims aims = one_pass(next, turned, begin.strung, wanted);

    TuningSheet sheet;
    sheet.start = begin.start;
    sheet.begin_cents = cents_shown(next, begin.strung.lengths_m, Attitude(begin.strung.angle_rad));
    const bool stays_on = wanted_strings_are_on(setup);
    if (stays_on && advice.moved == 0 && begin.start != SheetStart::brought_up_roughly) {
        // By what the log left, all readings weighed together: one reading has its own error.
        const Strung before = begin.start == SheetStart::from_readings ? *left : begin.strung;
        sheet.watch = most_moved(setup, believed, turned, before);
        sheet.turned_cents = shown_after(believed, turned, before);
        sheet.watch_cents = sheet.turned_cents[static_cast<std::size_t>(*sheet.watch)];
        if (std::abs(sheet.watch_cents) > most_watched_cents)
            sheet.watch.reset();
    }
    sheet.aim_cents = aims.cents;
    for (std::size_t i = 0; i < aims.cents.size(); ++i)
        sheet.aim_hz.push_back(next.strings[i].frequency_hz * std::exp2(aims.cents[i] / 1200.0));
    sheet.plain_passes = passes_needed(next, turned, begin.strung);
    sheet.why_gentler = why_gentler(aims, setup.next.rest == RestWanted::on_the_body);
    if (sheet.why_gentler)
        sheet.gentler_cents = two_passes(next, turned, begin.strung, wanted);
    return sheet;
}

} // namespace counterpull
