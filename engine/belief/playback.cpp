#include "engine/belief/playback.h"

#include "engine/base/units.h"
#include "engine/document/placed_springs.h"

#include <algorithm>
#include <cmath>

namespace counterpull {

namespace {

// No attitude moves by more than this for one spread of an unknown, rad. With strings slack and springs shut
// nothing holds the bridge: then there is no slope to follow.
constexpr double steepest_rad = 10.0;

// A tail read so near to a stop may as well lie on it.
constexpr double near_stop_mm = 0.5;

// Where there is no stop a tail is followed as far as this share of its length, either way.
constexpr double farthest_tilt = 0.9;

bool on_a_stop(const Bridge& bridge, double angle_rad) {
    return angle_rad <= lowest_angle_rad(bridge) || angle_rad >= highest_angle_rad(bridge);
}

Assembly without_stops(Assembly assembly) {
    assembly.bridge.tail_high_m = farthest_tilt * assembly.bridge.tail_m;
    assembly.bridge.tail_low_m = -assembly.bridge.tail_high_m;
    return assembly;
}

bool same_assembly(const Reading& a, const Reading& b) {
    return a.strings == b.strings && a.tuning == b.tuning && springs_moved(a.springs, b.springs) == 0 &&
           a.own == b.own;
}

bool pushes_one(ReadingKind kind) {
    return kind == ReadingKind::bend || kind == ReadingKind::drop;
}

} // namespace

double tuner_sigma(double cents) {
    return std::hypot(tuner_reading_cents, tuner_reading_share * cents);
}

Playback::Playback(const Belief& belief)
    : belief_(belief), friction_sigma_nm_(friction_sigma_nm(belief.setup().guitar)) {
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
        if (turned) {
            unknowns_.visits.push_back(unknowns_.of_entries++);
            const double share = screw_reading_turns / uncounted_turns;
            unknowns_.precision.push_back(reading.counted ? 1.0 : share * share);
        }
        visit_of_.push_back(static_cast<int>(visits()) - 1);
        friction_of_.push_back(unknowns_.of_entries++);
        wedge_of_.push_back(reading.kind == ReadingKind::wedge_out ? static_cast<int>(unknowns_.of_entries++)
                                                                   : -1);
        std::size_t model = 0;
        while (model < first_of_.size() && !same_assembly(setup.log[first_of_[model]], reading))
            ++model;
        if (model == first_of_.size())
            first_of_.push_back(e);
        assembly_of_.push_back(model);
        const int entry = static_cast<int>(e);
        if (reading.tail_mm)
            observations_.push_back({entry, Observed::tail, 0, *reading.tail_mm, tail_reading_mm,
                                     *reading.tail_mm <= limits[0] + near_stop_mm   ? -1
                                     : *reading.tail_mm >= limits[1] - near_stop_mm ? 1
                                                                                    : 0});
        if (!reading.cents || reading.kind == ReadingKind::in_tune)
            continue; // in tune, what is read says how it was tuned
        const auto count = static_cast<int>(reading.cents->size());
        for (int i = 0; i < count; ++i)
            if (const auto& cents = (*reading.cents)[static_cast<std::size_t>(i)])
                if (!pushes_one(reading.kind) || i != count - reading.string)
                    observations_.push_back({entry, Observed::cents, i, *cents, tuner_sigma(*cents), 0});
    }
    Columns& columns = unknowns_.columns;
    columns.of.fill(-1);
    unknowns_.width = unknowns_.of_entries;
    for (int u = 0; u < most_unknowns; ++u)
        if (belief.used(u) && u != static_cast<int>(Unknown::screws_now))
            columns.of[static_cast<std::size_t>(u)] = static_cast<int>(unknowns_.width++);
}

Deviations Playback::deviations(ConstDerivatives x) const {
    Deviations z{};
    for (std::size_t u = 0; u < z.size(); ++u)
        if (const int column = unknowns_.columns.of[u]; column >= 0)
            z[u] = x[static_cast<std::size_t>(column)];
    if (visits() > 0)
        z[static_cast<std::size_t>(Unknown::screws_now)] = x[unknowns_.visits.back()];
    return z;
}

Playback::Model Playback::model_of(const Fitting& fitting, const Deviations& z) const {
    Model model{belief_.assembly(fitting, z), std::nullopt};
    if (linearizing_)
        model.chain.emplace(belief_, fitting, model.assembly, z, unknowns_.columns);
    return model;
}

void Playback::slacken(const Model& model, Moment& moment) const {
    const Strung loose = slack(model.assembly);
    moment.strung.lengths_m = loose.lengths_m;
    for (std::size_t i = 0; linearizing_ && i < model.assembly.strung().size(); ++i) {
        const Derivatives row = length_row(moment, i);
        std::fill(row.begin(), row.end(), 0.0);
        model.chain->add(i, slack_partials(model.assembly.strings[i], Attitude(loose.angle_rad)), 1.0, row);
    }
}

// dθ/dx = −(∂τ/∂x)/(∂τ/∂θ), the strings by their own numbers and, where their tuners are untouched, by the
// lengths they have; the springs by theirs and by where their hooks are.
void Playback::move_angle(const Stage& stage, const Tuners& tuners, Moment& moment) const {
    const Assembly& assembly = stage.model.assembly;
    const Chain& chain = *stage.model.chain;
    const Attitude attitude(moment.strung.angle_rad);
    const Derivatives row = angle_row(moment);
    std::fill(row.begin(), row.end(), 0.0);
    for (std::size_t i = 0; i < assembly.strung().size(); ++i) {
        const StringOnBridge& string = assembly.strings[i];
        if (const double hz = tuners.pitch_hz[i]; hz > 0.0) {
            chain.add(i, torque_partials_at_pitch(string, hz, attitude), 1.0, row);
            continue;
        }
        const StringPartials by = torque_partials_free(string, tuners.lengths_m[i], attitude);
        chain.add(i, by, 1.0, row);
        add_scaled(by.unstretched, length_row(moment, i), row);
    }
    const double per_x = add_spring_torque(assembly, chain, stage.claw, attitude, 1.0, row);
    add_scaled(per_x, claw_row_, row);
    if (stage.visit >= 0)
        row[static_cast<std::size_t>(stage.visit)] +=
            per_x * assembly.claw.screw_pitch_m * screw_reading_turns;
    row[static_cast<std::size_t>(stage.friction)] += friction_sigma_nm_;
    const double slope = net_torque(assembly, tuners, stage.claw, moment.strung.angle_rad).slope;
    for (double& value : row)
        value = std::abs(value) < steepest_rad * std::abs(slope) ? -value / slope : 0.0;
}

void Playback::settle(const Stage& stage, const Tuners& tuners, Moment& moment) {
    last_tuners_ = tuners;
    if (settled_ == found_.size())
        found_.emplace_back();
    Found& found = found_[settled_++];
    if (!linearizing_) {
        const Assembly& assembly = stage.model.assembly;
        const double from = moment.strung.angle_rad;
        const Rest at = how_ == Settling::near && !found.at_stop
                            ? rest_near(assembly, tuners, stage.claw, found.angle_rad, from)
                            : rest(assembly, tuners, stage.claw, from);
        found = {at.angle_rad, at.kind != RestKind::floats};
    }
    moment.strung.angle_rad = found.angle_rad;
    if (linearizing_ && !found.at_stop)
        move_angle(stage, tuners, moment);
    else if (linearizing_)
        std::fill_n(moment.rows.begin(), width(), 0.0);
}

Playback::Moment& Playback::unstopped(const Stage& stage) {
    if (!on_a_stop(stage.model.assembly.bridge, shown_.strung.angle_rad)) {
        if (settled_ == found_.size())
            found_.emplace_back();
        found_[settled_++].at_stop = true; // its place is kept: the next time it is sought in full
        return shown_;
    }
    beyond_ = shown_;
    const Model free{without_stops(stage.model.assembly), stage.model.chain};
    const Tuners tuners = last_tuners_;
    settle({free, stage.claw, stage.visit, stage.friction, stage.wedge, stage.wedge_off_mm}, tuners, beyond_);
    return beyond_;
}

// Strings at pitch take the lengths that this attitude gives them, the others keep theirs.
void Playback::tune_at(const Model& model, const Tuners& tuners, Moment& moment) const {
    const Attitude attitude(moment.strung.angle_rad);
    moment.strung.lengths_m = lengths_as_tuned(model.assembly, tuners, attitude);
    for (std::size_t i = 0; linearizing_ && i < model.assembly.strung().size(); ++i) {
        if (tuners.pitch_hz[i] <= 0.0)
            continue;
        const StringPartials by =
            unstretched_partials(model.assembly.strings[i], tuners.pitch_hz[i], attitude);
        const Derivatives row = length_row(moment, i);
        std::fill(row.begin(), row.end(), 0.0);
        model.chain->add(i, by, 1.0, row);
        add_scaled(by.angle, angle_row(moment), row);
    }
}

void Playback::settle_and_tune(const Stage& stage, const Tuners& tuners, Moment& moment) {
    settle(stage, tuners, moment);
    tune_at(stage.model, tuners, moment);
}

// Leaves the bridge in `left_` as the entry leaves it, in `shown_` as it stood while it was read.
void Playback::play_entry(const Reading& reading, const Stage& stage, bool in_tune) {
    const Assembly& assembly = stage.model.assembly;
    Tuners pitched = all_at_pitch(assembly);
    auto one_at = [&](const Moment& moment, std::size_t string, double cents) {
        return one_at_pitch(moment.strung.lengths_m, static_cast<int>(string),
                            assembly.strings[string].frequency_hz * std::exp2(cents / 1200.0));
    };
    switch (reading.kind) {
    case ReadingKind::in_tune:
        for (std::size_t i = 0; reading.cents && i < reading.cents->size(); ++i)
            pitched.pitch_hz[i] *= std::exp2((*reading.cents)[i].value_or(0.0) / 1200.0);
        settle_and_tune(stage, pitched, left_);
        break;
    case ReadingKind::after_turn:
        settle(stage, untouched(left_.strung.lengths_m), left_);
        break;
    case ReadingKind::after_pass:
        settle(stage, untouched(left_.strung.lengths_m), left_);
        for (std::size_t i = 0; i < assembly.strung().size(); ++i)
            settle_and_tune(stage, one_at(left_, i, reading.aim_cents ? (*reading.aim_cents)[i] : 0.0),
                            left_);
        break;
    case ReadingKind::bend:
    case ReadingKind::drop: {
        if (!in_tune) // else it stands as it was left; let go, or tuned back, it stands so again
            settle_and_tune(stage, pitched, left_);
        shown_ = left_;
        const auto string = static_cast<std::size_t>(assembly.string_count - reading.string);
        const double by = reading.kind == ReadingKind::bend ? reading.by_cents : -reading.by_cents;
        return settle_and_tune(stage, one_at(shown_, string, by), shown_);
    }
    case ReadingKind::wedge_out:
        left_.strung.angle_rad =
            angle_of_tail_rad(belief_.setup(), belief_.setup().next.tail_mm + stage.wedge_off_mm);
        if (linearizing_) {
            std::fill_n(left_.rows.begin(), width(), 0.0);
            angle_row(left_)[static_cast<std::size_t>(stage.wedge)] =
                angle_now_per_z(belief_, left_.strung.angle_rad);
        }
        tune_at(stage.model, pitched, left_);
        settle(stage, untouched(left_.strung.lengths_m), left_);
        break;
    }
    shown_ = left_;
}

void Playback::observe_springs(const Stage& stage, std::size_t& next, std::vector<double>& out) {
    const Assembly& now = stage.model.assembly;
    const Attitude attitude(left_.strung.angle_rad);
    for (; next < observations_.size() && observations_[next].entry < 0; ++next) {
        const SpringOnBridge& spring = now.springs[static_cast<std::size_t>(observations_[next].index)];
        if (!linearizing_) {
            out.push_back(mm_from_metres(spring_length_m(now, spring, stage.claw, attitude)));
            continue;
        }
        const SpringPartials by = length_partials(now, spring, stage.claw, attitude);
        const Derivatives row{out.data() + next * width(), width()};
        const double mm = mm_from_metres(1.0);
        stage.model.chain->add(spring.spring, by, mm, row);
        add_scaled(mm * by.hook_x, claw_row_, row);
        add_scaled(mm * by.angle, angle_row(left_), row);
    }
}

void Playback::observe(const Stage& stage, int entry, std::size_t& next, std::vector<double>& out) {
    const Assembly& assembly = stage.model.assembly;
    const Attitude attitude(shown_.strung.angle_rad);
    for (; next < observations_.size() && observations_[next].entry == entry; ++next) {
        const Observation& seen = observations_[next];
        const auto i = static_cast<std::size_t>(seen.index);
        const Derivatives row{linearizing_ ? out.data() + next * width() : nullptr,
                              linearizing_ ? width() : 0};
        if (seen.what == Observed::tail) {
            Moment& free = unstopped(stage);
            const double angle_rad = free.strung.angle_rad;
            if (linearizing_)
                add_scaled(mm_from_metres(assembly.bridge.tail_m) * std::cos(angle_rad), angle_row(free),
                           row);
            else
                out.push_back(mm_from_metres(tail_at_angle_m(assembly.bridge, angle_rad)));
            continue;
        }
        const StringOnBridge& string = assembly.strings[i];
        const double length = shown_.strung.lengths_m[i];
        if (!linearizing_) {
            out.push_back(cents_shown(string, length, attitude));
            continue;
        }
        const StringPartials by = cents_partials(string, length, attitude);
        stage.model.chain->add(i, by, 1.0, row);
        add_scaled(by.angle, angle_row(shown_), row);
        add_scaled(by.unstretched, length_row(shown_, i), row);
    }
}

bool Playback::play(ConstDerivatives x, Settling how, std::vector<double>& predicted) {
    how_ = how;
    linearizing_ = false;
    predicted.clear();
    return run(x, predicted);
}

bool Playback::linearize(ConstDerivatives x, std::vector<double>& jacobian) {
    linearizing_ = true;
    jacobian.assign(observations_.size() * width(), 0.0);
    for (Moment* moment : {&left_, &shown_})
        moment->rows.assign((1 + most_strings) * width(), 0.0);
    return run(x, jacobian);
}

bool Playback::run(ConstDerivatives x, std::vector<double>& out) {
    const Setup& setup = belief_.setup();
    const Deviations z = deviations(x);
    settled_ = 0;
    const Model now = model_of(fitting_now(setup), z);
    Problems problems;
    const auto claw = belief_.claw(now.assembly, z, problems);
    if (!claw)
        return false;
    left_.strung = {{}, belief_.angle_now_rad(z)};
    if (linearizing_) {
        claw_row_.assign(width(), 0.0);
        add_claw_now(belief_, now.assembly, *now.chain, *claw, z, claw_row_);
        angle_row(left_)[static_cast<std::size_t>(unknowns_.columns[Unknown::tail_now])] =
            angle_now_per_z(belief_, left_.strung.angle_rad);
    }
    if (setup.now.in_tune)
        tune_at(now, all_at_pitch(now.assembly), left_);
    std::size_t next = 0; // observation
    observe_springs({now, *claw}, next, out);

    models_.clear();
    for (const std::size_t first : first_of_)
        models_.push_back(model_of(fitting_of(setup, setup.log[first]), z));
    bool has_lengths = setup.now.in_tune;
    const Fitting as_now = fitting_now(setup);
    const std::vector<StringSetup>* on = &as_now.strings;
    // In which tuning it is, all strings at pitch with the screws as they are; nothing where it is out of
    // tune.
    const std::vector<Pitch>* in = setup.now.in_tune ? &as_now.tuning : nullptr;
    const PerString* off = &as_now.offset_cents;
    for (std::size_t e = 0; e < setup.log.size(); ++e) {
        const Reading& reading = setup.log[e];
        const int visit = visit_place(e);
        const double error = visit < 0 ? 0.0 : screw_reading_turns * x[static_cast<std::size_t>(visit)];
        Model& model = models_[assembly_of_[e]];
        model.assembly.unexplained_nm = friction_sigma_nm_ * x[friction_of_[e]];
        const Stage stage{
            model,
            {claw->x_m, reading.turns[0] + error, reading.turns[1] + error},
            visit,
            static_cast<int>(friction_of_[e]),
            wedge_of_[e],
            wedge_of_[e] < 0 ? 0.0 : tail_reading_mm * x[static_cast<std::size_t>(wedge_of_[e])]};
        // Where springs were changed the strings came down for it.
        const Arrangement& springs_before = e > 0 ? setup.log[e - 1].springs : setup.now.springs;
        const Fitting fitting = fitting_of(setup, reading);
        const bool same =
            has_lengths && springs_moved(reading.springs, springs_before) == 0 && fitting.strings == *on;
        if (!same || reading.from_slack)
            slacken(stage.model, left_);
        const bool turned = e > 0 ? visit_of_[e] != visit_of_[e - 1] : visit >= 0;
        play_entry(reading, stage,
                   same && !reading.from_slack && !turned && in && fitting.tuning == *in &&
                       fitting.offset_cents == *off);
        on = &fitting.strings;
        off = &fitting.offset_cents;
        const bool tuned =
            pushes_one(reading.kind) || (reading.kind == ReadingKind::in_tune && !reading.cents);
        in = tuned ? &fitting.tuning : nullptr;
        has_lengths = true;
        observe(stage, static_cast<int>(e), next, out);
    }
    return true;
}

} // namespace counterpull
