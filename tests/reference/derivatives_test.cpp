// Exact derivatives against an outside differentiation: GSL's central differences of the whole calculation,
// with the error that it estimates of itself.
#include "engine/advice/advice.h"
#include "engine/belief/playback.h"
#include "engine/belief/turns_spread.h"
#include "engine/document/document.h"
#include "engine/mechanics/partials.h"
#include "tests/reference/hidden_guitar.h"
#include "tests/reference/random_setup.h"
#include "tests/support.h"

#include <gsl/gsl_deriv.h>

#include <array>
#include <cmath>
#include <functional>
#include <random>

using namespace counterpull;
using namespace counterpull::test;

namespace {

struct Differentiated {
    double value, error;
};

// d f(x)/dx at zero.
Differentiated differentiated(const std::function<double(double)>& f) {
    gsl_function wrapped;
    wrapped.function = [](double x, void* at) {
        return (*static_cast<const std::function<double(double)>*>(at))(x);
    };
    wrapped.params = const_cast<std::function<double(double)>*>(&f);
    Differentiated found{};
    gsl_deriv_central(&wrapped, 0.0, 1e-3, &found.value, &found.error);
    return found;
}

// What derivatives are promised to agree to (chain.h), besides GSL's own error.
bool agrees(double ours, const Differentiated& theirs) {
    return std::abs(ours - theirs.value) <=
           exact_derivative * (1.0 + std::abs(theirs.value)) + 3.0 * theirs.error;
}

// Every kind of reading, on a guitar that stays between its stops; what is read does not matter.
std::vector<Reading> every_kind(const Setup& setup) {
    const std::size_t strings = setup.now.strings.size();
    std::vector<Reading> log;
    double turns = 0.0;
    for (const ReadingKind kind :
         {ReadingKind::bend, ReadingKind::drop, ReadingKind::after_turn, ReadingKind::in_tune,
          ReadingKind::after_turn, ReadingKind::after_pass, ReadingKind::wedge_out}) {
        Reading reading;
        reading.kind = kind;
        reading.string = kind == ReadingKind::bend ? 2 : kind == ReadingKind::drop ? 3 : 0;
        reading.by_cents = reading.string > 0 ? 150.0 : 0.0;
        reading.strings = reading.tuning = Which::now;
        reading.springs = setup.now.springs;
        turns += reading.string > 0 ? 0.0 : turns > 0.0 ? -0.07 : 0.05;
        reading.turns = {turns, turns + 0.02 * (reading.string == 0)};
        reading.tail_mm = 0.0;
        reading.cents.emplace(strings, 0.0);
        if (kind == ReadingKind::after_pass)
            reading.aim_cents.emplace(strings, 3.0);
        log.push_back(reading);
    }
    return log;
}

} // namespace

TEST_CASE(
    "how readings of every kind move with every unknown agrees with differences of the whole playback") {
    int guitars = 0, compared = 0;
    for (std::uint64_t seed = 1; guitars < 25; ++seed) {
        REQUIRE(seed < 400);
        const SetupRead read = read_setup(reference::random_setup(seed).dump());
        if (!read.setup || !read.setup->now.in_tune)
            continue;
        Setup setup = *read.setup;
        setup.log = every_kind(setup);
        Problems problems;
        if (!checked_claw_now(setup, problems))
            continue;
        const Belief belief(setup);
        Playback playback(belief);
        std::mt19937_64 random(seed);
        std::uniform_real_distribution<double> deviation(-0.3, 0.3);
        std::vector<double> x(playback.width()), predicted, jacobian;
        for (double& value : x)
            value = deviation(random);
        if (!playback.play(x, Settling::search, predicted) || !playback.linearize(x, jacobian))
            continue;
        // A float about to run away magnifies rounding: where a spread moves the tail by centimetres or a
        // string by tones, differences say nothing.
        if (std::any_of(jacobian.begin(), jacobian.end(), [](double by) { return std::abs(by) > 300.0; }))
            continue;
        ++guitars;
        std::vector<double> there;
        const std::size_t readings = predicted.size();
        for (std::size_t i = 0; i < x.size(); ++i)
            for (std::size_t o = 0; o < readings; o += 5) {
                const Differentiated theirs = differentiated([&](double by) {
                    std::vector<double> moved = x;
                    moved[i] += by;
                    playback.play(moved, Settling::near, there);
                    return there[o];
                });
                ++compared;
                INFO("guitar " << seed << ", reading " << o << " of entry "
                               << playback.observations()[o].entry << ", unknown " << i << ": "
                               << jacobian[o * x.size() + i] << " against " << theirs.value << " ± "
                               << theirs.error << ", apart " << jacobian[o * x.size() + i] - theirs.value);
                CHECK(agrees(jacobian[o * x.size() + i], theirs));
            }
    }
    CHECK(compared > 3000);
}

TEST_CASE("how the turns move with every unknown agrees with differences of the whole calculation") {
    int compared = 0;
    for (const char* name : {"small-sag", "lower-and-heavier", "six-screw-plate", "seven-strings-two-scales",
                             "strings-are-off"}) {
        Setup setup = example(name);
        setup.log.clear();
        for (const RestWanted rest : {RestWanted::floating, RestWanted::on_the_body}) {
            setup.next.rest = rest;
            const Belief belief(setup);
            const Report report = answered(setup);
            const Advice& advice = report.solution.advice.front();
            REQUIRE(advice.turns);
            if (advice.hindrances.just_closed)
                continue;
            const double extra = rest == RestWanted::on_the_body ? held_extra_turns : 0.0;
            const TurnsSpread spread(belief, report.now.claw, advice.angle_rad);
            const Deviations ours =
                spread.gradient(belief.assembly(fitting_next(setup, advice.springs)), *advice.turns - extra);
            for (int u = 0; u < most_unknowns; ++u) {
                if (!belief.used(u))
                    continue;
                const Differentiated theirs = differentiated([&](double by) {
                    Deviations z{};
                    z[static_cast<std::size_t>(u)] = by;
                    Problems problems;
                    const auto claw = belief.claw(belief.assembly(fitting_now(setup), z), z, problems);
                    const Assembly next = belief.assembly(fitting_next(setup, advice.springs), z);
                    return turns_to_balance(next, *claw, Attitude(advice.angle_rad),
                                            torque_to_balance_nm(setup, next, advice.angle_rad))
                        .at;
                });
                ++compared;
                INFO(name << ", unknown " << u << ": " << ours[static_cast<std::size_t>(u)] << " against "
                          << theirs.value << " ± " << theirs.error);
                CHECK(agrees(ours[static_cast<std::size_t>(u)], theirs));
            }
        }
    }
    CHECK(compared > 100);
}

TEST_CASE(
    "a string's torque moves with the attitude as its partial says, at pitch and with its tuner untouched") {
    const Setup setup = example("small-sag");
    const Assembly assembly = assembly_of(setup, fitting_now(setup));
    for (const double angle : {-0.05, 0.0, 0.08}) {
        const Attitude here(angle);
        const StringLengths lengths = lengths_at_pitch(assembly, here);
        double free = 0.0;
        for (std::size_t i = 0; i < assembly.strung().size(); ++i) {
            const StringOnBridge& string = assembly.strings[i];
            const auto at_pitch = [&](double by) {
                return string_torque_at_pitch(string, Attitude(angle + by)).value;
            };
            CHECK(agrees(torque_partials_at_pitch(string, string.frequency_hz, here).angle,
                         differentiated(at_pitch)));
            free += torque_partials_free(string, lengths[i], here).angle;
        }
        const auto untouched = [&](double by) {
            return string_torque_free(assembly, lengths, Attitude(angle + by)).value;
        };
        CHECK(agrees(free, differentiated(untouched)));
    }
}
