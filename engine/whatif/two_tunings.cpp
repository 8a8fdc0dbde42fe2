#include "engine/whatif/two_tunings.h"

#include "engine/advice/string_search.h"
#include "engine/base/put_in_order.h"
#include "engine/document/presets.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

bool springs_serve(const Assembly& assembly, const ClawSetting& claw, double angle_rad) {
    const Attitude attitude(angle_rad);
    return std::all_of(assembly.sprung().begin(), assembly.sprung().end(), [&](const SpringOnBridge& on) {
        const double length = spring_length_m(assembly, on, claw, attitude);
        return length > on.spring.free_length_m && length <= on.spring.longest_m;
    });
}

bool strong_enough(const Assembly& assembly, double angle_rad) {
    const Attitude attitude(angle_rad);
    return std::all_of(assembly.strung().begin(), assembly.strung().end(), [&](const StringOnBridge& string) {
        const double tension = tension_at_pitch_n(string, attitude);
        return tension > 0.0 && tension <= comfortable_strength * string.mechanics.breaking_load_n;
    });
}

// However its notes are spelt; one tuning with other offsets is no other.
bool same_notes(const std::vector<Pitch>& a, const std::vector<Pitch>& b) {
    return std::equal(a.begin(), a.end(), b.begin(), b.end(), [](const Pitch& left, const Pitch& right) {
        return key_number(left) == key_number(right);
    });
}

// Nothing where these springs do not hold the first tuning, or one is shut or too long in either, or, where
// that is asked, a string too weak.
std::optional<TuningMove> move_with(const Solution& solution, const std::vector<StringSetup>& strings,
                                    const Arrangement& springs, bool check_strength) {
    const Setup& setup = solution.setup();
    const Belief& belief = solution.belief();
    const ClawSetting& claw = solution.claw_as_said; // any serves: the turns are sought
    const double wanted = angle_of_tail_rad(setup, setup.next.tail_mm);
    const Assembly first =
        belief.assembly({strings, setup.now.tuning, setup.now.offset_cents, springs, Which::next});
    const Assembly second =
        belief.assembly({strings, setup.next.tuning, setup.next.offset_cents, springs, Which::next});
    if (check_strength && !(strong_enough(first, wanted) && strong_enough(second, wanted)))
        return std::nullopt;
    const Root turns = turns_for_attitude(first, claw, wanted);
    if (!turns.found() || net_torque_at_pitch(first, claw.turned(turns.at), wanted).slope >= 0.0 ||
        !springs_serve(first, claw.turned(turns.at), wanted))
        return std::nullopt;
    const Rest to = rest_at_pitch(second, claw.turned(turns.at), wanted);
    if (!springs_serve(second, claw.turned(turns.at), to.angle_rad))
        return std::nullopt;
    return TuningMove{springs, "", tail_at_angle_m(second.bridge, to.angle_rad), to.kind};
}

} // namespace

std::vector<TuningMove> between_tunings(const Solution& solution) {
    const Setup& setup = solution.setup();
    std::vector<TuningMove> moves;
    if (setup.now.tuning.size() != setup.next.tuning.size() ||
        same_notes(setup.now.tuning, setup.next.tuning) || setup.next.rest == RestWanted::on_the_body)
        return moves;
    for (const Arrangement& springs : straight_arrangements(setup))
        if (auto found = move_with(solution, setup.next.strings, springs, false))
            moves.push_back(std::move(*found));
    const double from = setup.next.tail_mm * 1e-3;
    put_in_order(moves, [&](const TuningMove& a, const TuningMove& b) {
        return std::abs(a.moves_m(from)) < std::abs(b.moves_m(from));
    });
    return moves;
}

std::optional<TuningMove> set_that_moves_least(const Solution& solution, const TuningMove& best) {
    const Setup& setup = solution.setup();
    const double from = setup.next.tail_mm * 1e-3;
    std::optional<TuningMove> least;
    for (const StringSetPreset& set : presets().string_sets) {
        if (set.strings.size() != setup.next.strings.size() || set.strings == setup.next.strings)
            continue;
        auto found = move_with(solution, set.strings, best.springs, true);
        if (!found || std::abs(found->moves_m(from)) >= std::abs((least ? *least : best).moves_m(from)))
            continue;
        found->set = set.name;
        least = std::move(found);
    }
    return least;
}

} // namespace counterpull
