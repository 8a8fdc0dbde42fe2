#include "engine/say/names.h"

#include "engine/base/put_in_order.h"
#include "engine/base/units.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

Phrase thread_reason(const BaySetup& bay, double turns) {
    return Phrase(turns > 0.0 ? "reason.thread_in" : "reason.thread_out")
        .with("turns", number(std::abs(turns), 1))
        .with("left", number(turns > 0.0 ? bay.turns_in_left : bay.turns_out_left, shortest_digits));
}

Phrase overstretched_reason(const Setup& setup, const PlacedSpring& placed, const SpringState& state) {
    return Phrase("reason.overstretched")
        .with("length", millimetres(state.length_mm, 0))
        .with("longest",
              millimetres(placed.spring.value_or(setup.guitar.spring).longest_mm, shortest_digits));
}

std::vector<Phrase> why_not(const Setup& setup, const Advice& advice) {
    std::vector<Phrase> reasons;
    // Several springs may say the same.
    auto add = [&](Phrase reason) {
        if (std::find(reasons.begin(), reasons.end(), reason) == reasons.end())
            reasons.push_back(std::move(reason));
    };
    const Hindrances& why = advice.hindrances;
    if (why.no_claw_position)
        add({"reason.no_claw_position"});
    if (why.springs_missing)
        add(Phrase("reason.not_owned")
                .with("needed", springs_needed(advice.springs))
                .with("owned", springs_owned(setup)));
    if (why.thread_short)
        add(thread_reason(setup.guitar.bay, *advice.turns));
    if (why.just_closed)
        add({"reason.closed"});
    for (std::size_t i = 0; i < advice.springs_after.size(); ++i) {
        const SpringState& state = advice.springs_after[i];
        if (state.use == SpringUse::overstretched)
            add(overstretched_reason(setup, advice.springs[i], state));
        if (state.use == SpringUse::closed)
            add({"reason.closed"});
    }
    if (why.unstable)
        add({"reason.unstable"});
    return reasons;
}

// What to know about an arrangement that fits.
std::vector<Phrase> what_to_know(const Advice& advice) {
    std::vector<Phrase> all = {{"reason.fits"}};
    if (advice.splayed)
        all.push_back({"reason.splayed"});
    if (advice.thread_left() < spare_turns)
        all.push_back({"reason.little_thread"});
    if (advice.measure_first)
        all.push_back({"reason.measure_first"});
    if (advice.unsure())
        all.push_back(
            Phrase("reason.unsure")
                .with("tail", millimetres(mm_from_metres(ninety_percent * advice.tail_sigma_m), 1)));
    return all;
}

List counted(const Arrangement& springs, int PlacedSpring::*at) {
    std::vector<int> places;
    for (const PlacedSpring& spring : springs)
        places.push_back(spring.*at + 1);
    put_in_order(places, std::less<int>());
    List list;
    for (const int number : places)
        list.things.push_back({Part(number)});
    return list;
}

} // namespace

std::vector<Phrase> reasons_of(const Setup& setup, const Advice& advice) {
    return advice.fits() ? what_to_know(advice) : why_not(setup, advice);
}

Phrase main_reason(const Setup& setup, const Advice& advice) {
    return reasons_of(setup, advice).front();
}

Phrase sentence_of(const Warning& warning) {
    switch (warning.kind) {
    case WarningKind::strength:
    case WarningKind::breaks:
        return Phrase(warning.kind == WarningKind::strength ? "warning.strength" : "warning.breaks")
            .with("string", warning.string)
            .with("percent", number(100.0 * warning.share, 0));
    case WarningKind::unstable_now:
        return {"warning.unstable_now"};
    case WarningKind::spring_closed:
        return {"warning.spring_closed"};
    case WarningKind::wanted_at_stop:
        return {"warning.wanted_at_stop"};
    case WarningKind::nut_locked:
        return {"warning.nut_locked"};
    case WarningKind::readings_pull_apart: {
        List entries;
        for (const int entry : warning.entries)
            entries.things.push_back({number(entry, 0)});
        return Phrase("warning.readings_pull_apart").with("entries", std::move(entries));
    }
    case WarningKind::reading_unexplained:
        return Phrase("warning.reading_unexplained").with("entry", warning.entry);
    case WarningKind::reading_unexpected:
        if (warning.string == 0)
            return Phrase("warning.tail_unexpected")
                .with("entry", warning.entry)
                .with("expected", signed_millimetres(warning.expected, 1))
                .with("read", signed_millimetres(warning.read, 1));
        return Phrase("warning.cents_unexpected")
            .with("entry", warning.entry)
            .with("string", warning.string)
            .with("expected", signed_number(warning.expected, 0))
            .with("read", signed_number(warning.read, 0));
    case WarningKind::spring_lengths_apart:
        return {"warning.spring_lengths_apart"};
    case WarningKind::fit_not_settled:
        return {"warning.fit_not_settled"};
    case WarningKind::direction_held:
        return {"warning.direction_held"};
    case WarningKind::reading_left_out:
        break;
    }
    return Phrase("warning.reading_left_out")
        .with("entry", warning.entry)
        .with("sigmas", number(warning.sigmas, 0));
}

Phrase sentence_of(const Alternative& alternative) {
    const char* key = alternative.change == Change::springs   ? "instead.springs"
                      : alternative.change == Change::strings ? "instead.strings"
                      : alternative.semitones < 0             ? "instead.lower"
                                                              : "instead.higher";
    return Phrase(key)
        .with("name", Parts{PresetName{alternative.preset}})
        .with("count", alternative.springs.size())
        .with("semitones", std::abs(alternative.semitones));
}

List hooks_of(const Arrangement& springs) {
    return counted(springs, &PlacedSpring::hook);
}

List holes_of(const Arrangement& springs) {
    return counted(springs, &PlacedSpring::hole);
}

Phrase name_of(Unknown unknown) {
    switch (unknown) {
    case Unknown::spring_rate:
        return {"unknown.spring_rate"};
    case Unknown::free_length:
        return {"unknown.free_length"};
    case Unknown::initial_tension:
        return {"unknown.initial_tension"};
    case Unknown::saddle_height:
        return {"unknown.saddle_height"};
    case Unknown::saddle_setback:
        return {"unknown.saddle_setback"};
    case Unknown::block_depth:
        return {"unknown.block_depth"};
    case Unknown::block_setback:
        return {"unknown.block_setback"};
    case Unknown::screw_pitch:
        return {"unknown.screw_pitch"};
    case Unknown::dead_length:
        return {"unknown.dead_length"};
    case Unknown::core:
        return {"unknown.core"};
    case Unknown::friction_now:
        return {"unknown.friction_now"};
    case Unknown::tail_now:
        return {"unknown.tail_now"};
    case Unknown::springs_now:
        return {"unknown.springs_now"};
    case Unknown::screws_now:
        return {"unknown.screws_now"};
    case Unknown::weights:
        break;
    }
    return {"unknown.weights"};
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

Parts shown_by_tuner(const Pitch& note, double cents) {
    const ShownNote shown = shown_note(note, cents);
    return {shown.note, " ", signed_number(shown.cents, 0)};
}

Parts beside_shown(const Pitch& note, double cents) {
    if (key_number(shown_note(note, cents).note) == key_number(note))
        return {};
    return {Phrase("aims.beside").with("note", Parts{note}).with("cents", signed_number(cents, 0))};
}

} // namespace counterpull
