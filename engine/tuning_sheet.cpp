#include "engine/tuning_sheet.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

struct Begin {
    SheetStart start;
    Strung strung;
};

// The newest entry whose cents say how all strings are tuned: not one where a string was bent or let down.
const Reading* newest_tuner_reading(const Setup& setup) {
    if (setup.log.empty())
        return nullptr;
    const Reading& last = setup.log.back();
    const bool tells = last.cents && last.kind != ReadingKind::bend && last.kind != ReadingKind::drop &&
                       last.strings == Which::next;
    return tells ? &last : nullptr;
}

// The bridge as that reading found it: every string sounds what was read (in tune where it was not read).
Strung as_read(const Belief& belief, const ClawSetting& claw, const Reading& reading) {
    const Setup& setup = belief.setup();
    const Fitting fitting{setup.next.strings,
                          reading.tuning == Which::next ? setup.next.tuning : setup.now.tuning,
                          reading.tuning == Which::next ? setup.next.offset_cents : setup.now.offset_cents,
                          reading.springs, Which::next};
    const Assembly assembly = belief.assembly(fitting);
    Tuners tuners = all_at_pitch(assembly);
    for (std::size_t i = 0; i < assembly.strung().size(); ++i)
        tuners.pitch_hz[i] *= std::exp2((*reading.cents)[i].value_or(0.0) / 1200.0);
    const ClawSetting turned{claw.x_m, claw.bass_turns + reading.turns[0],
                             claw.treble_turns + reading.turns[1]};
    // Where it was let go it stands, stable when retuned or not; the tail reading says where to look.
    const double from = reading.tail_mm ? angle_of_tail_rad(setup, *reading.tail_mm)
                                        : angle_of_tail_rad(setup, setup.next.tail_mm);
    Strung strung;
    strung.angle_rad = rest(assembly, tuners, turned, from).angle_rad;
    strung.lengths_m = lengths_as_tuned(assembly, tuners, Attitude(strung.angle_rad));
    return strung;
}

Begin beginning(const Belief& belief, const ClawSetting& claw, const Assembly& next,
                const ClawSetting& turned) {
    const Setup& setup = belief.setup();
    if (const Reading* reading = newest_tuner_reading(setup))
        return {SheetStart::from_readings, settled(next, turned, as_read(belief, claw, *reading))};
    if (is_under_way(setup)) { // in tune at the last reading, then turned on
        const Reading& last = setup.log.back();
        const Assembly then = belief.assembly(fitting_next(setup, last.springs));
        const ClawSetting at{claw.x_m, claw.bass_turns + last.turns[0], claw.treble_turns + last.turns[1]};
        const double from = last.tail_mm ? angle_of_tail_rad(setup, *last.tail_mm) : 0.0;
        Strung strung;
        strung.angle_rad = rest_at_pitch(then, at, from).angle_rad;
        strung.lengths_m = lengths_at_pitch(then, Attitude(strung.angle_rad));
        return {SheetStart::as_the_turn_leaves, settled(next, turned, strung)};
    }
    if (setup.now.in_tune && setup.now.strings == setup.next.strings) {
        const Assembly now = belief.assembly(fitting_now(setup));
        Strung strung;
        strung.angle_rad = belief.angle_now_rad(belief.mean());
        strung.lengths_m = lengths_at_pitch(now, Attitude(strung.angle_rad));
        return {SheetStart::as_the_turn_leaves, settled(next, turned, strung)};
    }
    return {SheetStart::brought_up_roughly, after_pass(next, turned, slack(next))};
}

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

} // namespace

TuningSheet tuning_sheet(const Belief& belief, const ClawSetting& claw, const Advice& advice) {
    const Setup& setup = belief.setup();
    const Assembly next = belief.assembly(fitting_next(setup, advice.springs));
    const ClawSetting turned = claw.turned(*advice.turns);
    const StringLengths wanted = lengths_at_pitch(next, Attitude(advice.angle_rad));
    const Begin begin = beginning(belief, claw, next, turned);
    const Aims aims = one_pass(next, turned, begin.strung, wanted);

    TuningSheet sheet;
    sheet.start = begin.start;
    sheet.aim_cents = aims.cents;
    for (std::size_t i = 0; i < aims.cents.size(); ++i)
        sheet.aim_hz.push_back(next.strings[i].frequency_hz * std::exp2(aims.cents[i] / 1200.0));
    sheet.plain_passes = passes_needed(next, turned, begin.strung);
    sheet.why_gentler = why_gentler(aims, setup.next.rest == RestWanted::on_the_body);
    if (sheet.why_gentler) {
        StringLengths half{};
        for (std::size_t i = 0; i < half.size(); ++i)
            half[i] = 0.5 * (begin.strung.lengths_m[i] + wanted[i]);
        const Aims first = one_pass(next, turned, begin.strung, half);
        sheet.gentler_cents = {first.cents, one_pass(next, turned, first.after, wanted).cents};
    }
    return sheet;
}

std::string_view name_of(SheetStart start) {
    switch (start) {
    case SheetStart::as_the_turn_leaves:
        return "as the claw turn leaves them";
    case SheetStart::brought_up_roughly:
        return "brought up roughly";
    case SheetStart::from_readings:
        break;
    }
    return "from readings";
}

Phrase why_in_words(WhyGentler why) {
    switch (why) {
    case WhyGentler::far:
        return {"tuning.far"};
    case WhyGentler::strength:
        return {"tuning.strength"};
    case WhyGentler::stop:
        break;
    }
    return {"tuning.stop"};
}

} // namespace counterpull
