#include "engine/advice/at_bench.h"

#include "engine/advice/wedge.h"

#include <algorithm>

namespace counterpull {

namespace {

bool same_place(const PlacedSpring& a, const PlacedSpring& b) {
    return a.hook == b.hook && a.hole == b.hole;
}

void take_off(Arrangement& springs, const Arrangement& off) {
    std::erase_if(springs, [&](const PlacedSpring& there) {
        return std::any_of(off.begin(), off.end(),
                           [&](const PlacedSpring& one) { return same_place(there, one); });
    });
}

void hook_in(Arrangement& springs, const PlacedSpring& one) {
    springs.push_back(one);
    for (std::size_t i = springs.size() - 1; i > 0 && springs[i].hook < springs[i - 1].hook; --i)
        std::swap(springs[i], springs[i - 1]);
}

} // namespace

bool is_at_the_claw(StepKind kind) {
    return kind == StepKind::turn || kind == StepKind::turn_until;
}

void AtBench::touch() {
    rough = plain = read = as_logged = false;
    aimed = readings = 0;
}

void AtBench::let_down() {
    slack = came_down = true;
    wedged = false; // it drops out, or is in the way
    touch();
}

void AtBench::take(const StepDone& done) {
    const bool at_the_claw = is_at_the_claw(done.kind);
    if (at_the_claw && done.turned) {
        turned[0] += (*done.turned)[0];
        turned[1] += (*done.turned)[1];
    }
    turned_as_told |= at_the_claw && !done.turned && !done.happened;
    if (at_the_claw && !in_visit) {
        in_visit = true;
        ++visits;
    }
    if (done.happened)
        return go_wrong(done);
    switch (done.kind) {
    case StepKind::note:
        noted = true;
        return;
    case StepKind::test:
        tested = true;
        return;
    case StepKind::open_the_nut:
        nut_open = true;
        nut_closed = false;
        return;
    case StepKind::close_the_nut:
        nut_closed = true;
        return;
    case StepKind::slacken:
        slacken_first = false;
        return let_down();
    case StepKind::springs:
        moved_as_told |= !done.off && !done.on;
        take_off(springs, done.off.value_or(Arrangement{}));
        for (const PlacedSpring& spring : done.on.value_or(Arrangement{}))
            hook_in(springs, spring);
        return touch();
    case StepKind::turn:
        return touch();
    case StepKind::turn_until:
        touch();
        ++stopped;
        as_logged = true;
        return;
    case StepKind::strings:
        next_on = true;
        slacken_first = false;
        broken = 0;
        return touch();
    case StepKind::wedge_in:
        wedged = true;
        return touch();
    case StepKind::wedge_out:
        wedged = false;
        wedge_pulled = freed = true;
        plain = false; // it goes sharp by the surplus
        as_logged = true;
        return;
    case StepKind::tune:
        if (waited && read && !tuned_again) {
            tuned_again = true;
            return;
        }
        slack = false;
        read = as_logged = false;
        rough = true;
        plain = done.how == TuneHow::plain;
        aimed += done.how == TuneHow::aimed;
        return;
    case StepKind::read:
        as_logged = true;
        if (!plain) {
            looked = true;
            return;
        }
        read = true;
        ++readings;
        in_visit = looked = came_down = freed = false;
        stopped = 0;
        return;
    case StepKind::wait:
        waited = true;
        return;
    case StepKind::check:
        checked = true;
        return;
    case StepKind::finished:
    case StepKind::cannot:
        return;
    }
}

void AtBench::go_wrong(const StepDone& done) {
    const bool at_the_claw = is_at_the_claw(done.kind);
    switch (*done.happened) {
    case Mishap::wedge_fell_out:
        if (!wedged)
            return;
        wedged = false;
        wedge_extra += fell_out_turns;
        slacken_first = !slack;
        return touch();
    case Mishap::wedge_will_not_go_in:
        return; // it goes on without (BenchSetup::way)
    case Mishap::string_broke:
        // Strings that come off anyhow need no other.
        broken = next_on ? done.string.value_or(0) : 0;
        slacken_first = !slack; // the others are up still
        return let_down();
    case Mishap::spring_off:
        std::erase_if(springs, [&](const PlacedSpring& one) { return one.hook == done.hook; });
        return touch();
    case Mishap::screw_hard:
        if (!at_the_claw)
            return;
        ++stuck;
        slacken_first = !slack;
        return touch();
    case Mishap::no_thread: // what is left of it stands in the document
        return at_the_claw ? touch() : void();
    }
}

namespace {

// Before the first step of the job.
AtBench at_beginning(const Setup& setup) {
    if (!setup.bench)
        return as_it_stands(setup);
    AtBench at;
    const auto& before = setup.bench->before;
    at.turned = before ? before->turns : std::array<double, 2>{};
    at.springs = before ? before->springs : setup.now.springs;
    at.next_on = before ? before->strings_on : setup.now.in_tune && setup.now.strings == setup.next.strings;
    at.slack = at.came_down = !before && !setup.now.in_tune;
    return at;
}

} // namespace

AtBench as_it_stands(const Setup& setup) {
    AtBench at;
    at.springs = fitted_springs(setup);
    at.next_on = wanted_strings_are_on(setup);
    if (setup.log.empty())
        at.slack = at.came_down = !setup.now.in_tune;
    else
        at.turned = setup.log.back().turns;
    return at;
}

AtBench at_bench(const Setup& setup) {
    AtBench at = at_beginning(setup);
    if (!setup.bench)
        return at;
    const BenchSetup& bench = *setup.bench;
    bool put_on = false;
    for (std::size_t count = 1; count <= bench.done.size(); ++count) {
        const StepDone& done = bench.done[count - 1];
        at.take(done);
        put_on = put_on || (done.kind == StepKind::strings && !done.happened);
        const auto by_now = static_cast<int>(count);
        if (by_now == bench.strings_since && put_on)
            at.next_on = false;
        if (by_now == bench.strings_since || by_now == bench.tuning_since)
            at.read = at.plain = at.waited = at.tuned_again = at.checked = false;
    }
    return at;
}

} // namespace counterpull
